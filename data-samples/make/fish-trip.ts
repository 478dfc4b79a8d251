import type { Random } from '../../src/stats/random.ts';
import { at } from './at.ts';
import { burstMultiplier, expectedRate, hookupChance, type Rigged } from './chances.ts';
import { chance, weighted, whole } from './draws.ts';
import { type Fate, fateOf } from './fish.ts';
import type { PlannedTrip } from './plan-trips.ts';
import type { Reels } from './reels.ts';
import { type RiggedLine, rigLines } from './rig.ts';
import { type Purchase, Well } from './well.ts';
import type { World } from './world.ts';

/** One bait in the water, from minute to minute. */
export interface Soak extends RiggedLine {
  readonly bait: string;
  readonly hook_size: string;
  readonly baitsUsed: number;
  readonly timeIn: number;
  /** As the crew wrote it. */
  readonly timeOut: number;
}

export interface Bite extends Rigged {
  readonly soak: Omit<Soak, 'timeOut'>;
  readonly line_class_lb: number;
  readonly minute: number;
  readonly fate: Fate;
}

/** A trip as it went. */
export interface FishedTrip {
  readonly trip: PlannedTrip;
  readonly linesIn: number;
  readonly linesOut: number;
  readonly soaks: readonly Soak[];
  readonly bites: readonly Bite[];
  readonly purchases: readonly Purchase[];
}

const SHORTEST_SOAK = 20;
const SOAK_MINUTES = [45, 90] as const;
const PITCH_SOAK_MINUTES = [20, 35] as const;
const PITCH_WAIT_MINUTES = [60, 240] as const;
/** Share of hooked fish where the crew writes the line off the moment the rod leaves the spread. */
const OFF_AT_THE_BITE = 0.04;

/** Share of baits that have to be replaced at once. */
const REPLACED = 0.04;

/** Baits a line-hour takes, roughly, and how many standard deviations the crew buys above that. */
const BAITS_PER_LINE_HOUR = 1.25;
const BOUGHT_ABOVE = 1;

/** Fishes one trip, minute by minute, line by line. */
export function fishTrip(
  world: World,
  random: Random,
  { trip, reels }: { readonly trip: PlannedTrip; readonly reels: Reels },
): FishedTrip {
  const rigged = rigLines(world, random, trip);
  reels.beginTrip(
    trip,
    rigged.map(({ rod }) => rod),
  );
  const well = new Well(world, random, { trip, wanted: wantedBaits(world, trip, rigged) });
  const lines = rigged.map(
    (line, index) => new Line(line, firstReady(random, { trip, line, index })),
  );
  const boat: Boat = { world, random, trip, reels, well };
  for (let minute = trip.start; minute < trip.end; minute++)
    for (const line of lines) line.minute(boat, minute);
  for (const line of lines) line.takeOut(random, trip.end);
  const soaks = lines.flatMap((line) => line.soaks).sort(inOrder);
  return {
    trip,
    linesIn: trip.start,
    linesOut: Math.max(trip.end, ...soaks.map(({ timeOut }) => timeOut)),
    soaks,
    bites: lines.flatMap((line) => line.bites).sort((a, b) => a.minute - b.minute),
    purchases: well.purchases(),
  };
}

interface Boat {
  readonly world: World;
  readonly random: Random;
  readonly trip: PlannedTrip;
  readonly reels: Reels;
  readonly well: Well;
}

type OpenSoak = Omit<Soak, 'timeOut'> & { readonly until: number };

class Line {
  readonly soaks: Soak[] = [];
  readonly bites: Bite[] = [];
  #open: OpenSoak | null = null;

  constructor(
    private readonly rigged: RiggedLine,
    private readyAt: number,
  ) {}

  /** Lets one minute pass. */
  minute(boat: Boat, minute: number): void {
    if (this.#open === null) {
      if (minute >= this.readyAt && minute + SHORTEST_SOAK <= boat.trip.end)
        this.#putIn(boat, minute);
    } else if (this.#bitten(boat, this.#open, minute)) this.#bite(boat, this.#open, minute);
    else if (minute >= this.#open.until) this.takeOut(boat.random, minute);
  }

  /** The line comes aboard; it is ready again after the bait is changed. */
  takeOut(random: Random, timeOut: number): void {
    if (this.#open === null) return;
    const { until: _, ...soak } = this.#open;
    this.soaks.push({ ...soak, timeOut });
    this.#open = null;
    const pitch = this.rigged.position.reach === 'pitch';
    this.readyAt = timeOut + whole(random, pitch ? PITCH_WAIT_MINUTES : [2, 6]);
  }

  #putIn({ world, random, well, trip }: Boat, minute: number): void {
    const { reach } = this.rigged.position;
    const bait = well.take(reach);
    if (bait === null) return;
    const { weight } = at(world.baits, bait);
    const rigging = Object.entries(world.hook_sizes).map(([size, { rigged }]) => [
      size,
      rigged[weight],
    ]);
    const hook_size = weighted(random, Object.fromEntries(rigging)) as string;
    const length = whole(random, reach === 'pitch' ? PITCH_SOAK_MINUTES : SOAK_MINUTES);
    const until = Math.min(trip.end, minute + length);
    const baitsUsed = chance(random, REPLACED) && well.takeAnother(bait) ? 2 : 1;
    this.#open = { ...this.rigged, bait, hook_size, baitsUsed, timeIn: minute, until };
  }

  #bitten({ world, random, trip }: Boat, soak: OpenSoak, minute: number): boolean {
    const { reach } = this.rigged.position;
    const expected = expectedRate(world, trip, { reach, bait: soak.bait, minute });
    const rate = expected * trip.dayBites * burstMultiplier(world, trip, minute);
    return minute > soak.timeIn && chance(random, rate / 60);
  }

  #bite({ world, random, trip, reels }: Boat, soak: OpenSoak, minute: number): void {
    const { rod, leader_lb, position } = this.rigged;
    const { line_type, line_class_lb } = reels.holding(rod);
    const { bait, hook_size } = soak;
    const gear: Rigged = { reach: position.reach, bait, hook_size, leader_lb, line_type };
    const hooked = chance(random, hookupChance(world, trip, gear));
    const lineBroke = hooked && reels.fight(rod);
    const struck = { month: trip.month, hooked, lineBroke, line_type, leader_lb };
    const fate = fateOf(world, random, struck);
    this.bites.push({ ...gear, soak, line_class_lb, minute, fate });
    const aboard = minute + (fate.fight_min ?? 2);
    const offAtBite = hooked && chance(random, OFF_AT_THE_BITE);
    this.takeOut(random, offAtBite ? minute + 1 : aboard);
    this.readyAt = Math.max(this.readyAt, aboard + whole(random, [2, 6]));
  }
}

/** Lines go in one after the other; the pitch rod waits for its chance. */
function firstReady(
  random: Random,
  { trip, line, index }: { trip: PlannedTrip; line: RiggedLine; index: number },
): number {
  const wait = line.position.reach === 'pitch' ? whole(random, PITCH_WAIT_MINUTES) : 3 * index;
  return trip.start + wait;
}

function wantedBaits(
  world: World,
  trip: PlannedTrip,
  lines: readonly RiggedLine[],
): Record<string, number> {
  const hours = (trip.end - trip.start) / 60;
  const wanted = Object.entries(world.baits).map(([bait, truth]) => {
    const lineShares = lines.map(({ position: { reach } }) =>
      reach === 'pitch' ? 0 : truth.wanted[reach],
    );
    const share = lineShares.reduce((sum, wish) => sum + wish, 0);
    const use = share * hours * BAITS_PER_LINE_HOUR;
    return [bait, (use + BOUGHT_ABOVE * Math.sqrt(use)) / (1 - truth.dies)];
  });
  return Object.fromEntries(wanted);
}

function inOrder(a: Soak, b: Soak): number {
  return a.timeIn - b.timeIn || (a.position.name < b.position.name ? -1 : 1);
}
