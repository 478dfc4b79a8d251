import { type Refusal, refuse } from '../base/estimate.ts';
import { at, type Column, combine, dot, pick, product } from './design-columns.ts';
import type { FittedModel } from './glm-model.ts';
import type { NegativeBinomialModel } from './negative-binomial-fit.ts';
import { thetaRow } from './negative-binomial-theta.ts';
import { pivotedQr } from './pivoted-qr.ts';

/**
 * Standard error of θ that lets the counts of one cluster be alike: the sandwich of the coefficients
 * and θ together with their observed information, times G/(G − 1).
 * @param clusters the cluster of every design row, e.g. the trip
 * @returns refused for an infinite θ, for a single cluster, and where the likelihood has no peak
 * Source: White 1982, Econometrica 50:1; Liang & Zeger 1986, Biometrika 73:13.
 */
export function thetaClusterStandardError(
  { model, theta }: NegativeBinomialModel,
  clusters: ArrayLike<string | number>,
): number | Refusal {
  if (theta === Number.POSITIVE_INFINITY)
    return refuse('The counts vary no more than chance alone, so there is no θ to judge.');
  const { rootWeight, bend, push, own, information } = rowPieces(model, theta);
  const columns = model.kept.map((place) =>
    pick(model.design.columns[place] as Column, model.rows),
  );
  const { q } = pivotedQr(columns.map((column) => product(rootWeight, column)));
  // The coefficients were fitted too and take up a part of what each row says about θ.
  const shared = q.map((direction) => dot(direction, bend));
  const left = information - shared.reduce((sum, part) => sum + part * part, 0);
  if (!(left > 0)) return refuse('The likelihood has no clear peak in θ.');
  const taken = combine(q, shared, model.rows.length);
  const sums = new Map<string, number>();
  for (const [place, row] of model.rows.entries()) {
    const key = String(clusters[row]);
    sums.set(key, (sums.get(key) ?? 0) + at(own, place) + at(taken, place) * at(push, place));
  }
  if (sums.size < 2) return refuse('All rows are of one trip; a spread needs two.');
  const squares = [...sums.values()].reduce((sum, value) => sum + value * value, 0);
  return Math.sqrt((squares * sums.size) / (sums.size - 1)) / left;
}

/** Derivatives of each row's log-likelihood by η and θ, the first two over the root weight. */
function rowPieces(model: FittedModel, theta: number) {
  const rows = model.rows.length;
  const make = (): Column => new Float64Array(rows);
  const [rootWeight, bend, push, own] = [make(), make(), make(), make()];
  let information = 0;
  for (let row = 0; row < rows; row++) {
    const [y, mean, prior] = [at(model.y, row), at(model.fitted, row), at(model.prior, row)];
    const both = theta + mean;
    const root = Math.sqrt(prior * mean * theta * (theta + y)) / both;
    const part = thetaRow(y, mean, theta);
    rootWeight[row] = root;
    bend[row] = (prior * (y - mean) * mean) / both ** 2 / root;
    push[row] = (prior * (y - mean) * theta) / both / root;
    own[row] = prior * part.score;
    information += prior * part.information;
  }
  return { rootWeight, bend, push, own, information };
}
