import type { Estimated, Refusal } from '../base/estimate.ts';
import type { Comparison } from '../estimate/comparison.ts';
import { isProportion } from '../estimate/proportion.ts';
import { normalQuantile } from '../stats/distributions.ts';
import type { SampleSize } from '../stats/sample-size.ts';
import { sampleSizeTwoProportions } from '../stats/sample-size-two-proportions.ts';
import { sampleSizeTwoRates } from '../stats/sample-size-two-rates.ts';
import { decidingFigure, type Verdict } from './verdict.ts';

/** How much more of the same fishing would settle an open comparison. */
export interface ToSettle {
  /** More bites, hooked fish or line-hours: the measure's own denominator. */
  readonly units: number;
  /** The same in bites, at the log's own rate. */
  readonly bites: number;
  readonly trips: number;
  /**
   * `power`: so many find a difference as large as the margin 8 times in 10. `width`: the log has as
   * many already, and so many more bring an interval half as wide as the margin.
   */
  readonly by: 'power' | 'width';
  /** Variance of this comparison over that of so many independent bites. */
  readonly designEffect: number;
}

/** What the log has had so far of A and B together. */
export interface SoFar {
  readonly unitsA: number;
  readonly unitsB: number;
  readonly bites: number;
  readonly trips: number;
}

const PLAN = { alpha: 0.05, sided: 2, power: 0.8 } as const;

/**
 * More units (and bites, and trips at the log's own pace) that would settle a difference as large
 * as the margin, with A and B in the log's own proportion. The sample size for independent units
 * is multiplied by the comparison's own design effect. The margin is laid about the rate of both
 * together and the dearer of the two directions counts, so that A against B and B against A say the
 * same. Where the log already has as many, what is
 * wanted is an interval half as wide as the margin, which settles it either way.
 * null where nothing can be planned from: no figure, or a level without units.
 * Source: Fleiss 1981, two-sided 5 %, power 80 %.
 */
export function toSettle(comparison: Comparison, verdict: Verdict, soFar: SoFar): ToSettle | null {
  if (verdict.primary === null || soFar.trips === 0) return null;
  const lens = comparison.lenses[verdict.primary];
  const figure = decidingFigure(lens, comparison.measure);
  const { a, b } = comparison.lenses.as_logged;
  const { unitsA, unitsB } = soFar;
  if (figure.kind !== 'estimated' || a.kind !== 'estimated' || b.kind !== 'estimated') return null;
  if (unitsA <= 0 || unitsB <= 0 || figure.lower === figure.upper) return null;
  const share = isProportion(comparison.measure);
  const plain = share ? binomialVariance(a, b, soFar) : poissonVariance(a, b, soFar);
  if (!(plain > 0) || !Number.isFinite(plain)) return null;
  const halfWidth = share
    ? (figure.upper - figure.lower) / 2
    : Math.log(figure.upper / figure.lower) / 2;
  const critical = normalQuantile((1 + comparison.level) / 2);
  const designEffect = Math.max(1, (halfWidth / critical) ** 2 / plain);
  const have = unitsA + unitsB;
  const rate = (a.estimate * unitsA + b.estimate * unitsB) / have;
  const pairs = share ? sharesApart(rate, verdict.margin) : ratesApart(rate, verdict.margin);
  const planned = designEffect * sizeEitherWay(pairs, { share, allocation: unitsB / unitsA });
  const halfMargin = share ? verdict.margin / 2 : Math.log1p(verdict.margin) / 2;
  const by = planned > have ? 'power' : 'width';
  const needed = by === 'power' ? planned : have * Math.max(1, (halfWidth / halfMargin) ** 2);
  if (!Number.isFinite(needed)) return null;
  const more = needed - have;
  return {
    units: Math.ceil(more),
    bites: Math.ceil((more / have) * soFar.bites),
    trips: Math.ceil((more / have) * soFar.trips),
    by,
    designEffect,
  };
}

/** Two shares, or two rates, that are the margin apart. */
interface Apart {
  readonly high: number;
  readonly low: number;
}

/** Units of both together that tell a difference so large, whichever of A and B is the higher. */
function sizeEitherWay(
  { high, low }: Apart,
  { share, allocation }: { readonly share: boolean; readonly allocation: number },
): number {
  const plan = { ...PLAN, allocation };
  const directions = [
    { a: high, b: low },
    { a: low, b: high },
  ];
  const sizes = directions.map((pair): SampleSize | Refusal => {
    return share ? sampleSizeTwoProportions(pair, plan) : sampleSizeTwoRates(pair, plan);
  });
  const units = sizes.map((size) => (size.kind === 'planned' ? size.a.units + size.b.units : 0));
  return Math.max(...units);
}

/** Half the margin to either side of a share; moved in where that would pass 0 or 100 %. */
function sharesApart(share: number, margin: number): Apart {
  const half = margin / 2;
  const middle = Math.min(Math.max(share, half), 1 - half);
  return { high: Math.min(1, middle + half), low: Math.max(0, middle - half) };
}

/** Two rates whose ratio is the margin, about a rate in the middle. */
function ratesApart(rate: number, margin: number): Apart {
  const half = Math.sqrt(1 + margin);
  return { high: rate * half, low: rate / half };
}

function binomialVariance(a: Estimated, b: Estimated, { unitsA, unitsB }: SoFar): number {
  const spread = (p: number) => Math.max(p * (1 - p), 0);
  return spread(a.estimate) / unitsA + spread(b.estimate) / unitsB;
}

/** Of the log of a ratio of Poisson rates: one over each count. */
function poissonVariance(a: Estimated, b: Estimated, { unitsA, unitsB }: SoFar): number {
  return 1 / (a.estimate * unitsA) + 1 / (b.estimate * unitsB);
}
