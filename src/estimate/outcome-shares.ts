import type { Estimate } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import { wilsonTrip, withinTripCorrelation } from '../stats/clustered-wilson-trip.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';

/** How often each of several outcomes came in one group of fish. */
export interface OutcomeShares<Outcome extends string> {
  readonly group: string;
  /** Fish whose outcome is recorded: what every share divides by. */
  readonly fish: number;
  readonly trips: number;
  readonly counts: Readonly<Record<Outcome, number>>;
  /** Share of each outcome, 0 to 1; they add up to 1. */
  readonly shares: Readonly<Record<Outcome, Estimate>>;
  /** Share of the outcomes of `together`, 0 to 1. */
  readonly together: Estimate;
}

/** What is counted, by what, and which outcomes are also looked at as one. */
export interface SharesAsked<Outcome extends string> {
  readonly outcomes: readonly Outcome[];
  readonly outcomeOf: (bite: TidyBite) => Outcome | null;
  /** null: the fish belongs to no group. */
  readonly groupOf: (bite: TidyBite) => string | null;
  readonly order: (a: string, b: string) => number;
  readonly together: readonly Outcome[];
  readonly level: number;
}

/**
 * Shares of outcomes (where hooked, how released) by group, each share a `wilson-trip` proportion
 * with trips as clusters; one that is all or none borrows how alike fish of one trip are in all of
 * them. Fish whose outcome is not recorded are left out. Groups in the order asked.
 */
export function outcomeShares<Outcome extends string>(
  bites: readonly TidyBite[],
  asked: SharesAsked<Outcome>,
): OutcomeShares<Outcome>[] {
  const known = bites.filter((bite) => asked.outcomeOf(bite) !== null);
  const share = (some: readonly Outcome[]) => {
    const among = (bite: TidyBite) => some.some((outcome) => outcome === asked.outcomeOf(bite));
    const borrowedCorrelation = withinTripCorrelation(byTrip(known, among));
    return (of: readonly TidyBite[]) =>
      wilsonTrip(byTrip(of, among), { level: asked.level, borrowedCorrelation });
  };
  const single = asked.outcomes.map((outcome) => [outcome, share([outcome])] as const);
  const together = share(asked.together);
  const groups = groupBy(known, asked.groupOf);
  return [...groups.keys()]
    .filter((group) => group !== null)
    .sort(asked.order)
    .map((group): OutcomeShares<Outcome> => {
      const of = groups.get(group) ?? [];
      const count = (outcome: Outcome) =>
        total(of.filter((bite) => asked.outcomeOf(bite) === outcome));
      return {
        group,
        fish: total(of),
        trips: new Set(of.map(({ trip_id }) => trip_id)).size,
        counts: record(asked.outcomes.map((outcome) => [outcome, count(outcome)])),
        shares: record(single.map(([outcome, shareOf]) => [outcome, shareOf(of)])),
        together: together(of),
      };
    });
}

function byTrip(bites: readonly TidyBite[], among: (bite: TidyBite) => boolean) {
  return [...groupBy(bites, ({ trip_id }) => trip_id).values()].map((ofTrip) => ({
    successes: total(ofTrip.filter(among)),
    units: total(ofTrip),
  }));
}

function total(bites: readonly TidyBite[]): number {
  return bites.reduce((sum, { count }) => sum + count, 0);
}

function record<Key extends string, Value>(
  entries: readonly (readonly [Key, Value])[],
): Readonly<Record<Key, Value>> {
  return Object.fromEntries(entries) as Record<Key, Value>;
}
