import { type Refusal, refuse } from '../base/estimate.ts';
import {
  type NegativeBinomial,
  negativeBinomialLogPmf,
  negativeBinomialTails,
} from './count-distribution-negative-binomial.ts';
import { at, type Column } from './design-columns.ts';
import { betaTails, normalQuantile, normalUpperQuantile } from './distributions.ts';
import type { FittedModel } from './glm-model.ts';
import type { Random } from './random.ts';

/** Probabilities below, at and above an observed count. */
interface Place {
  readonly below: number;
  readonly exactly: number;
  readonly above: number;
}

/**
 * Randomised quantile residuals: Φ⁻¹ of a uniform draw between P(Y < y) and P(Y ≤ y). When the model
 * holds they are standard normal, also for counts of 0 and 1, where ordinary residuals fall in
 * stripes. One draw for each row, in row order; finite (at most about 38 either way).
 * @returns refused for quasi families and numbers, which have no distribution of counts
 * Source: Dunn & Smyth 1996, J Comput Graph Stat 5:236.
 */
export function quantileResiduals(model: FittedModel, random: Random): Column | Refusal {
  const { family, fitted, linearPredictor, y, trials } = model;
  if (family.logLik === null)
    return refuse('A model without a full distribution has no quantile residuals.');
  return y.map((value, row) => {
    const draw = random.uniform();
    if (family.size !== null)
      return countResidual(value, { mean: at(fitted, row), size: family.size }, draw);
    const successes = Math.round(value * at(trials, row));
    const rest = family.link.rest(at(linearPredictor, row));
    return binomialResidual(successes, { trials: at(trials, row), p: at(fitted, row), rest }, draw);
  });
}

/** The residual of one count of a Poisson (size Infinity) or NB2 law for a draw u in [0, 1). */
export function countResidual(y: number, law: NegativeBinomial, u: number): number {
  const below = y === 0 ? 0 : negativeBinomialTails(y - 1, law).lower;
  const exactly = Math.exp(negativeBinomialLogPmf(y, law));
  return residualAt({ below, exactly, above: negativeBinomialTails(y, law).upper }, u);
}

/** The residual of `y` successes for a draw u in [0, 1); `rest` is 1 − p with its own digits. */
export function binomialResidual(
  y: number,
  law: { readonly trials: number; readonly p: number; readonly rest: number },
  u: number,
): number {
  const below = y === 0 ? 0 : atMost(y - 1, law);
  const above =
    y === law.trials ? 0 : atMost(law.trials - y - 1, { ...law, p: law.rest, rest: law.p });
  // What lies neither below nor above; the smaller of the two ways to say it keeps its digits.
  const exactly = below < above ? atMost(y, law) - below : moreThan(y - 1, law) - above;
  return residualAt({ below, exactly, above }, u);
}

interface Binomial {
  readonly trials: number;
  readonly p: number;
  readonly rest: number;
}

/** P(Y ≤ k). Source: NIST DLMF 8.17.5. */
function atMost(k: number, { trials, p, rest }: Binomial): number {
  if (k >= trials) return 1;
  return p < 0.5 ? betaTails(p, k + 1, trials - k).upper : betaTails(rest, trials - k, k + 1).lower;
}

/** P(Y > k). */
function moreThan(k: number, { trials, p, rest }: Binomial): number {
  if (k < 0) return 1;
  return p < 0.5 ? betaTails(p, k + 1, trials - k).lower : betaTails(rest, trials - k, k + 1).upper;
}

function residualAt({ below, exactly, above }: Place, u: number): number {
  const lower = Math.max(Number.MIN_VALUE, below + u * exactly);
  const upper = Math.max(Number.MIN_VALUE, above + (1 - u) * exactly);
  return lower < upper ? normalQuantile(lower) : normalUpperQuantile(upper);
}
