import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { withLevel } from '../stats/design-matrix.ts';
import { tTails } from '../stats/distributions.ts';
import { tCritical } from '../stats/interval-level.ts';
import { bonferroniLevel, holm } from '../stats/multiplicity.ts';
import type { ClusterCovariance } from '../stats/sandwich-cluster.ts';
import { type StandardisedEstimate, standardise } from '../stats/standardise.ts';
import type { AdjustedRows } from './adjusted-rows.ts';
import { bitesOfRows, type Compared, type Contrast } from './level-pairs.ts';
import { isProportion } from './proportion.ts';
import { isTiedAmong, tiedReason } from './tied-factors.ts';

/** Two of several levels, seen in the model of all of them. Differences are A − B, ratios A ÷ B. */
export interface PairTogether {
  readonly levels: readonly [string, string];
  readonly difference: Estimate;
  readonly ratio: Estimate;
  /** The deciding figure, with limits that hold together with those of all pairs (Bonferroni). */
  readonly together: Estimate;
  /** Of no difference in the deciding figure; null where it cannot be given. */
  readonly p: number | null;
  /** The same by Holm, with allowance for looking at every pair. */
  readonly pHolm: number | null;
}

/** A pair with its figures before the other pairs are allowed for. */
interface Alone {
  readonly levels: readonly [string, string];
  readonly difference: Estimate;
  readonly ratio: Estimate;
  readonly deciding: StandardisedEstimate | null;
}

/**
 * Every pair of the levels, the later less the earlier: standardised difference and ratio, p by
 * Student's t on the scale on which the deciding figure has its interval. Pairs that never met at
 * one level of a covariate are tied and not judged, so they do not count among the looks.
 * Source: Holm 1979, Scand J Stat 6:65; Dunn 1961, J Am Stat Assoc 56:52 (Bonferroni limits).
 */
export function pairsTogether(
  prepared: AdjustedRows,
  compared: Compared,
  basis: { readonly covariance: ClusterCovariance; readonly level: number },
): PairTogether[] {
  const pairs = pairsAlone(prepared, compared, basis);
  const share = isProportion(compared.measure);
  const judged = pairs.filter(({ deciding }) => deciding?.kind === 'estimated');
  const p = judged.map(({ deciding }) => (deciding === null ? 1 : pValue(deciding, share)));
  const pHolm = holm(p);
  return pairs.map((pair): PairTogether => {
    const { levels, difference, ratio, deciding } = pair;
    const place = judged.indexOf(pair);
    const level = bonferroniLevel(basis.level, Math.max(1, judged.length));
    const together = deciding === null ? difference : atLevel(deciding, level, share);
    const chances = { p: p[place] ?? null, pHolm: pHolm[place] ?? null };
    return { levels, difference, ratio, together, ...chances };
  });
}

function pairsAlone(
  { rows, covariates }: AdjustedRows,
  compared: Compared,
  { covariance, level }: { readonly covariance: ClusterCovariance; readonly level: number },
): Alone[] {
  const { factor, measure, levels } = compared;
  const { model } = covariance;
  const set = levels.map((one) => ({ level: one, rows: withLevel(model.design, factor, one) }));
  const pairs = set.flatMap((b, at) => set.slice(at + 1).map((a) => ({ a, b })));
  return pairs.map(({ a, b }): Alone => {
    const pair: Contrast = { ...compared, levels: [a.level, b.level] };
    const own = rows.filter((row) => pair.levels.includes(row[factor] ?? ''));
    const tied = covariates.find((covariate) => isTiedAmong(own, pair, covariate));
    if (tied !== undefined) {
      const counted = { n: bitesOfRows(own, pair), exposure: null, notes: [] };
      const none = notEstimable(tiedReason(pair, tied), { ...counted, level, method: 'tied' });
      return { levels: pair.levels, difference: none, ratio: none, deciding: null };
    }
    const { difference, ratio } = standardise(
      model,
      { a: a.rows, b: b.rows },
      { covariance, level },
    );
    const deciding = isProportion(measure) ? difference : ratio;
    return { levels: pair.levels, difference, ratio, deciding };
  });
}

/** On the scale of the interval: the difference itself, or the log of the ratio. */
const onScale = (value: number, share: boolean): number => (share ? value : Math.log(value));
const offScale = (value: number, share: boolean): number => (share ? value : Math.exp(value));

function pValue(figure: StandardisedEstimate, share: boolean): number {
  const { standardError, degreesOfFreedom } = figure;
  if (figure.kind !== 'estimated' || standardError === null || degreesOfFreedom === null) return 1;
  const t = Math.abs(onScale(figure.estimate, share)) / standardError;
  return Math.min(1, 2 * tTails(t, degreesOfFreedom).upper);
}

/** The same figure with limits at another level. */
function atLevel(figure: StandardisedEstimate, level: number, share: boolean): Estimate {
  const { standardError, degreesOfFreedom } = figure;
  if (figure.kind !== 'estimated' || standardError === null || degreesOfFreedom === null) {
    return figure;
  }
  const { estimate, method, n, exposure, notes } = figure;
  const middle = onScale(estimate, share);
  const reach = tCritical(level, degreesOfFreedom) * standardError;
  const [lower, upper] = [offScale(middle - reach, share), offScale(middle + reach, share)];
  return estimated({ estimate, lower, upper, level, method, n, exposure, notes });
}
