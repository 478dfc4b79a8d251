import { UserError } from '../base/problem.ts';
import { listWords, plural, printable } from '../base/words.ts';
import type { Difference } from './differencing.ts';
import type { ScanHit } from './scan-package.ts';
import type { ShareTrip } from './share-trip.ts';
import { tripToken } from './trip-token.ts';

const MOST_NAMED = 8;

/** Why a package may not follow the ones that left before, and what can be done. */
export function differenceRefusal(
  found: readonly Difference[],
  trips: readonly ShareTrip[],
  key: Buffer,
): string {
  const months = new Map(trips.map((trip) => [tripToken(trip, key), trip.month]));
  const tokens = found.flatMap((one) => one.tokens);
  const met = [...new Set(tokens.map((token) => months.get(token)))];
  const known = met.filter((month) => month !== undefined).sort();
  const when = known.length === 0 ? '' : ` in ${listWords(known, 6)}`;
  const releases = [...new Set(found.flatMap((one) => one.releases))].sort((a, b) => a - b);
  const smallest = Math.min(...found.map((one) => one.tokens.length));
  return (
    `Nothing was written. Subtracted from package ${listWords(releases.map(String))}, which left ` +
    `earlier, this one would show ${plural(found.length, 'group')} of too few trips or vessels${when}, ` +
    `the smallest of ${plural(smallest, 'trip')}. That happens when trips were added to a period that has ` +
    'left, or corrected in it, or when the same trips are cut another way. Share only what has not ' +
    'left yet (--from, --to), or ask again when more trips have changed, with the same grid and period.'
  );
}

/** Why trips without a place cannot leave, however many there are. */
export function noPlaceRefusal(trips: number): string {
  return (
    `None of ${plural(trips, 'trip')} has a position, so none can be put in a grid cell. Fill in lat ` +
    'and lon in trips.csv; a rough position of the day is enough.'
  );
}

/** Stops a share whose files hold something of the log. */
export function refuseHits(hits: readonly ScanHit[]): void {
  if (hits.length === 0) return;
  const lines = hits.slice(0, MOST_NAMED).map(hitWords);
  const more = hits.length - lines.length;
  const words = [...new Set(hits.filter((hit) => hit.isWord).map((hit) => hit.found))];
  const way =
    words.length > 0
      ? ' Where such a word points to nobody (a name that is also a code or an ordinary word), run ' +
        `again with ${words
          .slice(0, MOST_NAMED)
          .map((word) => `--allow "${printable(word)}"`)
          .join(' ')}.`
      : '';
  throw new UserError(
    `Stopped by its own scan; nothing was written. The package would have held:\n${lines.join('\n')}` +
      `${more > 0 ? `\n  and ${plural(more, 'further finding')}` : ''}\n` +
      `Whatever came from an option of yours, such as --licence, change there.${way}${exactWay(hits)}`,
    4,
  );
}

/**
 * Nobody can say of a day or a place that it points to nobody: a real one would leave by the same
 * word that lets a figure through.
 */
function exactWay(hits: readonly ScanHit[]): string {
  if (hits.every((hit) => hit.isWord)) return '';
  return (
    ' A position, a date or a clock time cannot be cleared with --allow. Where it is only a figure ' +
    'that reads like one, share another stretch (--from, --to), or by another period or grid ' +
    '(share: in season.yaml), so that the figure changes.'
  );
}

function hitWords({ file, line, found, what }: ScanHit): string {
  const place = line === null ? file : `${file} line ${line}`;
  return `  "${printable(found)}" in ${place}: ${what}`;
}
