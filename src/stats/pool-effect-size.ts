/**
 * Effects of studies on the scales on which they are pooled, each with its sampling variance.
 * Where a cell that a logarithm needs is 0, one half is added to all cells of that study and to no
 * other (common practice: Gart & Zweifel 1967, Biometrika 54:181).
 * Not estimable: a group without units, or without exposure.
 */
import { type Refusal, refuse } from '../base/estimate.ts';
import type { Study } from './pool-study.ts';

/** One study's effect, fit to be pooled. */
export interface EffectSize extends Study {
  readonly kind: 'estimated';
}

/** Successes out of units, e.g. hooked out of bites; need not be whole. */
export interface Count {
  readonly events: number;
  readonly n: number;
}

/** Events over an exposure, e.g. bites over line-hours. */
export interface RateCount {
  readonly events: number;
  readonly exposure: number;
}

/** ln of the ratio of two proportions. Source: Katz et al. 1978, Biometrics 34:469. */
export function logRiskRatio(first: Count, second: Count): EffectSize | Refusal {
  return fromTable(first, second, ({ a, b, c, d }) =>
    effectSize(
      Math.log(a / (a + b)) - Math.log(c / (c + d)),
      1 / a - 1 / (a + b) + 1 / c - 1 / (c + d),
    ),
  );
}

/** ln of the odds ratio. Source: Woolf 1955, Ann. Hum. Genet. 19:251. */
export function logOddsRatio(first: Count, second: Count): EffectSize | Refusal {
  return fromTable(first, second, ({ a, b, c, d }) =>
    effectSize(Math.log((a * d) / (b * c)), 1 / a + 1 / b + 1 / c + 1 / d),
  );
}

/** The difference of two proportions, nothing added; variance 0 where each is 0 or 1. */
export function riskDifference(first: Count, second: Count): EffectSize | Refusal {
  if (!(first.n > 0 && second.n > 0)) return refuse(EMPTY_GROUP);
  const [p, q] = [first.events / first.n, second.events / second.n];
  return effectSize(p - q, (p * (1 - p)) / first.n + (q * (1 - q)) / second.n);
}

/** ln of the odds of one proportion. Source: Cox 1970, Analysis of Binary Data, sec. 3.2. */
export function logitProportion({ events, n }: Count): EffectSize | Refusal {
  if (!(n > 0)) return refuse(EMPTY_GROUP);
  const added = events === 0 || events === n ? 0.5 : 0;
  const [yes, no] = [events + added, n - events + added];
  return effectSize(Math.log(yes / no), 1 / yes + 1 / no);
}

/** ln of one rate, events per unit of exposure; variance of a Poisson count. */
export function logRate({ events, exposure }: RateCount): EffectSize | Refusal {
  if (!(exposure > 0)) return refuse(NO_EXPOSURE);
  const counted = events === 0 ? 0.5 : events;
  return effectSize(Math.log(counted / exposure), 1 / counted);
}

/** ln of the ratio of two rates. Source: Rothman & Greenland 1998, Modern Epidemiology, ch. 14. */
export function logRateRatio(first: RateCount, second: RateCount): EffectSize | Refusal {
  if (!(first.exposure > 0 && second.exposure > 0)) return refuse(NO_EXPOSURE);
  const added = first.events === 0 || second.events === 0 ? 0.5 : 0;
  const [a, b] = [first.events + added, second.events + added];
  const effect = Math.log(a / first.exposure) - Math.log(b / second.exposure);
  return effectSize(effect, 1 / a + 1 / b);
}

interface Table {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
}

function fromTable(
  first: Count,
  second: Count,
  of: (table: Table) => EffectSize,
): EffectSize | Refusal {
  if (!(first.n > 0 && second.n > 0)) return refuse(EMPTY_GROUP);
  const [a, b] = [first.events, first.n - first.events];
  const [c, d] = [second.events, second.n - second.events];
  const added = a === 0 || b === 0 || c === 0 || d === 0 ? 0.5 : 0;
  return of({ a: a + added, b: b + added, c: c + added, d: d + added });
}

const effectSize = (effect: number, variance: number): EffectSize => ({
  kind: 'estimated',
  effect,
  variance,
});

const EMPTY_GROUP = 'A group without units has no proportion.';
const NO_EXPOSURE = 'A group without exposure has no rate.';
