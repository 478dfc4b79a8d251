import type { Matrix } from 'ml-matrix';
import { addScaled, at, type Column, dot, product } from './design-columns.ts';
import type { Family } from './glm-family.ts';
import {
  rowSums,
  type SparseRows,
  solver,
  weightedGram,
  weightedSums,
} from './glm-normal-equations.ts';
import { pivotedQr, solveUpper } from './pivoted-qr.ts';

/** Data of one fit: columns that stand on their own, and only rows that carry weight. */
export interface FitData {
  readonly columns: readonly Column[];
  readonly sparse: SparseRows;
  /** Share of the trials (binomial) or the count itself. */
  readonly y: Column;
  /** Trials × prior weight of each row, above 0. */
  readonly weight: Column;
  readonly offset: Column;
}

/** The model linearised at one set of coefficients. */
export interface Linearised {
  /** Linear predictor with offset. */
  readonly eta: Column;
  /** Orthonormal basis of the columns times the root of the working weights. */
  readonly q: readonly Column[];
  readonly r: Matrix;
  /** (y − mean)/√variance of y, the Pearson residual. */
  readonly pearson: Column;
  /** Variance of y at dispersion 1: what CR2 calls the working variance. */
  readonly variance: Column;
  readonly deviance: number;
}

/** A model that has come to rest. */
export interface Settled {
  readonly coefficients: Column;
  readonly model: Linearised;
}

/** Where the iteration ended, and whether it came to rest there. */
export interface IrlsEnd {
  readonly state: 'settled' | 'at-the-edge' | 'unsettled';
  readonly place: Place;
}

/** Steps shorter than this many standard errors end the iteration, unless told otherwise. */
const SHORT_STEP = 1e-11;
/** A step this short that no longer shrinks is rounding. */
const ROUNDING_STEP = 1e-6;
const MOST_STEPS = 200;
const MOST_HALVINGS = 40;
const FAIR_PART = 0.2;
/** Most a linear predictor may move in one step. */
const LONGEST_MOVE = 8;
/** A mean this close to the end of its range makes the fit suspect of separation. */
const EDGE = 1e-6;
const SMALLEST_VARIANCE = 1e-300;

/**
 * Maximum likelihood by iteratively reweighted least squares with step halving. Runs until the step
 * is short in standard errors (not until the deviance stops moving, which happens while the
 * coefficients still do), so that residuals and covariance belong to the answer.
 * @param start coefficients to begin at
 * @param shortStep steps shorter than this many standard errors end the iteration
 * @param watchEdge stop with 'at-the-edge' when a row that is all success or all failure (or a
 * count of 0) is fitted within 1e-6 of it
 * Source: McCullagh & Nelder 1989, Generalized Linear Models, §2.5.
 */
export function irls(
  data: FitData,
  family: Family,
  {
    start,
    watchEdge,
    shortStep = SHORT_STEP,
  }: { readonly start: Column; readonly watchEdge: boolean; readonly shortStep?: number },
): IrlsEnd {
  let place = placeAt(data, family, start);
  let last = Number.POSITIVE_INFINITY;
  for (let step = 0; step < MOST_STEPS; step++) {
    if (watchEdge && touchesEdge(data, family, place.eta)) return { state: 'at-the-edge', place };
    const newton = newtonStep(data, family, place.eta);
    if (newton === null) break;
    const rounding = newton.length < ROUNDING_STEP && newton.length > 0.5 * last;
    if (newton.length < shortStep || rounding) return { state: 'settled', place };
    const next = stepped(data, family, { from: place, ...newton });
    if (next === null) break;
    last = newton.length;
    place = next;
  }
  return { state: 'unsettled', place };
}

/** The next step and its length in standard errors; null when the weights leave a column empty. */
function newtonStep(data: FitData, family: Family, eta: Column) {
  const { rootWeight, pearson } = workingRows(data, family, eta);
  const { curvature } = family;
  const weight = rootWeight.map((root, row) => {
    if (curvature === null) return root * root;
    return at(data.weight, row) * curvature(at(data.y, row), at(eta, row));
  });
  const score = weightedSums(data.sparse, product(rootWeight, pearson));
  const normal = solver(weightedGram(data.sparse, weight), score.length);
  if (normal !== null) {
    const step = normal.solve(score);
    return { step, length: Math.sqrt(Math.max(0, dot(step, score))) };
  }
  // Products of nearly tied columns lose half the digits; QR keeps them.
  const weighted = data.columns.map((column) => product(rootWeight, column));
  const { q, r } = pivotedQr(weighted, 1e-14);
  if (q.length < data.columns.length) return null;
  const along = Float64Array.from(q, (direction) => dot(direction, pearson));
  return { step: solveUpper(r, along), length: Math.sqrt(dot(along, along)) };
}

/** A set of coefficients, its linear predictor with offset, and how well it fits. */
export interface Place {
  readonly coefficients: Column;
  readonly eta: Column;
  readonly deviance: number;
}

/** Linear predictor and deviance at the given coefficients. */
export function placeAt(data: FitData, family: Family, coefficients: Column): Place {
  const eta = rowSums(data.sparse, coefficients);
  let deviance = 0;
  for (let row = 0; row < eta.length; row++) {
    const here = at(eta, row) + at(data.offset, row);
    eta[row] = here;
    deviance += at(data.weight, row) * family.unitDeviance(at(data.y, row), here);
  }
  return { coefficients, eta, deviance };
}

/**
 * The place after a full step, or after the longest halved one that lowers the deviance by a fair
 * part of what a step of its length promises; merely not raising it would let steps swing across.
 * Source: Armijo 1966, Pacific J Math 16:1.
 */
function stepped(
  data: FitData,
  family: Family,
  { from, step, length }: { readonly from: Place; readonly step: Column; readonly length: number },
): Place | null {
  const rounding = 1e-10 * (1 + Math.abs(from.deviance));
  const move = rowSums(data.sparse, step);
  const farthest = move.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  // Far from the maximum the curvature may be next to nothing and the step without measure.
  let share = Math.min(1, LONGEST_MOVE / farthest);
  for (let halving = 0; halving < MOST_HALVINGS; halving++) {
    const tried = from.coefficients.slice();
    addScaled(tried, share, step);
    const place = placeAt(data, family, tried);
    const wanted = FAIR_PART * share * length * length;
    if (place.deviance <= from.deviance - wanted + rounding) return place;
    share /= 2;
  }
  return null;
}

/** What every row weighs and leaves at one place. */
export interface WorkingRows {
  readonly rootWeight: Column;
  readonly pearson: Column;
  readonly variance: Column;
}

/** Working weights (their roots), Pearson residuals and variances of y at the given predictor. */
export function workingRows(data: FitData, family: Family, eta: Column): WorkingRows {
  const rows = eta.length;
  const rootWeight = new Float64Array(rows);
  const pearson = new Float64Array(rows);
  const variance = new Float64Array(rows);
  for (let row = 0; row < rows; row++) {
    const here = at(eta, row);
    const spread = Math.max(family.variance(here), SMALLEST_VARIANCE) / at(data.weight, row);
    variance[row] = spread;
    rootWeight[row] = family.link.slope(here) / Math.sqrt(spread);
    pearson[row] = (at(data.y, row) - family.link.mean(here)) / Math.sqrt(spread);
  }
  return { rootWeight, pearson, variance };
}

/** The working rows and the QR of the weighted columns at one place; null without full rank. */
export function linearise(data: FitData, family: Family, place: Place): Settled | null {
  const { coefficients, eta, deviance } = place;
  const { rootWeight, pearson, variance } = workingRows(data, family, eta);
  const weighted = data.columns.map((column) => product(rootWeight, column));
  const { q, r } = pivotedQr(weighted, 1e-14);
  if (q.length < coefficients.length) return null;
  return { coefficients, model: { eta, q, r, pearson, variance, deviance } };
}

function touchesEdge(data: FitData, family: Family, eta: Column): boolean {
  return eta.some((here, row) => {
    const edge = family.edge(at(data.y, row));
    if (edge === 0) return false;
    return (edge < 0 ? family.link.mean(here) : family.link.rest(here)) < EDGE;
  });
}
