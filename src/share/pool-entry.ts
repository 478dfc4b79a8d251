import { figureText } from '../base/format-figure.ts';
import { formatDecimal } from '../base/format-number.ts';
import { plural, sentenceCase } from '../base/words.ts';
import { MEASURE_WORDS } from '../decide/measure-words.ts';
import type { DotChart, DotRow } from '../draw/dot-chart.ts';
import { drawDots } from '../draw/draw-dots.ts';
import { renderPicture } from '../draw/render-picture.ts';
import { isProportion } from '../estimate/proportion.ts';
import type { Measure } from '../tally/measures.ts';
import { tableCsv, tableView } from '../write/data-table.tsx';
import type { CaptionedPicture, Entry } from '../write/entry.tsx';
import type { TextFile } from '../write/new-files.ts';
import { ENOUGH } from '../write/pages/enough.ts';
import type { PooledMeasure, PooledStudy } from './pool-rates.ts';
import {
  differenceSentences,
  leaveOneOutSentence,
  POOL_QUESTIONS,
  poolSentence,
  tellsNothing,
} from './pool-sentence.ts';
import { poolTable } from './pool-table-view.ts';

/** A pooled measure as an entry of a page: the answer, the forest of packages, the table behind it. */
export async function poolEntry(
  pooled: PooledMeasure,
  level: number,
): Promise<{ readonly entry: Entry; readonly files: readonly TextFile[] }> {
  const { measure } = pooled;
  const id = measure.replaceAll('_', '-');
  const table = poolTable(pooled, { id: `${id}-table`, level });
  const csv = `pool-${id}.csv`;
  const entry: Entry = {
    id,
    question: POOL_QUESTIONS[measure],
    answer: poolSentence(pooled),
    asides: [...differenceSentences(pooled, level), ...leaveOneOutSentence(pooled)],
    pictures: [await forest(pooled, id, level)],
    table: { view: tableView(table), csv },
  };
  return { entry, files: [{ name: csv, text: tableCsv(table) }] };
}

async function forest(pooled: PooledMeasure, id: string, level: number): Promise<CaptionedPicture> {
  const { measure, studies } = pooled;
  const { style, name } = MEASURE_WORDS[measure];
  const chart: DotChart = {
    rows: [...studies.map((study) => studyRow(study, measure)), ...pooledRows(pooled)],
    series: [],
    style,
    axisTitle: isProportion(measure) ? `${name}, %` : sentenceCase(`${name}, times 10`),
    reference: null,
    shaded: null,
    span: isProportion(measure) ? null : [0, 0],
  };
  const shown = chart.rows.flatMap(({ label, marks }) =>
    marks.map(({ figure }) => `${label}: ${figureText(figure, style).short}`),
  );
  const interval = `${formatDecimal(100 * level, 0)} % interval`;
  const words = {
    id: `${id}-forest`,
    title: sentenceCase(`${name}, by package and together`),
    description: `Dots with ${interval}s. ${shown.join('; ')}.`,
  };
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption:
      `Dot: the package’s own figure, or the pooled one. Bar: ${interval}, trips as the unit that ` +
      'repeats within a package, packages as the unit that repeats between them.',
  };
}

function studyRow({ label, figure, rate }: PooledStudy, measure: Measure): DotRow {
  const counted = isProportion(measure) ? rate.denominator : rate.numerator;
  const thin = counted < ENOUGH.bites || rate.trips < ENOUGH.trips;
  return { label, marks: [{ figure, n: plural(rate.trips, 'trip'), thin }] };
}

/** Of one package alone there is nothing together; a figure that tells nothing has no room in a chart. */
function pooledRows({ fixed, random, studies, measure }: PooledMeasure): DotRow[] {
  if (studies.length < 2) return [];
  const n = plural(studies.length, 'package');
  return [
    { label: 'together, boats may differ', marks: [{ figure: random, n, thin: false }] },
    { label: 'together, as if all alike', marks: [{ figure: fixed, n, thin: false }] },
  ].filter(({ marks: [mark] }) => {
    return mark?.figure.kind === 'estimated' && !tellsNothing(mark.figure, measure);
  });
}
