import { formatCount } from '../../base/format-number.ts';
import { monthName } from '../../base/format-time.ts';
import { levelWords, listWords, sentenceCase } from '../../base/words.ts';
import type { MonthLoads } from '../../decide/load-by-month.ts';
import type { LoadLine } from '../../decide/load-list.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import type { ReportContext } from './report-context.ts';

const CSV = 'load-by-month.csv';

/** Whether the load differs by month; null where the log has one month only, or no list. */
export function loadMonthEntry(context: ReportContext): EntryWithFiles | null {
  const { byMonth, list } = context.stock();
  if (byMonth.length < 2 || list.refused !== null) return null;
  const met = new Set(byMonth.flatMap((one) => one.list.lines.map(({ bait }) => bait)));
  const shown = list.lines.filter(({ bait }) => met.has(bait));
  const table = monthTable(byMonth, shown);
  return {
    entry: {
      id: 'load-month',
      question: 'And by month?',
      answer: monthSentence(byMonth, list.costs !== null),
      asides: ['Each month by itself, whatever the year: a month of few trips says little.'],
      table: { view: tableView(table), csv: CSV, label: 'Month by month', open: true },
      how: { text: 'The same sum on the trips of one calendar month.', anchor: 'load' },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

/** The months with the largest and the smallest load. */
function monthSentence(byMonth: readonly MonthLoads[], priced: boolean): string {
  const totals = byMonth.map(({ month, list }) => ({
    month,
    baits: list.lines.reduce((sum, line) => sum + (loadOf(line) ?? 0), 0),
  }));
  const most = Math.max(...totals.map(({ baits }) => baits));
  const least = Math.min(...totals.map(({ baits }) => baits));
  const named = (baits: number) =>
    listWords(totals.filter((one) => one.baits === baits).map(({ month }) => monthName(month)));
  const what = priced ? 'Load' : 'To have enough on 8 of 10 trips, load';
  if (most === least) return `${what} ${formatCount(most)} baits in any month.`;
  return sentenceCase(
    `${what} most in ${named(most)}, ${formatCount(most)} baits in all, and least in ${named(least)}, ${formatCount(least)}.`,
  );
}

/** The load of least cost, else what is enough on 8 of 10 trips. */
function loadOf({ load, enough }: LoadLine): number | null {
  return load?.load ?? enough.find(({ chance }) => chance === 0.8)?.baits ?? null;
}

/** Months down, baits across. */
function monthTable(
  byMonth: readonly MonthLoads[],
  lines: readonly LoadLine[],
): DataTable<MonthLoads> {
  return {
    id: 'load-month-table',
    caption: 'Baits for one trip, by calendar month.',
    columns: [
      {
        head: 'month',
        kind: 'text',
        cell: ({ month }) => monthName(month),
        csv: [{ head: 'month', value: ({ month }) => month }],
      },
      {
        head: 'trips',
        kind: 'number',
        cell: ({ trips }) => formatCount(trips),
        csv: [{ head: 'trips', value: ({ trips }) => trips }],
      },
      ...lines.map(({ bait }) => {
        const of = ({ list }: MonthLoads) => {
          const line = list.lines.find((one) => one.bait === bait);
          return line === undefined ? null : loadOf(line);
        };
        return {
          head: levelWords(bait),
          kind: 'number' as const,
          cell: (row: MonthLoads) => {
            const load = of(row);
            return load === null ? 'not known' : formatCount(load);
          },
          csv: [{ head: bait, value: of }],
        };
      }),
    ],
    rows: byMonth,
  };
}
