import type { Interval } from '../base/estimate.ts';

/** A published sum over unknown figures: the figures by index, and what they add up to. */
export interface SumLine {
  readonly unknowns: readonly number[];
  readonly sum: number;
}

/**
 * How closely unknown figures, none below zero, follow from sums over them: limits are passed to and
 * fro between the lines until none moves. What a reader with a pencil can find, and a little more.
 * Source: Hundepool et al., Handbook on Statistical Disclosure Control, ch. 4 (bounds of suppressed
 * cells).
 *
 * @param known limits that hold beforehand, one an unknown; 0 or more and without end if left out.
 * @returns limits for each unknown; equal limits: it is found out.
 */
export function propagateIntervals(
  count: number,
  lines: readonly SumLine[],
  known: readonly Interval[] = [],
): Interval[] {
  const limits = Array.from({ length: count }, (_, at) => {
    const { lower, upper } = known[at] ?? { lower: 0, upper: Number.POSITIVE_INFINITY };
    return { lower, upper };
  });
  // Each round passes on what the round before found; more rounds than unknowns find nothing new
  // but ever smaller steps.
  for (let round = 0; round <= count; round += 1) {
    const moved = lines.map((line) => tighten(line, limits)).some(Boolean);
    if (!moved) break;
  }
  return limits;
}

interface Limits {
  lower: number;
  upper: number;
}

function tighten({ unknowns, sum }: SumLine, limits: readonly Limits[]): boolean {
  let moved = false;
  for (const at of unknowns) {
    const own = limits[at];
    if (own === undefined) continue;
    const others = unknowns.filter((other) => other !== at).map((other) => limits[other]);
    const lower = sum - others.reduce((most, other) => most + (other?.upper ?? 0), 0);
    const upper = sum - others.reduce((least, other) => least + (other?.lower ?? 0), 0);
    if (lower > own.lower + SMALL) {
      own.lower = lower;
      moved = true;
    }
    if (upper < own.upper - SMALL) {
      own.upper = upper;
      moved = true;
    }
  }
  return moved;
}

const SMALL = 1e-9;
