import { type Estimate, notEstimable, type Refusal, refuse } from '../base/estimate.ts';
import { withLevel } from '../stats/design-matrix.ts';
import type { FittedModel } from '../stats/glm-model.ts';
import { type ClusterCovariance, clusterCovariance } from '../stats/sandwich-cluster.ts';
import { standardise } from '../stats/standardise.ts';
import { ownMix } from '../stats/standardise-mean.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { fitAdjusted } from './adjusted-fit.ts';
import { type AdjustedRows, adjustedRows, isSameThing } from './adjusted-rows.ts';
import type { CompareRequest } from './compare-levels.ts';
import { type JointTest, jointTest } from './joint-test.ts';
import type { DroppedCovariate } from './lens.ts';
import type { Contrast } from './level-pairs.ts';
import { basisOf, isThinBasis, LEAST, type LevelBasis } from './levels-together.ts';
import { talliedGroups } from './rates.ts';

/** A against B within each level of something else: whether the answer differs from one to another. */
export interface DifferenceWithin {
  readonly by: FactorName;
  readonly rows: readonly WithinLevel[];
  /** Whether the difference is the same at every level, on the scale of the model. */
  readonly test: JointTest | Refusal;
  readonly covariates: readonly FactorName[];
  readonly dropped: readonly DroppedCovariate[];
  readonly notes: readonly string[];
  /** Why the levels cannot be set against one another; null where they can. */
  readonly refused: string | null;
}

export interface WithinLevel {
  readonly level: string;
  readonly difference: Estimate;
  readonly ratio: Estimate;
  /** What A and B rest on here. */
  readonly a: LevelBasis;
  readonly b: LevelBasis;
}

/** The factors by which an answer is most often asked to differ. */
export const WITHIN: readonly FactorName[] = ['reach', 'wind_band'];

/**
 * The tables of one comparison, by reach and by wind unless told otherwise; a factor that is the
 * compared one, or the same thing seen coarser or finer, or has one level only, gives none.
 */
export function differencesWithin(
  season: TidySeason,
  contrast: Contrast,
  request: CompareRequest,
  within: readonly FactorName[] = WITHIN,
): DifferenceWithin[] {
  const offered = within.filter((by) => !isSameThing(contrast.factor, by));
  return offered.flatMap((by) => {
    const others = request.adjust.filter(
      (name) => !isSameThing(contrast.factor, name) && !isSameThing(by, name),
    );
    const adjust = [...others, by];
    const rows = talliedGroups(season, { ...request, by: [contrast.factor, ...adjust] })
      .flatMap((group) => group.rows)
      .filter((row) => contrast.levels.includes(row[contrast.factor] ?? ''));
    const order = factorOf(by).order(season.log.settings);
    const levels = [...new Set(rows.map((row) => row[by] ?? ''))].sort(order);
    if (levels.length < 2) return [];
    return [differenceWithin(rows, contrast, { by, levels, adjust, level: request.level })];
  });
}

interface Within {
  readonly by: FactorName;
  /** In the order they are to stand. */
  readonly levels: readonly string[];
  /** Covariates, `by` among them. */
  readonly adjust: readonly FactorName[];
  readonly level: number;
}

/**
 * A − B within each level of `by`, from one model: the adjusted lens with the product of the factor
 * and `by`; every bite of a level is set to A, then to B. A level in which A or B rests on fewer than
 * 10 bites or 5 trips is left out of the model and has no figure.
 * @param rows tallies of A and B by the factor and the covariates
 */
export function differenceWithin(
  rows: readonly TallyRow[],
  contrast: Contrast,
  { by, levels, adjust, level }: Within,
): DifferenceWithin {
  const bases = levels
    .map((one) => basesAt(rows, contrast, { by, one }))
    .filter(({ a, b }) => a.bites > 0 || b.bites > 0);
  const known = new Set(bases.filter((basis) => !isThinWithin(basis)).map((one) => one.level));
  const kept = rows.filter((row) => known.has(row[by] ?? ''));
  const prepared = adjustedRows(kept, contrast, adjust);
  const { covariates, dropped, leftOut } = prepared;
  const fitted = known.size < 2 ? refuse(TOO_FEW) : fitWithin(prepared, contrast, by);
  if (fitted.kind === 'not-estimable') {
    const { reason } = fitted;
    const none = noFigures(reason, level);
    const without = bases.map((basis) => ({ ...basis, ...none }));
    return { by, rows: without, test: fitted, covariates, dropped, notes: [], refused: reason };
  }
  const ofLevel = (basis: LevelBases): WithinLevel => {
    const isModelled = prepared.rows.some((row) => row[by] === basis.level);
    if (isModelled)
      return { ...basis, ...figuresAt(fitted, contrast, { by, at: basis.level, level }) };
    const one = leftOut.find((out) => out.covariate === by && out.level === basis.level);
    return { ...basis, ...noFigures(one?.reason ?? TOO_THIN, level) };
  };
  return {
    ...{ by, covariates, dropped, notes: fitted.notes, refused: null },
    rows: bases.map(ofLevel),
    test: jointTest(fitted.covariance, [by, contrast.factor]),
  };
}

const TOO_THIN = `One of the two rests on fewer than ${LEAST.bites} bites or ${LEAST.trips} trips there.`;
const TOO_FEW = `It takes two levels where both rest on ${LEAST.bites} bites over ${LEAST.trips} trips.`;

type LevelBases = Pick<WithinLevel, 'level' | 'a' | 'b'>;

function basesAt(
  rows: readonly TallyRow[],
  contrast: Contrast,
  { by, one }: { readonly by: FactorName; readonly one: string },
): LevelBases {
  const own = rows.filter((row) => row[by] === one);
  const [a, b] = contrast.levels.map((side) => basisOf(own, contrast, side));
  return { level: one, a: a as LevelBasis, b: b as LevelBasis };
}

/** Whether A or B rests on too little at a level. */
export function isThinWithin({ a, b }: LevelBases): boolean {
  return isThinBasis(a) || isThinBasis(b);
}

function noFigures(reason: string, level: number): Pick<WithinLevel, 'difference' | 'ratio'> {
  const none = notEstimable(reason, { level, method: 'adjusted', n: 0, exposure: null, notes: [] });
  return { difference: none, ratio: none };
}

interface FittedWithin {
  readonly kind: 'within';
  readonly model: FittedModel;
  readonly covariance: ClusterCovariance;
  readonly notes: readonly string[];
}

function fitWithin(
  prepared: AdjustedRows,
  contrast: Contrast,
  by: FactorName,
): FittedWithin | Refusal {
  if (!prepared.covariates.includes(by)) return refuse(TOO_FEW);
  const fitted = fitAdjusted(prepared, contrast, by);
  if ('reason' in fitted) return refuse(fitted.reason);
  const trips = prepared.rows.map((row) => row.trip_id);
  const covariance = clusterCovariance(fitted.model, trips, 'CR2');
  return 'reason' in covariance
    ? refuse(covariance.reason)
    : { kind: 'within', ...fitted, covariance };
}

/** Averaged over the bites (or line-hours) of one level alone. */
function figuresAt(
  { model, covariance }: FittedWithin,
  { factor, levels: [a, b] }: Contrast,
  { by, at, level }: { readonly by: FactorName; readonly at: string; readonly level: number },
): Pick<WithinLevel, 'difference' | 'ratio'> {
  const { design } = model;
  const variable = design.variables[by];
  const values = variable !== undefined && 'values' in variable ? variable.values : [];
  const weights = ownMix(model).map((weight, row) => (values[row] === at ? weight : 0));
  const rows = { a: withLevel(design, factor, a), b: withLevel(design, factor, b) };
  const { difference, ratio } = standardise(model, rows, { level, covariance, weights });
  return { difference, ratio };
}
