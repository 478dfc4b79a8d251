import { figureText } from '../../base/format-figure.ts';
import { formatCount, formatHours } from '../../base/format-number.ts';
import { sentenceCase } from '../../base/words.ts';
import type { GroupRate } from '../../estimate/group-rate.ts';
import { isProportion } from '../../estimate/proportion.ts';
import { factorWords } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import { MEASURES, type Measure } from '../../tally/measures.ts';
import type { Column, DataTable } from '../data-table.tsx';
import { isThin } from './enough.ts';
import type { LevelRates } from './level-rates.ts';
import { levelName } from './level-words.ts';
import { MEASURE_HEADS, measureStyle } from './report-context.ts';

/** A table of levels: what was counted, then each measure with its interval, then any notes. */
export function levelTable(
  levels: readonly LevelRates[],
  about: {
    readonly id: string;
    readonly caption: string;
    readonly factors: readonly FactorName[];
    /** The first is the one that rows are judged by. */
    readonly measures: readonly [Measure, ...Measure[]];
  },
): DataTable<LevelRates> {
  const notes = levels.some(({ rates }) => rates.some(({ rate }) => notesOf(rate).length > 0));
  const perHour = about.measures.some((measure) => !isProportion(measure));
  return {
    id: about.id,
    caption: about.caption,
    columns: [
      ...about.factors.map(factorColumn),
      countColumn('trips', TRIPS_HEADS[MEASURES[about.measures[0]].denominator]),
      ...COUNTS,
      ...(perHour ? [HOURS] : []),
      ...about.measures.map(measureColumn),
      ...(perHour ? [COVER] : []),
      ...(notes ? [NOTES] : []),
    ],
    rows: levels,
    thin: ({ main }) => isThin(main),
  };
}

function factorColumn(factor: FactorName): Column<LevelRates> {
  const level = ({ by }: LevelRates) => by[factor] ?? '';
  return {
    head: factorWords(factor),
    kind: 'text',
    cell: (row) => levelName(factor, level(row)),
    csv: [{ head: factor, value: level }],
  };
}

type CountName = 'trips' | 'bites' | 'hooked' | 'caught' | 'released' | 'kept';

function countColumn(name: CountName, head: string = name): Column<LevelRates> {
  return {
    head,
    kind: 'number',
    cell: ({ main }) => formatCount(main[name]),
    csv: [{ head: name, value: ({ main }) => main[name] }],
  };
}

/** Trips count for a figure that have what it divides by, which need not be all trips. */
const TRIPS_HEADS = {
  bites: 'trips with a bite',
  hooked: 'trips with a fish hooked',
  line_hours: 'trips with line-hours',
} as const;

const COUNTS: readonly Column<LevelRates>[] = [
  countColumn('bites'),
  countColumn('hooked'),
  {
    ...countColumn('caught'),
    csv: (['caught', 'released', 'kept'] as const).map((name) => ({
      head: name,
      value: ({ main }) => main[name],
    })),
  },
];

const HOURS: Column<LevelRates> = {
  head: 'line-hours',
  kind: 'number',
  cell: ({ main }) => (main.line_hours === null ? 'not recorded' : formatHours(main.line_hours)),
  csv: [{ head: 'line_hours', value: ({ main }) => main.line_hours }],
};

const COVER: Column<LevelRates> = {
  head: 'effort cover, % of bites',
  kind: 'number',
  cell: ({ main }) => {
    const cover = main.effort_cover;
    return cover === null ? '' : formatCount(Math.floor(100 * cover + 1e-9));
  },
  csv: [{ head: 'effort_cover', value: ({ main }) => main.effort_cover }],
};

const NOTES: Column<LevelRates> = {
  head: 'notes',
  kind: 'text',
  cell: ({ rates }) => notesOfAll(rates).join(' '),
  csv: [{ head: 'notes', value: ({ rates }) => notesOfAll(rates).join(' ') }],
};

function measureColumn(measure: Measure): Column<LevelRates> {
  const rateOf = ({ rates }: LevelRates) => rates.find((row) => row.measure === measure)?.rate;
  const limit = (end: 'estimate' | 'lower' | 'upper') => (row: LevelRates) => {
    const rate = rateOf(row);
    return rate?.kind === 'estimated' ? rate[end] : null;
  };
  return {
    head: MEASURE_HEADS[measure],
    kind: 'number',
    cell: (row) => {
      const rate = rateOf(row);
      return rate === undefined ? '' : figureText(rate, measureStyle(measure)).short;
    },
    csv: [
      { head: measure, value: limit('estimate') },
      { head: `${measure}_lower`, value: limit('lower') },
      { head: `${measure}_upper`, value: limit('upper') },
    ],
  };
}

/** What must be read beside a figure; where there is none, why. */
function notesOf(rate: GroupRate['rate']): readonly string[] {
  return rate.kind === 'estimated' ? rate.notes : [rate.reason, ...rate.notes];
}

function notesOfAll(rates: readonly GroupRate[]): string[] {
  return [...new Set(rates.flatMap(({ rate }) => notesOf(rate)))].map(sentenceCase);
}
