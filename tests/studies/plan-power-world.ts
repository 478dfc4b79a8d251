import { dateOfDay, dayNumber } from '../../src/base/zone.ts';
import { normalQuantile } from '../../src/stats/distributions.ts';
import type { Random } from '../../src/stats/random.ts';
import type { ClusterPair } from '../../src/stats/same-cluster-pairs.ts';
import { type TidySeason, tidySeason } from '../../src/tidy/tidy-season.ts';
import { type LogParts, makeLog } from '../helpers/make-log.ts';

/** A boat whose truth is known: what a plan is made for, and how its days differ. */
export interface PlanWorld {
  readonly design: 'sides' | 'days';
  /** `share`: hooked of bites. `rate`: bites per line-hour. */
  readonly kind: 'share' | 'rate';
  /** Share of bites hooked, or bites per line-hour, over all days. */
  readonly base: number;
  /** What is to be told: points of a share, a part of a rate. */
  readonly difference: number;
  /** Bites a trip. */
  readonly bites: number;
  /** How much days differ in bites: gamma of this shape; Infinity: not at all. */
  readonly dayShape: number;
  /** How much days differ in the share hooked: standard deviation of its logit. */
  readonly daySpread: number;
  /** The same between the sides of one day; for a rate, the shape of a gamma (bursts). */
  readonly sideSpread: number;
  /** Whether the log has both levels, one on each side. */
  readonly known: boolean;
}

const HOURS = 10;

/** The log of so many ordinary trips, from which the plan is made. */
export function drawLog(world: PlanWorld, trips: number, random: Random): TidySeason {
  const start = dayNumber('2024-01-01');
  const parts = Array.from({ length: trips }, (_, at) => {
    const trip_id = `T${at + 1}`;
    const day = drawDay(world, random);
    const [port, starboard] = [0, 1].map(() =>
      drawHalf(world, { ...day, chance: world.base }, random),
    );
    const line = (side: number) => (world.known ? { line_type: side === 0 ? 'a' : 'b' } : {});
    const halves = [port, starboard].map((half, side) => ({
      place: { trip_id, position: side === 0 ? 'port-long' : 'starboard-long', ...line(side) },
      half: half ?? { x: 0, n: 0 },
    }));
    return {
      trip: { trip_id, date: dateOfDay(start + 2 * at) },
      soaks: halves.map(({ place }) => ({ ...place, hours: HOURS })),
      bites: halves.flatMap(({ place, half: { x, n } }) => {
        const hooked = world.kind === 'share' ? x : 0;
        const all = world.kind === 'share' ? n : x;
        return [
          { ...place, outcome: 'lost' as const, count: hooked },
          { ...place, outcome: 'missed' as const, count: all - hooked },
        ].filter(({ count }) => count > 0);
      }),
    };
  });
  const log: LogParts = {
    trips: parts.map(({ trip }) => trip),
    soaks: parts.flatMap(({ soaks }) => soaks),
    bites: parts.flatMap(({ bites }) => bites),
  };
  return tidySeason(makeLog(log));
}

/** A season fished by the plan, as the same-day lens counts it: one entry a stratum. */
export function drawPlanned(world: PlanWorld, trips: number, random: Random): ClusterPair[] {
  const [a, b] = truth(world);
  const half = (day: Day, chance: number) => drawHalf(world, { ...day, chance }, random);
  if (world.design === 'sides') {
    return Array.from({ length: trips }, () => {
      const day = drawDay(world, random);
      return pairOf(half(day, a), half(day, b));
    });
  }
  const whole = (chance: number) => {
    const day = drawDay(world, random);
    const [port, starboard] = [half(day, chance), half(day, chance)];
    return { x: port.x + starboard.x, n: port.n + starboard.n };
  };
  return Array.from({ length: trips / 2 }, () => pairOf(whole(a), whole(b)));
}

/** The true rates of A and B: B as ever, A by the difference the way that is harder to tell. */
export function truth({ kind, base, difference }: PlanWorld): readonly [number, number] {
  if (kind === 'rate') return [base * (1 + difference), base];
  return [base < 0.5 ? base + difference : base - difference, base];
}

interface Day {
  readonly busy: number;
  readonly luck: number;
}

interface Half {
  readonly x: number;
  readonly n: number;
}

function drawDay({ dayShape }: PlanWorld, random: Random): Day {
  const busy = Number.isFinite(dayShape) ? random.gamma(dayShape) / dayShape : 1;
  return { busy, luck: random.normal() };
}

function drawHalf(
  world: PlanWorld,
  { busy, luck, chance }: Day & { readonly chance: number },
  random: Random,
): Half {
  const { kind, bites, daySpread, sideSpread } = world;
  if (kind === 'rate') {
    const burst = sideSpread === 0 ? 1 : random.gamma(sideSpread) / sideSpread;
    return { x: random.poisson(chance * HOURS * busy * burst), n: HOURS };
  }
  const own = sideSpread === 0 ? 0 : sideSpread * random.normal();
  const logit = interceptFor(chance, Math.hypot(daySpread, sideSpread)) + daySpread * luck + own;
  const n = random.poisson((bites / 2) * busy);
  return { x: random.binomial(n, logistic(logit)), n };
}

function pairOf(a: Half, b: Half): ClusterPair {
  return { x1: a.x, n1: a.n, x2: b.x, n2: b.n };
}

const NODES = Array.from({ length: 400 }, (_, at) => normalQuantile((at + 0.5) / 400));
const logistic = (x: number) => 1 / (1 + Math.exp(-x));
const known = new Map<string, number>();

/** The logit whose mean share over normal days of this spread is `share`. */
function interceptFor(share: number, spread: number): number {
  const key = `${share} ${spread}`;
  const found = known.get(key);
  if (found !== undefined) return found;
  let [low, high] = [-12, 12];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    const mean = NODES.reduce((sum, z) => sum + logistic(middle + spread * z), 0) / NODES.length;
    if (mean < share) low = middle;
    else high = middle;
  }
  known.set(key, low);
  return low;
}
