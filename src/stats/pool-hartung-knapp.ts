import { type Estimated, estimated, type NotEstimable } from '../base/estimate.ts';
import { tTails } from './distributions.ts';
import { type Level, tCritical } from './interval-level.ts';
import { notPooled, type Study, weightedMean } from './pool-study.ts';

/** A mean over studies whose error comes from how the studies themselves scatter. */
export interface HartungKnapp extends Estimated {
  readonly se: number;
  readonly t: number;
  readonly df: number;
  readonly p: number;
  /** Variance relative to the plain one; below 1 the interval can be shorter than the plain one. */
  readonly scaleFactor: number;
}

/**
 * The Hartung–Knapp interval of a random-effects mean at a given τ²: Student's t on K − 1 degrees of
 * freedom, which keeps its level with few studies where the normal interval does not.
 * Not estimable with one study, or where the effects agree to the last digit: their scatter would
 * give an interval of no width.
 * Source: Hartung & Knapp 2001, Stat. Med. 20:3875; Sidik & Jonkman 2002, Stat. Med. 21:3153.
 */
export function hartungKnapp(
  studies: readonly Study[],
  tau2: number,
  { level }: Level,
): HartungKnapp | NotEstimable {
  const method = 'pool-hartung-knapp';
  const df = studies.length - 1;
  if (df < 1) return notPooled('One study alone does not scatter.', { studies, level, method });
  const { mean, totalWeight, spread } = weightedMean(studies, tau2);
  const scaleFactor = spread / df;
  const se = Math.sqrt(scaleFactor / totalWeight);
  const agree = 'The studies agree to the last digit, so their scatter gives no error.';
  if (!(se > Number.EPSILON * Math.abs(mean))) return notPooled(agree, { studies, level, method });
  const margin = tCritical(level, df) * se;
  const limits = { lower: mean - margin, upper: mean + margin };
  const basis = { level, method, n: studies.length, exposure: null, notes: [] };
  return {
    ...estimated({ ...basis, estimate: mean, ...limits }),
    se,
    t: mean / se,
    df,
    p: 2 * tTails(-Math.abs(mean / se), df).lower,
    scaleFactor,
  };
}
