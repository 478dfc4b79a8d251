import { listWords, plural } from '../base/words.ts';
import type { BaitTrips } from '../estimate/bait-trips.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';

/** What stands under every list of loads. Common practice, no source. */
export const LIVE_BAIT_CAUTION =
  'More bait in a well than it can keep alive is a cruelty and a loss: load no more than that, and ' +
  'follow the local rules on catching, keeping and moving live bait.';

/** What the reader must know of a list of loads, in sentences; none where all is recorded. */
export function loadNotes(
  { log, soaks }: TidySeason,
  baits: readonly BaitTrips[],
  {
    budget,
    held,
  }: { readonly budget: number | null; readonly held: Readonly<Record<string, number>> },
): string[] {
  const notes: string[] = [];
  const unnamed = (soaks ?? []).filter((soak) => soak.bait === null).length;
  if (unnamed > 0) {
    notes.push(`${plural(unnamed, 'soak')} do not name their bait, so use is counted too low.`);
  }
  if (log.baitBuys === null) {
    notes.push(
      'Without bait-buys.csv nothing is known of baits that died and of wells that ran out: the ' +
        'loads are for baits put out alone.',
    );
  } else {
    notes.push(...unrecorded(baits));
  }
  const unpriced = baits.filter(({ purchases }) =>
    purchases.every((buy) => buy.unit_cost === null),
  );
  if (budget !== null && unpriced.length > 0) {
    const names = listWords(unpriced.map(({ bait }) => bait));
    notes.push(`No price is logged of ${names}, so they count as free within the budget.`);
  }
  const strange = Object.keys(held).filter((bait) => !baits.some((one) => one.bait === bait));
  if (strange.length > 0) notes.push(`This part of the log has no ${listWords(strange)}.`);
  return notes;
}

/** Empty cells of purchases that bend the sum one way. */
function unrecorded(baits: readonly BaitTrips[]): string[] {
  const rows = baits.flatMap(({ purchases }) => purchases);
  const without = (cell: 'died' | 'ran_out') => rows.filter((row) => row[cell] === null).length;
  const notes: string[] = [];
  if (without('died') > 0) {
    notes.push(
      `How many died is not recorded in ${without('died')} of ${plural(rows.length, 'purchase')}, ` +
        'so use is counted too low there.',
    );
  }
  if (without('ran_out') > 0) {
    notes.push(
      `Whether the well ran out is not recorded in ${without('ran_out')} of ` +
        `${plural(rows.length, 'purchase')}; there it is taken to have lasted.`,
    );
  }
  return notes;
}
