import { formatCount } from '../../base/format-number.ts';
import { listWords, plural, sentenceCase } from '../../base/words.ts';
import { drawHeat, type HeatChart } from '../../draw/draw-heat.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import { factorWords, levelPlace } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { type LevelRates, levelRates } from './level-rates.ts';
import { levelName, shortLevel } from './level-words.ts';
import type { ReportContext } from './report-context.ts';

/** A question of which levels of two factors were fished together. */
export interface CrossQuestion {
  readonly id: string;
  readonly question: string;
  /** The factor judged, and the one it may be mixed up with. */
  readonly factors: readonly [FactorName, FactorName];
}

/** A cross-table of more cells than this makes no picture that can be read. */
const MOST_CELLS = 240;
const MOST_NAMED = 3;

/** Shows who fished where, so that factors which always go together are seen before they mislead. */
export async function crossEntry(
  context: ReportContext,
  { id, question, factors }: CrossQuestion,
): Promise<EntryWithFiles> {
  const cells = levelRates(context, factors, ['hookup_rate']).filter((cell) => !cell.isMissing);
  const [columns, rows] = factors.map((factor) => levelsOf(cells, factor)) as [string[], string[]];
  const [first, second] = factors.map(factorWords) as [string, string];
  const bitesAt = pairedBites(cells, factors);
  const chart: HeatChart = {
    rows: rows.map((level) => levelName(factors[1], level)),
    columns: columns.map((level) => levelName(factors[0], level)),
    counts: rows.map((row) => columns.map((column) => bitesAt(column, row))),
    title: `bites, by ${second} and ${first}`,
  };
  const hasEffort = cells.some(({ main }) => main.line_hours !== null);
  const table = crossTable(cells, { id, factors });
  const csv = `${id}.csv`;
  const fits = rows.length > 0 && rows.length * columns.length <= MOST_CELLS;
  const words = {
    id: `${id}-picture`,
    title: `Bites by ${second} and ${first}`,
    description: describe(chart),
  };
  return {
    entry: {
      id,
      question,
      answer: crossSentence(factors, { columns, rows, counts: chart.counts }, hasEffort),
      pictures: fits
        ? [
            {
              picture: await renderPicture(words, (width) => drawHeat(chart, width)),
              caption: 'Bites counted; the darker, the more. A dash: never fished together.',
            },
          ]
        : [],
      ...(cells.length === 0 ? {} : { table: { view: tableView(table), csv } }),
      how: { text: 'Bites counted where both are recorded.', anchor: 'tied' },
    },
    files: cells.length === 0 ? [] : [{ name: csv, text: tableCsv(table) }],
  };
}

function levelsOf(cells: readonly LevelRates[], factor: FactorName): string[] {
  return [...new Set(cells.map((cell) => cell.by[factor] ?? ''))];
}

/** Bites by pair of levels; null where neither a bite nor a line is on record for the pair. */
function pairedBites(
  cells: readonly LevelRates[],
  [one, other]: readonly [FactorName, FactorName],
): (a: string, b: string) => number | null {
  const keyOf = (a: string, b: string) => JSON.stringify([a, b]);
  const bites = new Map(
    cells.map(({ by, main }) => [keyOf(by[one] ?? '', by[other] ?? ''), main.bites]),
  );
  return (a, b) => bites.get(keyOf(a, b)) ?? null;
}

interface Crossed {
  readonly columns: readonly string[];
  readonly rows: readonly string[];
  readonly counts: HeatChart['counts'];
}

/** Which pairs never met: what hides behind one factor cannot be told from the other there. */
function crossSentence(
  [one, other]: readonly [FactorName, FactorName],
  { columns, rows, counts }: Crossed,
  hasEffort: boolean,
): string {
  const [first, second] = [factorWords(one), factorWords(other)];
  if (rows.length === 0) return `The log does not say ${first} and ${second} of one bite together.`;
  if (columns.length === 1) {
    return `Everything was fished ${levelPlace(one, shortLevel(columns[0] ?? ''))}.`;
  }
  const gaps = columns.flatMap((column, c) => {
    const missing = rows.filter((_, r) => counts[r]?.[c] === null);
    if (missing.length === 0) return [];
    const places = missing.map((row) => levelPlace(other, shortLevel(row)));
    const name = levelName(one, shortLevel(column));
    return [
      `${name} ${hasEffort ? 'was never fished' : 'has no bite'} ${listWords(places, MOST_NAMED)}`,
    ];
  });
  if (gaps.length === 0) {
    return `Every ${first} ${hasEffort ? 'was fished' : 'has bites'} ${everyWords(other)}.`;
  }
  return (
    `${sentenceCase(listWords(gaps, MOST_NAMED))}: there the ${first} cannot be told from ` +
    `the ${second}.`
  );
}

function everyWords(factor: FactorName): string {
  if (factor === 'month') return 'in every month';
  return factor === 'bait' ? 'with every bait' : `at every ${factorWords(factor)}`;
}

function countOf(count: number | null | undefined): string {
  return count == null ? 'never' : formatCount(count);
}

function describe({ rows, columns, counts, title }: HeatChart): string {
  const lines = rows.map((row, r) => {
    const cells = columns.map((column, c) => `${column} ${countOf(counts[r]?.[c])}`);
    return `${row}: ${cells.join(', ')}`;
  });
  return `Cross-table of ${title}; ${plural(rows.length, 'row')}. ${lines.slice(0, 14).join('; ')}.`;
}

function crossTable(
  cells: readonly LevelRates[],
  { id, factors }: Pick<CrossQuestion, 'id' | 'factors'>,
): DataTable<LevelRates> {
  return {
    id: `${id}-table`,
    caption: `Trips and bites by ${factors.map(factorWords).join(' and ')}.`,
    columns: [
      ...factors.map((factor) => ({
        head: factorWords(factor),
        kind: 'text' as const,
        cell: (row: LevelRates) => levelName(factor, row.by[factor] ?? ''),
        csv: [{ head: factor, value: (row: LevelRates) => row.by[factor] ?? '' }],
      })),
      ...(['trips', 'bites', 'hooked', 'caught'] as const).map((name) => ({
        head: name,
        kind: 'number' as const,
        cell: ({ main }: LevelRates) => formatCount(main[name]),
        csv: [{ head: name, value: ({ main }: LevelRates) => main[name] }],
      })),
    ],
    rows: cells,
  };
}
