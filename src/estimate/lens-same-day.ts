import type { Estimate } from '../base/estimate.ts';
import {
  sameClusterDifference,
  sameClusterRateDifference,
} from '../stats/same-cluster-difference.ts';
import { sameClusterOddsRatio } from '../stats/same-cluster-odds-ratio.ts';
import { sameClusterRateRatio, sameClusterRiskRatio } from '../stats/same-cluster-ratio.ts';
import type { Measure } from '../tally/measures.ts';
import type { Lens } from './lens.ts';
import { bitesOf, lensAsLogged } from './lens-as-logged.ts';
import type { TripPair } from './level-pairs.ts';
import { isProportion } from './proportion.ts';

/**
 * A and B on the trips that fished both, each trip compared with itself: whatever the day was like,
 * it was like that for both. What stays the same all trip cannot explain such a difference; hour,
 * bait and where on the boat each was fished still can.
 * Source: Mantel & Haenszel weights, error by trip; see the functions of the statistics core.
 */
export function lensSameDay(
  pairs: readonly TripPair[],
  measure: Measure,
  options: { readonly level: number; readonly correlation: number | null },
): Lens {
  const { level } = options;
  const share = isProportion(measure);
  const both = pairs.filter((pair) => pair.n1 > 0 && pair.n2 > 0);
  const difference: Estimate = share
    ? sameClusterDifference(pairs, { level })
    : sameClusterRateDifference(pairs, { level });
  const ratio: Estimate = share
    ? sameClusterRiskRatio(pairs, { level })
    : sameClusterRateRatio(pairs, { level });
  const { a, b } = lensAsLogged(both, measure, options);
  const main = share ? difference : ratio;
  return {
    name: 'same_day',
    difference,
    ratio,
    oddsRatio: share ? sameClusterOddsRatio(pairs, { level }) : null,
    a,
    b,
    trips: both.length,
    bites: bitesOf(both, share),
    method: main.method,
    covariates: [],
    dropped: [],
    refused: main.kind === 'not-estimable' ? main.reason : null,
  };
}
