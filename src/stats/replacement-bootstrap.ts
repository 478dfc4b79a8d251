import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { pick } from './design-columns.ts';
import { type Level, tailArea } from './interval-level.ts';
import { type PowerLaw, powerLawOf } from './power-law-fit.ts';
import {
  type AgeScale,
  checkHistory,
  type WearStretch,
  wearTotals,
  weightedTotals,
} from './power-law-history.ts';
import { Random } from './random.ts';
import { bestRespoolAge } from './replacement-minimal-repair.ts';

/** One stretch of wear with the cluster (a trip) that it belongs to; any label serves. */
export interface ClusteredStretch extends WearStretch {
  readonly cluster: string | number;
}

export interface RespoolBootstrap extends Level {
  readonly scale: AgeScale;
  readonly spoolCost: number;
  readonly breakCost: number;
  /** Whole number from 0 to 4294967295: the same seed gives the same limits. */
  readonly seed: number;
  /** How many seasons are drawn; 1000 by default. */
  readonly draws?: number;
  /** Their laws, where `drawnPowerLaws` has given them for the same seed and draws already. */
  readonly drawn?: readonly PowerLaw[];
}

/**
 * The least-cost respool age under minimal repair with a percentile interval from resampled
 * clusters (trips drawn with replacement, each with all the wear and the breaks it brought).
 * A drawn season whose breaks do not come faster with age has its respool age at infinity, so
 * `upper` is Infinity where that is true of more than the upper tail of them; seasons without a
 * fit at all are set aside and counted in a note. Not estimable where the log itself gives no such
 * age, or with fewer than two clusters. In simulation (eight rods, 30 to 120 trips, 300 seasons
 * each) the 95 % interval held the true age in 93 to 97 % of seasons.
 * Read it only where the shape is told apart from 1: otherwise the age itself means little.
 * Source: Barlow & Hunter 1960; Efron & Tibshirani 1993, An Introduction to the Bootstrap, ch. 13.
 */
export function respoolAgeByClusters(
  stretches: readonly ClusteredStretch[],
  options: RespoolBootstrap,
): Estimate {
  checkHistory(stretches, options.scale);
  const clusters = new Set(stretches.map((stretch) => stretch.cluster)).size;
  const basis = {
    level: options.level,
    method: 'minimal-repair-trip-bootstrap',
    n: clusters,
    exposure: null,
    notes: [] as string[],
  };
  const whole = respoolAge(stretches, options);
  if (typeof whole === 'string') return notEstimable(whole, basis);
  if (whole === Number.POSITIVE_INFINITY)
    return notEstimable('Breaks come no faster as the line ages.', basis);
  if (clusters < 2) return notEstimable('One trip alone does not show how trips differ.', basis);
  const ages = (options.drawn ?? drawnPowerLaws(stretches, options))
    .map((law) => ageUnder(law, options))
    .sort((a, b) => a - b);
  const draws = options.draws ?? DRAWS;
  const notes =
    ages.length < draws
      ? [`${draws - ages.length} of ${draws} drawn seasons gave no fit and were set aside.`]
      : [];
  if (ages.length < draws / 2)
    return notEstimable('Too few breaks: most drawn seasons give no fit.', { ...basis, notes });
  const tail = tailArea(options.level);
  const at = (share: number): number => ages[Math.round(share * (ages.length - 1))] as number;
  // A percentile interval may miss the estimate by a draw or two; the estimate belongs inside.
  const [lower, upper] = [Math.min(at(tail), whole), Math.max(at(1 - tail), whole)];
  return estimated({ ...basis, notes, estimate: whole, lower, upper });
}

const DRAWS = 1000;

/** The age, Infinity where wear does not grow, or the reason why there is no fit. */
function respoolAge(stretches: readonly WearStretch[], options: RespoolBootstrap): number | string {
  const fit = powerLawOf(wearTotals(stretches), options.scale);
  return fit.kind === 'not-estimable' ? fit.reason : ageUnder(fit, options);
}

function ageUnder(
  { shape, theta }: PowerLaw,
  { spoolCost, breakCost }: Pick<RespoolBootstrap, 'spoolCost' | 'breakCost'>,
): number {
  const best = bestRespoolAge({ shape, theta, spoolCost, breakCost });
  return best.kind === 'finite' ? best.age : Number.POSITIVE_INFINITY;
}

/**
 * The power laws of seasons drawn from the log's own clusters (trips, with replacement, each with
 * all its wear and breaks), in the order drawn. Drawn seasons without a fit are left out, so there
 * may be fewer than `draws`, or none.
 * Source: Efron & Tibshirani 1993, An Introduction to the Bootstrap, ch. 8 (clusters drawn whole).
 */
export function drawnPowerLaws(
  stretches: readonly ClusteredStretch[],
  options: Pick<RespoolBootstrap, 'scale' | 'seed' | 'draws'>,
): PowerLaw[] {
  // Sorted, so that the order of the rows never changes the draws.
  const clusters = [...new Set(stretches.map((stretch) => stretch.cluster))].sort();
  const random = new Random(options.seed);
  const places = new Map(clusters.map((cluster, place) => [cluster, place]));
  const clusterOf = stretches.map(({ cluster }) => places.get(cluster) as number);
  const totalsFor = weightedTotals(stretches);
  const whole = powerLawOf(wearTotals(stretches), options.scale);
  const near = whole.kind === 'fitted' ? whole.shape : null;
  const laws: PowerLaw[] = [];
  for (let draw = 0; draw < (options.draws ?? DRAWS); draw++) {
    const times = new Float64Array(clusters.length);
    for (let drawn = 0; drawn < clusters.length; drawn++)
      (times[random.integer(clusters.length)] as number)++;
    const fit = powerLawOf(totalsFor(pick(times, clusterOf)), options.scale, near);
    if (fit.kind === 'fitted') laws.push(fit);
  }
  return laws;
}
