import { isProportion } from '../estimate/proportion.ts';
import type { Measure } from '../tally/measures.ts';

/**
 * The end of a sentence: why a same-day figure need not be what the two shares or rates beside it
 * give. It is taken within each trip, they are over all those trips together.
 * @param within what both were fished in: `trip`, or `pair of trips`
 */
export function sameDayNote(measure: Measure, within = 'trip'): string {
  const all = within === 'trip' ? 'trips' : 'pairs';
  return isProportion(measure)
    ? `the difference is taken within each ${within} that fished both and then averaged; the two shares beside it are over all those ${all} together, so they need not lie as far apart.`
    : `how many times as many is taken within each ${within} that fished both and then averaged; the two rates beside it are over all those ${all} together, so they need not give the same.`;
}
