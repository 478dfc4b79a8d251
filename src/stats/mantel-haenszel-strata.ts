import type { LogNormalRatio } from './ratio-of-log-normal.ts';

/**
 * Two groups within one stratum: x1 events among n1 units of the first, x2 among n2 of the second.
 * Whole numbers in textbook tables; fractions (weighted counts) are taken as they are.
 */
export interface Stratum {
  readonly x1: number;
  readonly n1: number;
  readonly x2: number;
  readonly n2: number;
}

/** What a stratified estimate stands on. */
export interface StratumCount {
  /** Strata handed in, empty ones included. */
  readonly strata: number;
  /** Strata with both groups, and with at least one event and one unit without: those that inform. */
  readonly informativeStrata: number;
}

/** A ratio over strata, its logarithm taken as normal. */
export type StratifiedRatio = LogNormalRatio & StratumCount;

/** A stratum with what every Mantel–Haenszel formula takes from it. */
export interface WeighedStratum extends Stratum {
  readonly n: number;
  /** n₁n₂/n, the weight of a difference. */
  readonly weight: number;
  /** x₁n₂/n and x₂n₁/n: each group's events, carried to the weight. */
  readonly first: number;
  readonly second: number;
}

/**
 * The strata that have both groups, weighed; the others carry no weight in any formula.
 * @throws RangeError for counts that cannot be (negative, not a number, more events than units),
 * which are mistakes of the caller.
 */
export function weighedStrata(strata: readonly Stratum[]): WeighedStratum[] {
  for (const stratum of strata) checkStratum(stratum);
  return strata
    .filter(({ n1, n2 }) => n1 > 0 && n2 > 0)
    .map(({ x1, n1, x2, n2 }) => {
      const n = n1 + n2;
      const [first, second] = [x1 * (n2 / n), x2 * (n1 / n)];
      return { x1, n1, x2, n2, n, weight: n1 * (n2 / n), first, second };
    });
}

/** Counts the strata and those that inform. */
export function stratumCount(strata: readonly Stratum[]): StratumCount {
  return { strata: strata.length, informativeStrata: strata.filter(isInformative).length };
}

/** Whether a stratum has both groups and both outcomes. */
export function isInformative({ x1, n1, x2, n2 }: Stratum): boolean {
  return n1 > 0 && n2 > 0 && x1 + x2 > 0 && x1 + x2 < n1 + n2;
}

/** Σ of one term over the strata. */
export function total<Item>(items: readonly Item[], term: (item: Item) => number): number {
  return items.reduce((sum, item) => sum + term(item), 0);
}

function checkStratum({ x1, n1, x2, n2 }: Stratum): void {
  const possible = x1 >= 0 && x2 >= 0 && x1 <= n1 && x2 <= n2 && Number.isFinite(n1 + n2);
  if (!possible) throw new RangeError(`${x1} of ${n1} and ${x2} of ${n2} make no table of counts.`);
}
