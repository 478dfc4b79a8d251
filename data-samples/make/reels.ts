import type { Random } from '../../src/stats/random.ts';
import { at } from './at.ts';
import { breakChance } from './chances.ts';
import { chance, whole } from './draws.ts';
import type { PlannedTrip } from './plan-trips.ts';
import type { World } from './world.ts';

/** One filling of one rod's reel, as it goes into spools.csv. */
export interface Filling {
  readonly rod: string;
  readonly date: string;
  readonly line_type: string;
  readonly line_class_lb: number;
  readonly cost: number;
  readonly reason: string;
}

interface Reel {
  readonly filling: Filling;
  readonly lifeTrips: number;
  trips: number;
  fights: number;
  damaged: boolean;
}

/** Chance that a break takes so much line off that the reel has to be filled anew. */
const SPOILT_BY_BREAK = 0.1;

/** The reels of the boat through the season: what line they hold, and how old it is. */
export class Reels {
  readonly fillings: Filling[] = [];
  readonly #reels = new Map<string, Reel>();

  constructor(
    private readonly world: World,
    private readonly random: Random,
    rods: readonly string[],
  ) {
    const date = (world.line_class_lb[0] as { from: string }).from;
    for (const rod of rods) this.#fill(rod, date, 'scheduled');
  }

  /** Fills what is due on these rods before the lines go in, and counts the trip on each. */
  beginTrip(trip: PlannedTrip, rods: readonly string[]): void {
    for (const rod of rods) {
      // A filling holds from the start of its date, so it may not come between two trips of a day.
      const reason = trip.firstOfDay ? this.#due(rod, trip.date) : null;
      if (reason !== null) this.#fill(rod, trip.date, reason);
      this.#reel(rod).trips++;
    }
  }

  holding(rod: string): Filling {
    return this.#reel(rod).filling;
  }

  /** One fight more on this rod; true if the line broke. */
  fight(rod: string): boolean {
    const reel = this.#reel(rod);
    reel.fights++;
    const broke = chance(this.random, breakChance(this.world, reel.filling.line_type, reel.fights));
    if (broke && chance(this.random, SPOILT_BY_BREAK)) reel.damaged = true;
    return broke;
  }

  #due(rod: string, date: string): string | null {
    const { filling, lifeTrips, trips, damaged } = this.#reel(rod);
    if (this.#wantedType(rod, date) !== filling.line_type) return 'trial';
    if (this.#wantedClass(date) !== filling.line_class_lb) return 'scheduled';
    if (damaged) return 'damaged';
    return trips >= lifeTrips ? 'worn' : null;
  }

  #fill(rod: string, date: string, reason: string): void {
    const line_type = this.#wantedType(rod, date);
    const { life_trips, late, spool_cost } = at(this.world.line_types, line_type);
    const lifeTrips =
      whole(this.random, life_trips) * (chance(this.random, late.share) ? late.times : 1);
    const line_class_lb = this.#wantedClass(date);
    const filling = { rod, date, line_type, line_class_lb, cost: spool_cost, reason };
    this.fillings.push(filling);
    this.#reels.set(rod, { filling, lifeTrips, trips: 0, fights: 0, damaged: false });
  }

  #wantedType(rod: string, date: string): string {
    const changes = this.world.changes[rod] ?? [];
    return changes.findLast(({ from }) => from <= date)?.line_type ?? 'mono';
  }

  #wantedClass(date: string): number {
    return this.world.line_class_lb.findLast(({ from }) => from <= date)?.lb ?? 0;
  }

  #reel(rod: string): Reel {
    const reel = this.#reels.get(rod);
    if (reel === undefined) throw new Error(`The boat has no rod ${rod}.`);
    return reel;
  }
}
