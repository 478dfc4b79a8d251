import { groupBy } from '../base/group-by.ts';
import { plural } from '../base/words.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';

/** Something the reader of any figure of this log must know. */
export interface SeasonWarning {
  readonly code: string;
  readonly text: string;
}

/** Warnings about the log as a whole, then one for each kind of trouble its rows had. */
export function seasonWarnings(season: TidySeason): SeasonWarning[] {
  return [...aboutTheLog(season), ...aboutTheRows(season)];
}

function aboutTheLog({ log, effort }: TidySeason): SeasonWarning[] {
  const warnings: SeasonWarning[] = [];
  if (log.trips.length === 0) {
    warnings.push({ code: 'no-trips', text: 'The log holds no trip yet.' });
  }
  if (log.soaks === null) {
    warnings.push({
      code: 'no-soaks',
      text:
        'There is no soaks.csv, so line-hours are known for whole trips at best; ' +
        'log each line in and out to compare baits, positions and lines per line-hour.',
    });
  }
  if (effort.units.length === 0 && log.trips.length > 0) {
    warnings.push({
      code: 'no-effort',
      text: 'Line-hours are not recorded anywhere, so no figure per line-hour can be given.',
    });
  }
  return warnings;
}

function aboutTheRows({ account }: TidySeason): SeasonWarning[] {
  const telling = account.problemCounts.filter(({ effect }) => effect !== 'repaired');
  return [...groupBy(telling, ({ code }) => code)].flatMap(([code, counts]) => {
    const first = account.problems.find((problem) => problem.code === code);
    if (first === undefined) return [];
    const rows = counts.reduce((sum, { count }) => sum + count, 0);
    const place = first.line === null ? first.file : `${first.file} line ${first.line}`;
    const many = rows === 1 ? '' : `${plural(rows, 'row')}, the first: `;
    return { code, text: `${many}${place}: ${first.text}` };
  });
}
