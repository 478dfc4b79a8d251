import { at } from './design-columns.ts';
import type { AgeScale, WearTotals } from './power-law-history.ts';

/** The profile log-likelihood of a power-law process at one shape, and its slope in the shape. */
export interface ProfilePoint {
  readonly logLikelihood: number;
  readonly slope: number;
  /** ln of theta, the age by which one break is expected, at its best for this shape. */
  readonly logTheta: number;
}

/**
 * The log-likelihood of the shape of a power-law process with expected breaks (age/theta)^shape,
 * theta at its best for that shape. Breaks at exact ages enter by their intensity, breaks at
 * grouped ages by the expected breaks Λ(a) − Λ(a − width) of their step: putting whole-number ages
 * into the intensity reads the shape too high. Needs at least one break.
 * Source: Crow 1974, in Reliability and Biometry; grouped form: MIL-HDBK-189C, sec. 5.3.2 (from
 * memory); both from the Poisson likelihood of the counts.
 */
export function profileShape(totals: WearTotals, scale: AgeScale, shape: number): ProfilePoint {
  const { logSum, slope: exposureSlope } = exposure(totals, shape);
  const { breaks, breakCount } = totals;
  const logOldest = Math.log(totals.oldest);
  let logLikelihood = breakCount * (Math.log(breakCount) - 1 - logSum);
  let slope = -breakCount * exposureSlope;
  for (let i = 0; i < breaks.ages.length; i++) {
    const weight = at(breaks.weights, i);
    if (weight === 0) continue;
    const relative = at(breaks.logs, i) - logOldest;
    const term =
      scale.kind === 'exact'
        ? { log: Math.log(shape) + shape * relative - at(breaks.logs, i), slope: 1 / shape }
        : step(shape, relative, scale.width / at(breaks.ages, i));
    logLikelihood += weight * term.log;
    slope += weight * (term.slope + relative);
  }
  const logTheta = logOldest + (logSum - Math.log(breakCount)) / shape;
  return { logLikelihood, slope, logTheta };
}

/** ln of [a^shape − (a − width)^shape] / oldest^shape, and what its slope has beyond ln(a/oldest). */
function step(shape: number, relative: number, share: number): { log: number; slope: number } {
  // The first step holds everything from age 0 on: (1 − share)^shape is 0 there.
  if (share >= 1) return { log: shape * relative, slope: 0 };
  const fall = -Math.log1p(-share);
  const part = Math.expm1(shape * fall);
  return { log: shape * relative + Math.log(-Math.expm1(-shape * fall)), slope: fall / part };
}

/**
 * ln Σ weight·(age/oldest)^shape and its slope. Ages are taken relative to the oldest, so that no
 * power overflows; the slope is a weighted mean of ln(age/oldest).
 */
function exposure({ ends, oldest }: WearTotals, shape: number): { logSum: number; slope: number } {
  const logOldest = Math.log(oldest);
  let sum = 0;
  let sloped = 0;
  for (let i = 0; i < ends.logs.length; i++) {
    const weight = at(ends.weights, i);
    if (weight === 0) continue;
    const relative = at(ends.logs, i) - logOldest;
    const power = weight * Math.exp(shape * relative);
    sum += power;
    sloped += power * relative;
  }
  return { logSum: Math.log(sum), slope: sloped / sum };
}
