import { type Refusal, refuse } from '../base/estimate.ts';
import { clusterCovariance } from '../stats/sandwich-cluster.ts';
import type { FactorName } from '../tally/factors.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { aliasedCovariates, fitAdjusted } from './adjusted-fit.ts';
import { adjustedRows, isSameThing } from './adjusted-rows.ts';
import type { CompareRequest } from './compare-levels.ts';
import { type JointTest, jointTest } from './joint-test.ts';
import type { DroppedCovariate } from './lens.ts';
import { bitesOfRows, type Compared, eventsAndUnits } from './level-pairs.ts';
import { type PairTogether, pairsTogether } from './pairs-together.ts';
import { talliedGroups } from './rates.ts';
import { isTiedAmong, tiedReason } from './tied-factors.ts';

/** Several levels of one factor in one adjusted model: whether any differ, and which. */
export interface LevelsTogether extends Compared {
  /** Those judged: at least as much behind each as a verdict wants. */
  readonly levels: readonly string[];
  readonly level: number;
  /** Levels that rest on too little to be judged with the others. */
  readonly thin: readonly LevelBasis[];
  /** Whether all levels are alike. */
  readonly test: JointTest | Refusal;
  /** Every pair once, the later level less the earlier. */
  readonly pairs: readonly PairTogether[];
  readonly covariates: readonly FactorName[];
  readonly dropped: readonly DroppedCovariate[];
  readonly notes: readonly string[];
  readonly trips: number;
  readonly bites: number;
  /** Why nothing can be said of them together; null where it can. */
  readonly refused: string | null;
}

/** What a level rests on: bites or hooked fish; for a rate, the bites counted in it. */
export interface LevelBasis {
  readonly level: string;
  readonly bites: number;
  readonly trips: number;
}

/** How levels are judged. */
interface Judging {
  readonly adjust: readonly FactorName[];
  readonly level: number;
}

/** The least a level must rest on to be judged with others. Common practice, no source. */
export const LEAST = { bites: 10, trips: 5 };
/** More levels than this make more pairs than anybody reads: 12 make 66. */
const MOST_LEVELS = 12;

/** Three or more levels of a log judged together; see {@link judgeTogether}. */
export function levelsTogether(
  season: TidySeason,
  compared: Compared,
  request: CompareRequest,
): LevelsTogether {
  const adjust = request.adjust.filter((name) => !isSameThing(compared.factor, name));
  const rows = talliedGroups(season, { ...request, by: [compared.factor, ...adjust] }).flatMap(
    (group) => group.rows,
  );
  return judgeTogether(rows, compared, { adjust, level: request.level });
}

/**
 * All levels of a factor in one adjusted model (the one of `lensAdjusted`): a joint Wald test and
 * every pair. Levels on fewer than 10 bites or 5 trips are left out and named; more than 12, or all
 * of them tied to a covariate, are refused.
 * @param rows tallies by the factor and the covariates
 */
export function judgeTogether(
  rows: readonly TallyRow[],
  asked: Compared,
  { adjust, level }: Judging,
): LevelsTogether {
  const bases = asked.levels.map((one) => basisOf(rows, asked, one));
  const thin = bases.filter(isThinBasis);
  const levels = asked.levels.filter((one) => !thin.some((basis) => basis.level === one));
  const compared = { ...asked, levels };
  const prepared = adjustedRows(rows, compared, adjust);
  const trips = prepared.rows.map((row) => row.trip_id);
  const { covariates, dropped } = prepared;
  const whole = {
    ...compared,
    ...{ level, thin, covariates, dropped, notes: [] },
    trips: new Set(trips).size,
    bites: bitesOfRows(prepared.rows, compared),
  };
  const refused = (reason: string): LevelsTogether => {
    return { ...whole, test: refuse(reason), pairs: [], refused: reason };
  };
  const unfit = unfitReason(rows, compared, adjust);
  if (unfit !== null) return refused(unfit);
  const fitted = fitAdjusted(prepared, compared);
  if ('reason' in fitted) return refused(fitted.reason);
  const { model, notes } = fitted;
  const covariance = clusterCovariance(model, trips, 'CR2');
  if ('reason' in covariance) return refused(covariance.reason);
  return {
    ...whole,
    notes,
    dropped: [...dropped, ...aliasedCovariates(model, covariates)],
    test: jointTest(covariance, [compared.factor]),
    pairs: pairsTogether(prepared, compared, { covariance, level }),
    refused: null,
  };
}

/** Whether a level rests on too little. */
export function isThinBasis({ bites, trips }: LevelBasis): boolean {
  return bites < LEAST.bites || trips < LEAST.trips;
}

/** What one level of the factor rests on in these rows. */
export function basisOf(
  rows: readonly TallyRow[],
  { factor, measure }: Pick<Compared, 'factor' | 'measure'>,
  level: string,
): LevelBasis {
  const own = rows.filter((row) => row[factor] === level && bitesOfRows([row], { measure }) > 0);
  return {
    level,
    bites: bitesOfRows(own, { measure }),
    trips: new Set(own.map((row) => row.trip_id)).size,
  };
}

/** Why so many levels, or levels fished so, cannot be judged together; null: they can. */
function unfitReason(
  rows: readonly TallyRow[],
  compared: Compared,
  adjust: readonly FactorName[],
): string | null {
  const { levels, factor, measure } = compared;
  if (levels.length < 2) {
    return `Fewer than two of them rest on ${LEAST.bites} bites over ${LEAST.trips} trips.`;
  }
  if (levels.length > MOST_LEVELS) {
    return (
      `${levels.length} levels make too many pairs to judge together: ` +
      `name up to ${MOST_LEVELS} of them.`
    );
  }
  const own = rows.filter(
    (row) => levels.includes(row[factor] ?? '') && eventsAndUnits(row, measure).units > 0,
  );
  const tied = adjust.find((covariate) => isTiedAmong(own, compared, covariate));
  return tied === undefined ? null : tiedReason(compared, tied);
}
