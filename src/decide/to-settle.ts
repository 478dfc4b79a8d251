import type { Estimated } from '../base/estimate.ts';
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
 * is multiplied by the comparison's own design effect. Where the log already has as many, what is
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
  const size = sizeFor(b.estimate, verdict.margin, { share, allocation: unitsB / unitsA });
  const have = unitsA + unitsB;
  const planned = size === null ? 0 : (size.a.units + size.b.units) * designEffect;
  const halfMargin = share ? verdict.margin / 2 : Math.log1p(verdict.margin) / 2;
  const needed = planned > have ? planned : have * Math.max(1, (halfWidth / halfMargin) ** 2);
  if (!Number.isFinite(needed)) return null;
  const more = needed - have;
  return {
    units: Math.ceil(more),
    bites: Math.ceil((more / have) * soFar.bites),
    trips: Math.ceil((more / have) * soFar.trips),
    designEffect,
  };
}

function sizeFor(
  rateB: number,
  margin: number,
  { share, allocation }: { readonly share: boolean; readonly allocation: number },
): SampleSize | null {
  const plan = { ...PLAN, allocation };
  const size = share
    ? sampleSizeTwoProportions({ a: withinOne(rateB, margin), b: rateB }, plan)
    : sampleSizeTwoRates({ a: rateB * (1 + margin), b: rateB }, plan);
  return size.kind === 'planned' ? size : null;
}

/** The margin above B, or below it where that would pass 100 %. */
function withinOne(rate: number, margin: number): number {
  return rate + margin < 1 ? rate + margin : rate - margin;
}

function binomialVariance(a: Estimated, b: Estimated, { unitsA, unitsB }: SoFar): number {
  const spread = (p: number) => Math.max(p * (1 - p), 0);
  return spread(a.estimate) / unitsA + spread(b.estimate) / unitsB;
}

/** Of the log of a ratio of Poisson rates: one over each count. */
function poissonVariance(a: Estimated, b: Estimated, { unitsA, unitsB }: SoFar): number {
  return 1 / (a.estimate * unitsA) + 1 / (b.estimate * unitsB);
}
