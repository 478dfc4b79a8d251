import { inverse, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { type Refusal, refuse } from '../base/estimate.ts';
import { logGamma } from './distributions.ts';
import { type Level, normalCritical } from './interval-level.ts';
import type { Life } from './kaplan-meier-lives.ts';
import { type Curvature, minimiseConvex } from './minimise.ts';

/**
 * A Weibull law of lives with censoring: S(t) = exp(−(t/scale)^shape), and where there are
 * covariates ln scale = coefficients · (1, covariates), an accelerated failure time model.
 */
export interface WeibullFit {
  readonly kind: 'fitted';
  /** Of ln scale: the intercept, then one for each covariate. */
  readonly coefficients: readonly number[];
  /** ln(1/shape). */
  readonly logSigma: number;
  /** Of the coefficients and, last, of logSigma: inverse of the observed information. */
  readonly covariance: readonly (readonly number[])[];
  readonly logLikelihood: number;
  /** Above 1: the risk grows with age; below 1: it falls. */
  readonly shape: WithError;
  /** The life by which 63.2 % have ended; null where covariates make it differ between lives. */
  readonly scale: WithError | null;
  readonly lives: number;
  readonly events: number;
  readonly level: number;
}

/** A positive parameter; the limits are symmetrical on the log scale. */
export interface WithError {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

/**
 * Fits a Weibull law to lives by maximum likelihood.
 * @param options `level` of the limits; `covariates`: one column of numbers each, as long as
 *   `lives`, without the intercept.
 * Not estimable: no life ended; a life of length 0; every ended life is the longest one watched
 * (the shape runs away to infinity); covariates that repeat each other, or a group of lives none
 * of which ended.
 * Source: Kalbfleisch & Prentice 2002, The Statistical Analysis of Failure Time Data, ch. 3.
 */
export function fitWeibull(
  lives: readonly Life[],
  options: Level & { readonly covariates?: readonly (readonly number[])[] },
): WeibullFit | Refusal {
  const { level, covariates = [] } = options;
  const design = lives.map((_, i) => [1, ...covariates.map((column) => column[i] as number)]);
  const reason = refusal(lives, design);
  if (reason !== null) return refuse(reason);
  const logTimes = lives.map((life) => Math.log(life.time));
  const sample: Sample = { lives, logTimes, design };
  const found = minimiseConvex((x) => negativeLogLikelihood(sample, x), start(sample));
  if (found === null)
    return refuse(
      'No Weibull law fits best: in some group of lives none has ended, or too few have.',
    );
  return described(sample, found, level);
}

interface Sample {
  readonly lives: readonly Life[];
  readonly logTimes: readonly number[];
  readonly design: readonly (readonly number[])[];
}

function refusal(lives: readonly Life[], design: readonly (readonly number[])[]): string | null {
  if (!lives.some((life) => life.event)) return 'No life has ended, so nothing tells how long.';
  if (lives.some((life) => !(life.time > 0)))
    return 'A life of length 0 has no place in a Weibull law.';
  const longest = lives.reduce((most, life) => Math.max(most, life.time), 0);
  if (lives.every((life) => !life.event || life.time === longest))
    return 'Every life that ended is as long as the longest one watched.';
  return repeated(design) ? 'The covariates repeat each other.' : null;
}

/** Whether some column can be put together from the others, to about eight digits. */
function repeated(design: readonly (readonly number[])[]): boolean {
  const columns = new Matrix(design.map((row) => [...row])).transpose().to2DArray();
  const sizes = columns.map((column) => column.reduce((most, v) => Math.max(most, Math.abs(v)), 0));
  if (sizes.some((size) => size === 0) || columns.length > design.length) return true;
  const scaled = columns.map((column, j) => column.map((v) => v / (sizes[j] as number)));
  return !(new SingularValueDecomposition(new Matrix(scaled).transpose()).condition < 1e8);
}

/** An exponential law with the observed mean, in the parameters of `negativeLogLikelihood`. */
function start({ lives, logTimes, design }: Sample): number[] {
  const events = lives.filter((life) => life.event).length;
  const total = logTimes.reduce((sum, logTime) => sum + Math.exp(logTime), 0);
  return [1, Math.log(total / events), ...(design[0] as number[]).slice(1).map(() => 0)];
}

/**
 * In (shape, shape × coefficients) the log-likelihood is concave, so that Newton steps cannot go
 * astray; in the usual parameters they can.
 */
function negativeLogLikelihood(sample: Sample, x: readonly number[]): Curvature {
  const shape = x[0] as number;
  const gradient = x.map(() => 0);
  const hessian = x.map(() => x.map(() => 0));
  if (!(shape > 0)) return { value: Number.POSITIVE_INFINITY, gradient, hessian };
  let value = 0;
  sample.lives.forEach(({ event }, i) => {
    const row = [sample.logTimes[i] as number, ...(sample.design[i] as number[]).map((v) => -v)];
    const exponent = row.reduce((sum, v, j) => sum + v * (x[j] as number), 0);
    const hazard = Math.exp(exponent);
    const seen = event ? 1 : 0;
    value += hazard - seen * (Math.log(shape) + exponent);
    (gradient[0] as number) -= seen / shape;
    ((hessian[0] as number[])[0] as number) += seen / shape ** 2;
    row.forEach((v, j) => {
      (gradient[j] as number) += v * (hazard - seen);
      row.forEach((w, k) => {
        ((hessian[j] as number[])[k] as number) += v * w * hazard;
      });
    });
  });
  return { value, gradient, hessian };
}

function described(sample: Sample, found: readonly number[], level: number): WeibullFit {
  const [shape = 1, ...scaled] = found;
  const coefficients = scaled.map((value) => value / shape);
  const covariance = inverse(new Matrix(information(sample, coefficients, shape))).to2DArray();
  const variance = covariance.map((row, j) => row[j] as number);
  const ofLog = (log: number, error: number): WithError => {
    const reach = Math.exp(normalCritical(level) * error);
    const estimate = Math.exp(log);
    const limits = { lower: estimate / reach, upper: estimate * reach };
    return { estimate, standardError: estimate * error, ...limits };
  };
  const density = sample.lives.reduce(
    (sum, { event }, i) => sum - (event ? (sample.logTimes[i] as number) : 0),
    0,
  );
  return {
    kind: 'fitted',
    coefficients,
    logSigma: -Math.log(shape),
    covariance,
    logLikelihood: density - negativeLogLikelihood(sample, found).value,
    shape: ofLog(Math.log(shape), Math.sqrt(variance.at(-1) as number)),
    scale:
      coefficients.length > 1
        ? null
        : ofLog(coefficients[0] as number, Math.sqrt(variance[0] as number)),
    lives: sample.lives.length,
    events: sample.lives.filter((life) => life.event).length,
    level,
  };
}

/** Observed information in (coefficients, ln sigma). */
function information(sample: Sample, coefficients: readonly number[], shape: number): number[][] {
  const size = coefficients.length + 1;
  const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  sample.lives.forEach(({ event }, i) => {
    const row = sample.design[i] as readonly number[];
    const centre = row.reduce((sum, v, j) => sum + v * (coefficients[j] as number), 0);
    const z = ((sample.logTimes[i] as number) - centre) * shape;
    const hazard = Math.exp(z);
    // Derivatives of z: −v·shape for a coefficient, −z for ln sigma.
    const slopes = [...row.map((v) => -v * shape), -z];
    const seen = event ? 1 : 0;
    slopes.forEach((a, j) => {
      slopes.forEach((b, k) => {
        const bend = j === size - 1 ? -b : k === size - 1 ? -a : 0;
        ((matrix[j] as number[])[k] as number) += hazard * a * b + (hazard - seen) * bend;
      });
    });
  });
  return matrix;
}

/** The life by which half have ended; null where covariates make it differ between lives. */
export function weibullMedian(fit: WeibullFit): number | null {
  return fit.scale === null ? null : fit.scale.estimate * Math.LN2 ** (1 / fit.shape.estimate);
}

/** The mean life, scale · Γ(1 + 1/shape); null where covariates make it differ between lives. */
export function weibullMean(fit: WeibullFit): number | null {
  if (fit.scale === null) return null;
  return fit.scale.estimate * Math.exp(logGamma(1 + 1 / fit.shape.estimate));
}
