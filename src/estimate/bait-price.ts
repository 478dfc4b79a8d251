import type { BaitTrips } from './bait-trips.ts';

/** What one bait cost on average, and how far the log knows it. */
export interface BaitPrice {
  /** Money a bait, over all baits whose price is recorded; own catch at 0 counts as 0. */
  readonly mean: number;
  /** Baits with a price, of all baits bought or caught. */
  readonly priced: number;
  readonly bought: number;
}

/** The mean price of one bait; null where no purchase has a price. */
export function baitPrice({ purchases }: Pick<BaitTrips, 'purchases'>): BaitPrice | null {
  const priced = purchases.flatMap(({ count, unit_cost }) =>
    unit_cost === null ? [] : [{ count, cost: count * unit_cost }],
  );
  const count = priced.reduce((sum, buy) => sum + buy.count, 0);
  if (count === 0) return null;
  return {
    mean: priced.reduce((sum, buy) => sum + buy.cost, 0) / count,
    priced: count,
    bought: purchases.reduce((sum, buy) => sum + buy.count, 0),
  };
}

/**
 * Share of baits that were still alive to be used, 0 to 1, from purchases whose deaths are
 * recorded; null where none are. More deaths than baits in a row count as all of them.
 */
export function baitSurvival({ purchases }: Pick<BaitTrips, 'purchases'>): number | null {
  const known = purchases.flatMap(({ count, died }) =>
    died === null ? [] : [{ count, died: Math.min(died, count) }],
  );
  const count = known.reduce((sum, buy) => sum + buy.count, 0);
  if (count === 0) return null;
  return 1 - known.reduce((sum, buy) => sum + buy.died, 0) / count;
}
