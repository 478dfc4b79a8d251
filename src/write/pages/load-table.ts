import { formatCount, formatDecimal } from '../../base/format-number.ts';
import { levelWords, printable } from '../../base/words.ts';
import type { LoadLine, LoadList } from '../../decide/load-list.ts';
import { shortWords } from '../../decide/load-sentence.ts';
import type { Column, DataTable } from '../data-table.tsx';
import type { ReportContext } from './report-context.ts';

type LoadColumn = Column<LoadLine>;

/** The list of loads as a table: the load itself where the two costs are known, then what is enough. */
export function loadTable(context: ReportContext, list: LoadList): DataTable<LoadLine> {
  const currency = printable(context.season.log.settings.currency ?? 'money');
  return {
    id: 'load-table',
    caption: `By bait, for one trip. Prices: the mean of the log, in ${currency}.`,
    columns: [
      {
        head: 'bait',
        kind: 'text',
        cell: ({ bait }) => levelWords(bait),
        csv: [{ head: 'bait', value: ({ bait }) => bait }],
      },
      ...(list.costs === null ? [] : BEST),
      ...enoughColumns(list),
      number('used a trip', 'mean_used', { of: ({ meanUsed }) => meanUsed, decimals: 1 }),
      number('trips', 'trips', { of: ({ trips }) => trips, decimals: 0 }),
      number('ran out', 'trips_ran_out', { of: ({ tripsRanOut }) => tripsRanOut, decimals: 0 }),
      number(`price, ${currency}`, 'price', {
        of: ({ price }) => price?.mean ?? null,
        decimals: 2,
      }),
    ],
    rows: list.lines,
  };
}

function number(
  head: string,
  name: string,
  { of, decimals }: { of: (row: LoadLine) => number | null; decimals: number },
): LoadColumn {
  return {
    head,
    kind: 'number',
    cell: (row) => {
      const value = of(row);
      return value === null ? 'not known' : formatDecimal(value, decimals);
    },
    csv: [{ head: name, value: of }],
  };
}

/** The load of least cost and what it brings. */
const BEST: readonly LoadColumn[] = [
  number('load', 'load', { of: ({ load }) => load?.load ?? null, decimals: 0 }),
  {
    head: 'runs short',
    kind: 'number',
    cell: ({ load }) => (load === null ? '' : shortWords(load.shortProbability)),
    csv: [
      { head: 'short_probability', value: ({ load }) => load?.shortProbability ?? null },
      { head: 'expected_short', value: ({ load }) => load?.expectedShort ?? null },
    ],
  },
  number('left over', 'expected_left', {
    of: ({ load }) => load?.expectedLeft ?? null,
    decimals: 1,
  }),
];

/** Loads that are enough with a stated chance; they need no costs. */
function enoughColumns({ lines }: LoadList): LoadColumn[] {
  const chances = lines.find(({ enough }) => enough.length > 0)?.enough ?? [];
  return chances.map(({ chance }, at): LoadColumn => {
    const percent = formatDecimal(100 * chance, 0);
    return {
      head: `enough on ${percent} of 100 trips`,
      kind: 'number',
      cell: ({ enough, most }) => {
        const found = enough[at];
        if (found === undefined) return 'not known';
        return found.baits === null ? `over ${formatCount(most)}` : formatCount(found.baits);
      },
      csv: [{ head: `enough_${percent}`, value: ({ enough }) => enough[at]?.baits ?? null }],
    };
  });
}
