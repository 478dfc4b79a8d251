import { type Interval, type Refusal, refuse } from '../base/estimate.ts';
import { chiSquareQuantile, chiSquareTails, chiSquareUpperQuantile } from './distributions.ts';
import { type Level, tailArea } from './interval-level.ts';
import { varianceWhere } from './pool-between-variance.ts';
import { poolingRefusal, type Study, weightedMean } from './pool-study.ts';

/** How far the studies differ beyond their own chance errors. */
export interface Heterogeneity {
  readonly kind: 'estimated';
  /** Cochran's Q, chi-square on `df` if all studies had the same true effect. */
  readonly Q: number;
  readonly df: number;
  readonly p: number;
  /** Share of the total variance that lies between the studies, in percent, from Q. */
  readonly I2fromQpercent: number;
  /** Q/df: 1 = no more than chance; below 1 less than chance. */
  readonly H2fromQ: number;
  /** A middle of the studies' own variances, against which τ² is held. */
  readonly typicalVariance: number;
  /** Limits of the variance of the true effects; 0 to 0 where they agree better than chance. */
  readonly tau2: Interval;
  readonly I2percent: Interval;
  readonly H2: Interval;
}

/**
 * Cochran's Q with I², H² and limits of τ² by profiling Q, from which those of I² and H² follow.
 * Not estimable with fewer than two studies, or where one has no finite effect or no variance.
 * Source: Higgins & Thompson 2002, Stat. Med. 21:1539; Viechtbauer 2007, Stat. Med. 26:37.
 */
export function heterogeneity(
  studies: readonly Study[],
  { level }: Level,
): Heterogeneity | Refusal {
  const reason = poolingRefusal(studies);
  if (reason !== null) return refuse(reason);
  const df = studies.length - 1;
  if (df < 1) return refuse('One study alone cannot show how much studies differ.');
  const Q = weightedMean(studies, 0).spread;
  const s2 = typicalVariance(studies);
  const where = (quantile: number): number =>
    varianceWhere((tau2) => weightedMean(studies, tau2).spread - quantile);
  const tau2 = {
    lower: where(chiSquareUpperQuantile(tailArea(level), df)),
    upper: where(chiSquareQuantile(tailArea(level), df)),
  };
  const both = (of: (tau2: number) => number): Interval => ({
    lower: of(tau2.lower),
    upper: of(tau2.upper),
  });
  return {
    kind: 'estimated',
    Q,
    df,
    p: chiSquareTails(Q, df).upper,
    I2fromQpercent: Q > df ? (100 * (Q - df)) / Q : 0,
    H2fromQ: Q / df,
    typicalVariance: s2,
    tau2,
    I2percent: both((t) => (100 * t) / (t + s2)),
    H2: both((t) => 1 + t / s2),
  };
}

/**
 * The variance that stands for those of all studies (two or more) in I².
 * Source: Higgins & Thompson 2002, eq. 9.
 */
export function typicalVariance(studies: readonly Study[]): number {
  const { weights, totalWeight } = weightedMean(studies, 0);
  const squares = weights.reduce((sum, w) => sum + w * w, 0);
  return ((studies.length - 1) * totalWeight) / (totalWeight ** 2 - squares);
}
