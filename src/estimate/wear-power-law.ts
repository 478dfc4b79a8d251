import { type Estimate, estimated, notEstimable } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import { tailArea } from '../stats/interval-level.ts';
import { fitPowerLaw, type PowerLaw } from '../stats/power-law-fit.ts';
import { type ClusteredStretch, drawnPowerLaws } from '../stats/replacement-bootstrap.ts';
import type { WearBite } from './wear-records.ts';

/** How breaks gather on a line type as it ages: (age/theta)^beta of them by an age in fights. */
export interface WearLaw extends PowerLaw {
  readonly kind: 'fitted';
  /** `shape` with its profile-likelihood interval; above 1 the line wears. */
  readonly beta: Estimate;
  /** Laws of resampled seasons: trips drawn with replacement. For intervals of what follows. */
  readonly drawn: readonly PowerLaw[];
  /** How many seasons were drawn; those without a fit are not among `drawn`. */
  readonly draws: number;
  readonly stretches: readonly ClusteredStretch[];
  readonly oldestFights: number;
}

/** No law, and why. */
export interface NoWearLaw {
  readonly kind: 'not-estimable';
  readonly beta: Estimate;
  readonly reason: string;
}

/** Ages are whole fights: the a-th fight breaks with chance Λ(a) − Λ(a − 1). */
export const FIGHTS = { kind: 'grouped', width: 1 } as const;

/** How many seasons are drawn from the log's own trips. */
const DRAWS = 1000;

/**
 * The power-law (Crow/AMSAA) process of breaks of one line type over all its spools, age counted in
 * fights as grouped data. A break does not end a spool's life: it is retied and as old as before.
 * Not estimable where nothing broke, or everything at one end of the ages seen.
 * Source: as for `fitPowerLaw`.
 */
export function wearLaw(
  bites: readonly WearBite[],
  options: { readonly level: number; readonly seed: number; readonly draws?: number },
): WearLaw | NoWearLaw {
  const { level, seed, draws = DRAWS } = options;
  const stretches = wearStretches(bites);
  const fit = fitPowerLaw(stretches, { scale: FIGHTS, level });
  const n = stretches.reduce((sum, stretch) => sum + stretch.breaks.length, 0);
  const basis = { level, method: 'power-law-profile', n, exposure: null, notes: [] };
  if (fit.kind === 'not-estimable') {
    return { kind: 'not-estimable', reason: fit.reason, beta: notEstimable(fit.reason, basis) };
  }
  const { shape, theta, lambda, shapeLimits } = fit;
  return {
    kind: 'fitted',
    shape,
    theta,
    lambda,
    beta: estimated({ ...basis, estimate: shape, ...shapeLimits }),
    drawn: drawnPowerLaws(stretches, { scale: FIGHTS, seed, draws }),
    draws,
    stretches,
    oldestFights: stretches.reduce((oldest, { to }) => Math.max(oldest, to), 0),
  };
}

/** The fights of each spool on each trip as a stretch of its life, with the fights that broke it. */
export function wearStretches(bites: readonly WearBite[]): ClusteredStretch[] {
  const fights = bites.filter((bite) => bite.fights > 0);
  const bySpoolTrip = groupBy(fights, ({ spool }) => spool);
  return [...bySpoolTrip.values()].flatMap((ofSpool) =>
    [...groupBy(ofSpool, ({ trip }) => trip.trip_id)].map(([cluster, ofTrip]) => {
      const ages = ofTrip.map(({ age }) => age.fights);
      const before = ofTrip.map(({ age, fights: count }) => age.fights - count);
      return {
        cluster,
        from: Math.min(...before),
        to: Math.max(...ages),
        breaks: ofTrip.flatMap(brokenAges),
      };
    }),
  );
}

/** Ages of the breaks of one row; in a tallied row they are taken to be its last fights. */
function brokenAges({ age, breaks }: WearBite): number[] {
  return Array.from({ length: breaks }, (_, back) => age.fights - back);
}

/**
 * Anything worked out from a law, with percentile limits from the laws of resampled seasons. Not
 * estimable where fewer than half of the drawn seasons gave a law.
 * @param of what is worked out; may be Infinity, never NaN.
 * Source: Efron & Tibshirani 1993, An Introduction to the Bootstrap, ch. 13.
 */
export function fromWearLaw(law: WearLaw, of: (law: PowerLaw) => number): Estimate {
  const { level, n } = law.beta;
  const basis = { level, method: 'power-law-trip-bootstrap', n, exposure: null, notes: [] };
  const values = law.drawn.map(of).sort((a, b) => a - b);
  if (values.length < law.draws / 2) {
    return notEstimable('Too few breaks: most drawn seasons give no fit.', basis);
  }
  const estimate = of(law);
  const at = (share: number) => values[Math.round(share * (values.length - 1))] ?? estimate;
  const tail = tailArea(level);
  // A percentile interval may miss the estimate by a draw or two; the estimate belongs inside.
  const [lower, upper] = [Math.min(at(tail), estimate), Math.max(at(1 - tail), estimate)];
  return estimated({ ...basis, estimate, lower, upper });
}
