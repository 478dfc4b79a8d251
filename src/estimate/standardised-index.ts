import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import { levelWords, printable, sentenceCase } from '../base/words.ts';
import { designMatrix } from '../stats/design-matrix.ts';
import type { ModelData } from '../stats/glm-model.ts';
import { type IndexLevel, indexByLevel } from '../stats/index-by-level.ts';
import { fitNegativeBinomial } from '../stats/negative-binomial-fit.ts';
import { clusterCovariance } from '../stats/sandwich-cluster.ts';
import { factorWords } from '../tally/factor-words.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import type { Measure } from '../tally/measures.ts';
import type { Question } from '../tally/question.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { isSameThing } from './adjusted-rows.ts';
import { type EffortCount, effortCounts } from './effort-counts.ts';
import { type IndexModel, indexModel } from './index-model.ts';
import { separatedReason } from './separated-reason.ts';

/** Covariates of the index unless told otherwise. */
export const INDEX_COVARIATES: readonly FactorName[] = ['month', 'reach', 'bait', 'wind_band'];

/** What index is wanted: of which count, over which factor, with what held equal. */
export interface IndexRequest extends Omit<Question, 'by'> {
  readonly by: FactorName;
  readonly measure: Measure;
  readonly adjust: readonly FactorName[];
  readonly level: number;
  readonly seed: number;
}

/** One level of the index beside what the log has as it stands. */
export interface IndexRow {
  readonly level: string;
  /** Index with a mean of 1 over the levels. */
  readonly standardised: Estimate;
  /** The unstandardised rate per line-hour against its own mean over the levels. */
  readonly raw: number | null;
  readonly rawPerLineHour: number;
  readonly trips: number;
  readonly lineHours: number;
}

export interface StandardisedIndex {
  readonly request: IndexRequest;
  readonly rows: readonly IndexRow[];
  /** The model written out, for whoever wants to review it; null without an index. */
  readonly model: (() => IndexModel) | null;
  /** Why there is no index; null where there is. */
  readonly refused: string | null;
  /** Levels left out of the model, and why. */
  readonly notes: readonly string[];
}

/**
 * Standardised catch per unit effort: a negative binomial log-linear model of counts per soak with
 * line-hours as exposure, predicted for every level on the log's own mix of everything else and
 * scaled to a mean of 1. Errors are by trip (CR3 × (G − 1)/G, Satterthwaite degrees of freedom).
 * It measures this boat’s success, not the number of fish.
 * Source: Maunder & Punt 2004; Hoyle et al. 2024 (what is to be shown beside it).
 */
export function standardisedIndex(season: TidySeason, request: IndexRequest): StandardisedIndex {
  // Without soaks effort is known for whole trips, which cannot be divided by what differs in them.
  const divides = (name: FactorName) => hasSoaks(season) || factorOf(name).scope === 'trip';
  const adjust = request.adjust.filter((name) => !isSameThing(request.by, name) && divides(name));
  const all = effortCounts(season, request.measure, {
    ...request,
    factors: [request.by, ...adjust],
  });
  const { counts, notes } = withoutEmptyLevels(all, [request.by, ...adjust]);
  const order = factorOf(request.by).order(season.log.settings);
  const levels = levelsOf(all, request.by).sort(order);
  const refuse = (reason: string): StandardisedIndex => ({
    request,
    rows: indexRows(all, request, { levels, index: reason }),
    model: null,
    refused: reason,
    notes,
  });
  if (all.length === 0) {
    const undivided = effortCounts(season, request.measure, { ...request, factors: [] });
    const divided = factorWords(request.by);
    return refuse(
      undivided.length === 0
        ? 'No line-hours are recorded, so there is no catch per effort.'
        : `Line-hours are known for whole trips only, so they cannot be divided by ${divided}.`,
    );
  }
  if (counts.length === 0)
    return refuse('Nothing was caught on recorded effort, so there is nothing to index.');
  const terms = [...adjust.filter((name) => levelsOf(counts, name).length > 1), request.by];
  const data = modelData(counts, terms, { by: request.by, levels });
  const fit = fitNegativeBinomial(data);
  if (fit.kind === 'separated') return refuse(separatedReason(fit.columns, data.design));
  if (fit.kind !== 'negative-binomial') return refuse(fit.reason);
  const trips = counts.map((count) => count.trip_id);
  const covariance = clusterCovariance(fit.model, trips, 'CR3J');
  if ('reason' in covariance) return refuse(covariance.reason);
  const index = indexByLevel(fit.model, request.by, { covariance, level: request.level });
  if ('reason' in index) {
    return refuse(
      `Some levels of ${factorWords(request.by)} were fished only together with one level of ` +
        'something else, so they cannot be told apart with all of it held equal.',
    );
  }
  return {
    request,
    rows: indexRows(all, request, { levels, index }),
    model: () => indexModel(fit, { trips, covariance, terms, season, seed: request.seed }),
    refused: null,
    notes,
  };
}

function hasSoaks({ effort }: TidySeason): boolean {
  return effort.units.some((unit) => unit.soak !== null);
}

function modelData(
  counts: readonly EffortCount[],
  terms: readonly FactorName[],
  { by, levels }: { readonly by: FactorName; readonly levels: readonly string[] },
): ModelData {
  const variables = Object.fromEntries(
    terms.map((name) => {
      const values = counts.map((count) => count.levels[name] ?? '');
      const known = name === by ? levels : [...new Set(values)].sort();
      return [name, { levels: known.filter((level) => values.includes(level)), values }];
    }),
  );
  return {
    design: designMatrix(terms, variables),
    y: counts.map((count) => count.count),
    offset: counts.map((count) => Math.log(count.lineHours)),
  };
}

/** A level on which nothing came has no logarithm: its soaks are left out and the level is named. */
function withoutEmptyLevels(all: readonly EffortCount[], factors: readonly FactorName[]) {
  const notes: string[] = [];
  let counts = all;
  for (;;) {
    const empty = factors.flatMap((name) =>
      [...groupBy(counts, (count) => count.levels[name] ?? '')]
        .filter(([, of]) => of.every((count) => count.count === 0))
        .map(([level]) => ({ name, level })),
    )[0];
    if (empty === undefined) return { counts, notes };
    counts = counts.filter((count) => count.levels[empty.name] !== empty.level);
    const left = `${factorWords(empty.name)} ${printable(levelWords(empty.level))}`;
    notes.push(`${sentenceCase(left)} was left out of the model: nothing came on it.`);
  }
}

function levelsOf(counts: readonly EffortCount[], name: FactorName): string[] {
  return [...new Set(counts.map((count) => count.levels[name] ?? ''))];
}

function indexRows(
  all: readonly EffortCount[],
  request: IndexRequest,
  {
    levels,
    index,
  }: { readonly levels: readonly string[]; readonly index: readonly IndexLevel[] | string },
): IndexRow[] {
  const groups = groupBy(all, (count) => count.levels[request.by] ?? '');
  const raw = levels.map((level) => {
    const of = groups.get(level) ?? [];
    const lineHours = of.reduce((sum, count) => sum + count.lineHours, 0);
    const events = of.reduce((sum, count) => sum + count.count, 0);
    return {
      level,
      lineHours,
      rate: events / lineHours,
      trips: new Set(of.map((c) => c.trip_id)).size,
    };
  });
  const mean = raw.reduce((sum, { rate }) => sum + rate, 0) / Math.max(1, raw.length);
  return raw.map(({ level, lineHours, rate, trips }) => ({
    level,
    standardised: indexEstimate(level, index, {
      level: request.level,
      n: trips,
      exposure: lineHours,
    }),
    raw: mean > 0 ? rate / mean : null,
    rawPerLineHour: rate,
    trips,
    lineHours,
  }));
}

function indexEstimate(
  name: string,
  index: readonly IndexLevel[] | string,
  basis: { readonly level: number; readonly n: number; readonly exposure: number },
): Estimate {
  const method = 'standardised-index-cr3';
  const found = typeof index === 'string' ? undefined : index.find((one) => one.level === name);
  const none = { ...basis, method, notes: [] };
  if (found === undefined) {
    const reason =
      typeof index === 'string' ? index : 'Nothing came on it, so it was left out of the model.';
    return notEstimable(reason, none);
  }
  const notes = found.note === null ? [] : [found.note];
  const open = { lower: Number.NEGATIVE_INFINITY, upper: Number.POSITIVE_INFINITY };
  return estimated({ ...none, notes, estimate: found.index, ...(found.interval ?? open) });
}
