import { figureText, PER_10_LINE_HOURS, PERCENT } from '../base/format-figure.ts';
import { formatCount, formatHours } from '../base/format-number.ts';
import { UserError } from '../base/problem.ts';
import { levelWords, printable } from '../base/words.ts';
import type { GroupRate } from '../estimate/group-rate.ts';
import {
  PROPORTION_METHODS,
  type ProportionMethod,
  RATE_METHODS,
  type RateMethod,
} from '../estimate/methods.ts';
import { type RateRequest, ratesBy, refusalOf } from '../estimate/rates.ts';
import { MEASURE_NAMES, MEASURES, type Measure } from '../tally/measures.ts';
import { textTable } from '../write/text-table.ts';
import { documentHead, documentText, notesOf, rateRecord } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { loadSeason } from './load-season.ts';
import { commonOptions, factorList, type GivenOptions, known, measureList } from './options.ts';

export interface RatesOptions extends GivenOptions {
  readonly by?: string;
  readonly measure?: string;
  readonly method?: string;
}

const MOST_FACTORS = 3;

/**
 * `rates`: a table of rates with intervals, by up to three factors. Exit 1 where a measure named has
 * no figure at all, or, with none named, no measure has one.
 */
export async function ratesCommand(
  folder: string,
  given: RatesOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = commonOptions(given);
  const by = factorList('--by', given.by);
  if (by.length > MOST_FACTORS) {
    throw new UserError(`--by takes up to ${MOST_FACTORS} factors at a time, not ${by.length}.`, 2);
  }
  const asked = measureList('--measure', given.measure);
  const method = methodOptions(given.method);
  const season = await loadSeason(folder, options, effects);
  const question = { by, only: options.only, from: options.from, to: options.to };
  const measures = asked ?? MEASURE_NAMES.filter((name) => refusalOf(name, question) === null);
  const request = { ...question, ...options, ...method, measures } satisfies RateRequest;
  const rows = ratesBy(season, request);
  if (options.json) {
    const document = { ...documentHead('rates', season, options), estimates: rows.map(rateRecord) };
    effects.out(documentText(document));
  } else {
    effects.out(ratesText(rows, request));
  }
  const isGiven = (measure: Measure) =>
    rows.some((row) => row.measure === measure && row.rate.kind === 'estimated');
  return (asked === null ? measures.some(isGiven) : asked.every(isGiven)) ? 0 : 1;
}

function methodOptions(
  text: string | undefined,
): Pick<RateRequest, 'proportionMethod' | 'rateMethod'> {
  if (text === undefined) return {};
  const method = known('--method', text, [...PROPORTION_METHODS, ...RATE_METHODS]);
  return PROPORTION_METHODS.includes(method as ProportionMethod)
    ? { proportionMethod: method as ProportionMethod }
    : { rateMethod: method as RateMethod };
}

function ratesText(rows: readonly GroupRate[], request: RateRequest): string {
  if (rows.length === 0) return 'The log has nothing to count here.\n';
  const tables = request.measures.map((measure) =>
    measureTable(
      measure,
      rows.filter((row) => row.measure === measure),
      request,
    ),
  );
  return `${tables.join('\n\n')}\n`;
}

function measureTable(
  measure: Measure,
  rows: readonly GroupRate[],
  { by, level }: RateRequest,
): string {
  const { numerator, denominator, kind } = MEASURES[measure];
  const isRate = kind === 'rate';
  const unit = isRate ? ` per 10 line-hours` : '';
  const title = `${measure}: ${numerator}${isRate ? unit : ` of ${denominator}`}`;
  const interval = `${Math.floor(level * 10_000) / 100} % interval`;
  const columns = [
    ...by.map((name) => ({ head: name, align: 'left' as const })),
    { head: interval, align: 'right' as const },
    { head: numerator, align: 'right' as const },
    { head: isRate ? 'line-hours' : denominator, align: 'right' as const },
    { head: 'trips', align: 'right' as const },
    ...(isRate ? [{ head: 'effort cover', align: 'right' as const }] : []),
  ];
  const notes = [...new Set(rows.flatMap((row) => notesOf(row.rate)))];
  const body = rows.map((row) => {
    const marks = notesOf(row.rate).map((note) => ` [${notes.indexOf(note) + 1}]`);
    return [
      ...by.map((name) => printable(levelWords(row.by[name] ?? ''))),
      figureText(row.rate, isRate ? PER_10_LINE_HOURS : PERCENT).short + marks.join(''),
      ...(row.trips === 0 && isRate
        ? ['–', '–', '–']
        : [
            formatCount(row.numerator),
            isRate ? formatHours(row.denominator) : formatCount(row.denominator),
            formatCount(row.trips),
          ]),
      ...(isRate ? [coverText(row.effort_cover)] : []),
    ];
  });
  const footnotes = notes.map((note, at) => `[${at + 1}] ${note}`);
  return [title, textTable(columns, body), ...footnotes].join('\n');
}

function coverText(cover: number | null): string {
  return cover === null ? '' : `${Math.floor(cover * 100)} %`;
}
