import { gammaCdf, logGamma } from './distributions.ts';
import { costRange } from './replacement-range.ts';
import { findRoot } from './root.ts';

/** An age beyond this is no age. */
const FARTHEST = 1e250;

/** A part with Weibull lives that is made new at an age set beforehand, or when it fails. */
export interface AgeReplacement {
  /** Weibull shape and scale of the life, both above 0. */
  readonly shape: number;
  readonly scale: number;
  /** Cost of a planned replacement, above 0. */
  readonly plannedCost: number;
  /** Cost of a failure with the replacement it forces, above 0. */
  readonly failureCost: number;
}

/** What one age of replacement brings in the long run. */
export interface AgeOutcome {
  /** Cost per unit of age. */
  readonly costRate: number;
  /** Mean age at replacement, for either cause. */
  readonly expectedCycle: number;
  readonly failureProbability: number;
}

export interface BestAge extends AgeOutcome {
  readonly kind: 'finite';
  readonly age: number;
  /** Cost rate without any planned replacement. */
  readonly runToFailureRate: number;
  /** Share of the run-to-failure cost that is saved, 0 to 1. */
  readonly saving: number;
  /** Ages at which the cost rate is within 5 % of the least; `upper` may be Infinity. */
  readonly nearBest: { readonly lower: number; readonly upper: number };
}

/** Replacing by age never pays: the cost rate falls for ever towards that of running to failure. */
export interface NoBestAge {
  readonly kind: 'never';
  readonly runToFailureRate: number;
  readonly reason: string;
}

/**
 * The long-run cost rate [planned·R(T) + failure·F(T)] / ∫₀ᵀ R of replacing at `age` T (above 0).
 * Source: Barlow & Hunter 1960, Oper. Res. 8:90 (policy I, age replacement).
 */
export function ageOutcome(part: AgeReplacement, age: number): AgeOutcome {
  const { shape, scale, plannedCost, failureCost } = part;
  const hazard = (age / scale) ** shape;
  const expectedCycle = meanLife(part) * gammaCdf(hazard, 1 / shape);
  const failureProbability = -Math.expm1(-hazard);
  const cost = plannedCost * Math.exp(-hazard) + failureCost * failureProbability;
  return { costRate: cost / expectedCycle, expectedCycle, failureProbability };
}

/**
 * The age of replacement that costs least in the long run. It is finite only where the risk rises
 * with age (shape above 1) and a failure costs more than a planned replacement. With a shape just
 * above 1 the age is real but saves next to nothing: read `saving` beside it.
 * Throws on a shape, scale or cost that is not above 0.
 * Source: Barlow & Hunter 1960; first-order condition h(T)∫₀ᵀR − F(T) = planned/(failure − planned),
 * Barlow & Proschan 1965, Mathematical Theory of Reliability, ch. 4.
 */
export function bestReplacementAge(part: AgeReplacement): BestAge | NoBestAge {
  for (const [name, value] of Object.entries(part))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${name} is a number above 0, not ${value}.`);
  const { shape, scale, plannedCost, failureCost } = part;
  const runToFailureRate = failureCost / meanLife(part);
  if (shape <= 1)
    return {
      kind: 'never',
      runToFailureRate,
      reason: 'The risk of failure does not rise with age.',
    };
  if (failureCost <= plannedCost)
    return {
      kind: 'never',
      runToFailureRate,
      reason: 'A failure costs no more than a planned replacement.',
    };
  const target = plannedCost / (failureCost - plannedCost);
  const excess = (logAge: number): number => {
    const { expectedCycle, failureProbability } = ageOutcome(part, scale * Math.exp(logAge));
    const hazardRate = (shape / scale) * Math.exp(logAge * (shape - 1));
    return hazardRate * expectedCycle - failureProbability - target;
  };
  // At the upper end the hazard alone, h(T) · mean life, exceeds 1 + target.
  const upper = Math.log((1 + target) * 2 * (scale / (shape * meanLife(part)))) / (shape - 1);
  const age =
    scale * Math.exp(findRoot(excess, { lower: -700 / shape, upper: Math.max(1, upper) }));
  if (age > FARTHEST)
    return { kind: 'never', runToFailureRate, reason: 'The risk rises too slowly with age.' };
  const outcome = ageOutcome(part, age);
  const nearBest = costRange((t) => ageOutcome(part, t).costRate, age);
  const saving = 1 - outcome.costRate / runToFailureRate;
  return { kind: 'finite', age, ...outcome, runToFailureRate, saving, nearBest };
}

const meanLife = ({ shape, scale }: AgeReplacement): number =>
  scale * Math.exp(logGamma(1 + 1 / shape));
