import { PER_10_LINE_HOURS } from '../../base/format-figure.ts';
import { formatCount, formatShare } from '../../base/format-number.ts';
import { levelWords, listWords, sentenceCase } from '../../base/words.ts';
import { hasSameChance, luckWords, SAME_CHANCE_WORDS } from '../../decide/same-chance.ts';
import { type Substitute, shrunkenFigure } from '../../decide/substitute-bait.ts';
import type { RankedLevel } from '../../estimate/shrunken-ranking.ts';
import { levelPlace } from '../../tally/factor-words.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { figureColumn } from './wear-figures.ts';

const CSV = 'bait-substitutes.csv';

interface SubstituteRow extends RankedLevel {
  readonly reach: string;
}

/** "No mullet today: what instead, and where?": baits ranked within each reach. */
export function loadSubstituteEntry(context: ReportContext): EntryWithFiles {
  const found = context.stock().substitutes;
  const id = 'bait-instead';
  const question = 'One bait is not to be had: what instead, and where?';
  if (found.length === 0) {
    const answer = 'Which bait was out on which reach, and for how long, is not recorded.';
    return { entry: { id, question, answer }, files: [] };
  }
  const rows = found.flatMap(({ reach, ranking }) =>
    ranking.levels.map((level): SubstituteRow => ({ ...level, reach })),
  );
  const table = substituteTable(context, rows);
  const [first, ...others] = found;
  return {
    entry: {
      id,
      question,
      answer: first?.sentence ?? '',
      asides: [
        ...others.map(({ sentence }) => sentence),
        'By fish caught per line-hour on that reach, each drawn towards the common rate by how little it rests on.',
        ...sameChanceAside(found),
      ],
      ...(rows.length === 0
        ? {}
        : { table: { view: tableView(table), csv: CSV, label: 'Reach by reach, best first' } }),
      how: {
        text: 'Take the next on the list where one is missing. With fewer than 10 bites or 5 trips on a reach a bait is left out.',
        anchor: 'ranking',
      },
    },
    files: rows.length === 0 ? [] : [{ name: CSV, text: tableCsv(table) }],
  };
}

/** Why the chances in the table are the same on a reach where the intervals are not. */
function sameChanceAside(found: readonly Substitute[]): string[] {
  const places = found
    .filter(({ ranking }) => hasSameChance(ranking))
    .map(({ reach }) => levelPlace('reach', reach));
  if (places.length === 0) return [];
  const where = sentenceCase(listWords(places));
  return [`${where} ${luckWords('the baits')}, so there ${SAME_CHANCE_WORDS}.`];
}

/** Every bait that was fished enough, by reach. */
function substituteTable(
  context: ReportContext,
  rows: readonly SubstituteRow[],
): DataTable<SubstituteRow> {
  return {
    id: 'bait-instead-table',
    caption: `By reach, best first. As logged: the ${intervalWords(context)} in brackets; drawn towards the common rate: 90 %.`,
    columns: [
      {
        head: 'reach',
        kind: 'text',
        cell: ({ reach }) => levelWords(reach),
        csv: [{ head: 'reach', value: ({ reach }) => reach }],
      },
      {
        head: 'bait',
        kind: 'text',
        cell: ({ raw }) => levelWords(raw.by.bait ?? ''),
        csv: [{ head: 'bait', value: ({ raw }) => raw.by.bait ?? '' }],
      },
      {
        head: 'bites',
        kind: 'number',
        cell: ({ raw }) => formatCount(raw.bites),
        csv: [{ head: 'bites', value: ({ raw }) => raw.bites }],
      },
      figureColumn('caught per 10 line-hours', {
        of: ({ raw }: SubstituteRow) => raw.rate,
        name: 'caught_per_line_hour',
        style: PER_10_LINE_HOURS,
      }),
      figureColumn('drawn towards the common rate', {
        of: shrunkenFigure,
        name: 'shrunken',
        style: PER_10_LINE_HOURS,
      }),
      {
        head: 'chance of being the best',
        kind: 'number',
        cell: ({ probabilityBest }) => formatShare(probabilityBest),
        csv: [{ head: 'best_probability', value: ({ probabilityBest }) => probabilityBest }],
      },
    ],
    rows,
  };
}
