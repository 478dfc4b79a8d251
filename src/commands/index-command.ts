import type { Estimate } from '../base/estimate.ts';
import { figureText, TIMES } from '../base/format-figure.ts';
import { formatCount, formatHours } from '../base/format-number.ts';
import { UserError } from '../base/problem.ts';
import { levelWords, printable } from '../base/words.ts';
import { type IndexFit, indexFit } from '../decide/index-fit.ts';
import {
  INDEX_COVARIATES,
  type StandardisedIndex,
  standardisedIndex,
} from '../estimate/standardised-index.ts';
import { factorWords } from '../tally/factor-words.ts';
import { factorOf } from '../tally/factors.ts';
import { MEASURES } from '../tally/measures.ts';
import { textTable } from '../write/text-table.ts';
import { documentHead, documentText, limitsRecord, notesOf } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { loadSeason } from './load-season.ts';
import { commonOptions, factorList, type GivenOptions, measureList } from './options.ts';

export interface IndexOptions extends GivenOptions {
  readonly by?: string;
  readonly measure?: string;
  readonly adjust?: string;
}

/**
 * `index`: catch per unit effort by month (or another factor) with everything else held equal. Exit 1
 * where no level has an index with its interval.
 */
export async function indexCommand(
  folder: string,
  given: IndexOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = commonOptions(given);
  const [by = 'month', ...more] = factorList('--by', given.by);
  const [measure = 'bites_per_line_hour'] = measureList('--measure', given.measure) ?? [];
  const adjust =
    given.adjust === undefined ? INDEX_COVARIATES : factorList('--adjust', given.adjust);
  if (more.length > 0) throw new UserError('--by takes one factor for an index.', 2);
  if (MEASURES[measure].kind !== 'rate') {
    throw new UserError(`--measure ${measure} is no rate per line-hour, so it has no index.`, 2);
  }
  const unfit = [by, ...adjust].find((name) => ['outcome', 'clock'].includes(factorOf(name).scope));
  if (unfit !== undefined) {
    throw new UserError(`An index cannot use ${unfit}: a soak has no single level of it.`, 2);
  }
  const season = await loadSeason(folder, options, effects);
  const index = standardisedIndex(season, { ...options, by, measure, adjust });
  effects.out(
    options.json
      ? documentText({ ...documentHead('index', season, options), ...indexRecord(index) })
      : indexText(index),
  );
  return index.rows.some(({ standardised }) => hasInterval(standardised)) ? 0 : 1;
}

/** An index of one level is 1 by definition, and one that rests on a single trip has no limits. */
function hasInterval(figure: Estimate): boolean {
  return (
    figure.kind === 'estimated' && Number.isFinite(figure.lower) && Number.isFinite(figure.upper)
  );
}

function indexRecord({ request, rows, model: write, refused, notes }: StandardisedIndex) {
  const model = write?.() ?? null;
  return {
    by: request.by,
    measure: request.measure,
    model:
      model === null
        ? null
        : {
            family: model.family,
            theta: model.theta,
            theta_se: model.thetaStandardError,
            unit: model.unit,
            aic: model.aic,
            dispersion: model.dispersion,
            poisson: model.poisson,
            terms: model.terms,
            coefficients: model.coefficients,
            fit: indexFit(model, request.by),
          },
    index: rows.map((row) => {
      const { estimate, lower, upper } = limitsRecord(row.standardised);
      return {
        level: row.level,
        standardised: estimate,
        lower,
        upper,
        raw: row.raw,
        raw_per_line_hour: row.rawPerLineHour,
        trips: row.trips,
        line_hours: row.lineHours,
        notes: notesOf(row.standardised),
      };
    }),
    refused,
    notes,
  };
}

function fitLines(fit: IndexFit | null): string[] {
  return fit === null ? [] : [`Does the model fit? ${fit.sentence}`];
}

/** `1.2 (0.8–1.7)`; `1.0, no interval` where its note says why there is none. */
function indexWords(figure: Estimate): string {
  const { short, value } = figureText(figure, TIMES);
  return figure.kind === 'not-estimable' || hasInterval(figure) ? short : `${value}, no interval`;
}

function indexText({ request, rows, model: write, refused, notes }: StandardisedIndex): string {
  const model = write?.() ?? null;
  const right = (head: string) => ({ head, align: 'right' as const });
  const columns = [
    { head: factorWords(request.by), align: 'left' as const },
    right('standardised'),
    right('as logged'),
    right('trips'),
    right('line-hours'),
  ];
  const body = rows.map((row) => [
    printable(levelWords(row.level)),
    indexWords(row.standardised),
    row.raw === null ? '' : row.raw.toFixed(2),
    formatCount(row.trips),
    formatHours(row.lineHours),
  ]);
  const marks = [
    ...notes,
    ...rows.flatMap(({ level, standardised }) =>
      notesOf(standardised).map((note) => `${printable(level)}: ${note}`),
    ),
  ];
  const held = model === null ? [] : model.terms.filter((term) => term !== request.by);
  const about =
    model === null
      ? []
      : [
          `${model.family}, counted by the ${model.unit}` +
            (model.theta === null ? '' : `, θ ${model.theta.toFixed(2)}`) +
            `; held equal: ${held.map(factorWords).join(', ') || 'nothing'}. Mean of all = 1.`,
          ...fitLines(indexFit(model, request.by)),
          'It is this boat’s success, not the number of fish in the sea.',
        ];
  const title = `${request.measure} by ${factorWords(request.by)}`;
  const why = refused === null ? [] : [refused];
  return `${[title, textTable(columns, body), ...why, ...marks, ...about].join('\n')}\n`;
}
