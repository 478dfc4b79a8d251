import { formatCount } from '../../base/format-number.ts';
import { plural } from '../../base/words.ts';
import type { FileAccount } from '../../read/season-log.ts';
import type { EntryWithFiles } from './level-entry.ts';
import type { ReportContext } from './report-context.ts';

/** Whether the log can be trusted, in short, on the first page. */
export function trustEntry(context: ReportContext): EntryWithFiles {
  return {
    entry: {
      id: 'trust',
      question: 'Can I trust it?',
      answer: rowsSentence(context.season.log.account.files),
      asides: [
        'What was repaired, what was set aside and what is missing stands under Log health.',
      ],
    },
    files: [],
  };
}

/** What became of the rows, in a sentence: `All 9,239 rows read were used, 2 after a repair.` */
export function rowsSentence(files: readonly FileAccount[]): string {
  const sum = (name: 'rowsRead' | 'rowsUsed' | 'rowsRepaired' | 'rowsSetAside') =>
    files.reduce((total, file) => total + file[name], 0);
  const [read, used, repaired, aside] = [
    sum('rowsRead'),
    sum('rowsUsed'),
    sum('rowsRepaired'),
    sum('rowsSetAside'),
  ];
  if (read === 0) return 'No row was read.';
  const mended = repaired === 0 ? '' : `, ${formatCount(repaired)} of them after a stated repair`;
  if (aside === 0) {
    const all =
      read === 1 ? 'The one row read was used' : `All ${formatCount(read)} rows read were used`;
    return `${all}${mended}.`;
  }
  const left = aside === 1 ? '1 was set aside' : `${formatCount(aside)} were set aside`;
  return `Of ${plural(read, 'row')} read, ${formatCount(used)} ${used === 1 ? 'was' : 'were'} used${mended}, and ${left}.`;
}
