import { formatCount } from '../base/format-number.ts';
import { groupBy } from '../base/group-by.ts';
import type { Problem } from '../base/problem.ts';
import { plural, printable } from '../base/words.ts';
import { type Unlock, unlocksOf } from '../decide/unlocks.ts';
import type { FileAccount, ReadAccount, SetAsideRow } from '../read/season-log.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { textTable } from '../write/text-table.ts';
import type { Effects } from './effects.ts';

/** How many rows set aside are told one by one; the file has them all. */
const MOST_ROWS_TOLD = 20;

/** What `check` prints: files, repairs, warnings, rows set aside, and what more could be known. */
export function checkText(
  season: TidySeason,
  { written, colours }: { readonly written: string | null; readonly colours: Effects['colours'] },
): string {
  const { account } = season;
  const { problems } = account;
  const sections = [
    colours.bold(printable(season.log.name)),
    filesText(account.files),
    kindsText('Repaired', problems, { effect: 'repaired', account }),
    kindsText('Used, with a warning', problems, { effect: 'warned', account }),
    setAsideText(account.setAside, written),
    unlocksText(unlocksOf(season.log)),
    sumText(account),
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

function filesText(files: readonly FileAccount[]): string {
  const right = (head: string) => ({ head, align: 'right' as const });
  const columns = [
    { head: 'file', align: 'left' as const },
    right('rows read'),
    right('used'),
    right('repaired'),
    right('warned'),
    right('set aside'),
    { head: 'found to be', align: 'left' as const },
  ];
  const rows = files.map((file) => [
    printable(file.path),
    formatCount(file.rowsRead),
    formatCount(file.rowsUsed),
    formatCount(file.rowsRepaired),
    formatCount(file.rowsWarned),
    formatCount(file.rowsSetAside),
    foundToBe(file),
  ]);
  const unread = files.flatMap((file) =>
    file.columns
      .filter((column) => column.column === null)
      .map((column) => `"${printable(column.header)}" in ${printable(file.path)}`),
  );
  const strange =
    unread.length === 0 ? [] : ['', `Columns kept but not read: ${unread.join(', ')}.`];
  return [textTable(columns, rows), ...strange].join('\n');
}

function foundToBe({ encoding, delimiter, decimalMark }: FileAccount): string {
  const between = delimiter === '' ? '' : `, ${printable(delimiter)}`;
  return `${encoding}${between}, decimal ${decimalMark}`;
}

/** How many different readings of one kind are told; log.html and --json have more. */
const MOST_READINGS = 6;
/** The same for what concerns a file as a whole: each unknown column may be the one that matters. */
const MOST_ABOUT_FILES = 40;

/** Each kind of repair or warning: how often, and every different reading once with its place. */
function kindsText(
  title: string,
  problems: readonly Problem[],
  { effect, account }: { readonly effect: Problem['effect']; readonly account: ReadAccount },
): string {
  const kinds = groupBy(
    problems.filter((problem) => problem.effect === effect),
    (problem) => problem.code,
  );
  if (kinds.size === 0) return '';
  const lines = [...kinds].flatMap(([code, found]) => {
    const count = account.problemCounts
      .filter((counted) => counted.code === code && counted.effect === effect)
      .reduce((sum, counted) => sum + counted.count, 0);
    const readings = [...groupBy(found, ({ file, column, text }) => `${file} ${column} ${text}`)];
    const most = found[0]?.line === null ? MOST_ABOUT_FILES : MOST_READINGS;
    const told = readings.slice(0, most).flatMap(([, [first]]) => {
      return first === undefined ? [] : [`${placeOf(first)}: ${first.text}${wayOn(first)}`];
    });
    const [only] = told;
    if (only !== undefined && readings.length === 1) return [`  ${formatCount(count)} × ${only}`];
    const more = readings.length - told.length;
    const rest = more > 0 ? [`      … and ${plural(more, 'other')}`] : [];
    const kind = code.replaceAll('-', ' ');
    return [`  ${formatCount(count)} × ${kind}:`, ...told.map((one) => `      ${one}`), ...rest];
  });
  return [`${title}:`, ...lines].join('\n');
}

/** What would mend it, where there is something to mend. */
function wayOn({ effect, remedy }: Problem): string {
  return effect === 'repaired' || remedy.startsWith('Nothing to do') ? '' : ` ${remedy}`;
}

function placeOf({ file, line, column }: Problem): string {
  return [file, ...(line === null ? [] : [`line ${line}`]), ...(column === null ? [] : [column])]
    .map(printable)
    .join(' ');
}

function setAsideText(rows: readonly SetAsideRow[], written: string | null): string {
  if (rows.length === 0) return '';
  const told = rows
    .slice(0, MOST_ROWS_TOLD)
    .map(({ file, line, reason, remedy }) => `  ${file} line ${line}: ${reason} ${remedy}`);
  const more = rows.length - told.length;
  const rest = more > 0 ? [`  … and ${plural(more, 'more row', 'more rows')}.`] : [];
  const where =
    written === null
      ? []
      : [`All of them stand in ${written}: mend a row there and put the file into the log folder.`];
  return [`Set aside, not used:`, ...told, ...rest, ...where].join('\n');
}

function unlocksText(unlocks: readonly Unlock[]): string {
  if (unlocks.length === 0) return '';
  const lines = unlocks.map(({ answer, file, columns, recorded, rows }) => {
    const needs = `${columns.join(' and ')} in ${file}`;
    const share = rows === 0 ? 'none' : `${formatCount(recorded)} of ${formatCount(rows)} rows`;
    return `  ${answer}: needs ${needs} (${share} recorded)`;
  });
  return ['What more the log could tell:', ...lines].join('\n');
}

function sumText({ files }: ReadAccount): string {
  const sum = (name: 'rowsRead' | 'rowsUsed' | 'rowsSetAside') =>
    formatCount(files.reduce((total, file) => total + file[name], 0));
  return `${sum('rowsRead')} rows read = ${sum('rowsUsed')} used + ${sum('rowsSetAside')} set aside.`;
}
