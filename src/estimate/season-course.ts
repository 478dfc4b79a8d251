import type { Measure } from '../tally/measures.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { SeasonCourse } from './comparison.ts';
import type { TripPair } from './level-pairs.ts';

export function seasonCourse(
  _pairs: readonly TripPair[],
  _season: TidySeason,
  _options: { readonly measure: Measure; readonly level: number },
): SeasonCourse {
  return { steps: [], clearSince: null, refused: 'later' };
}
