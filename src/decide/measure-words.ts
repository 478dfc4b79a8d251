import { type FigureStyle, PER_10_LINE_HOURS, PERCENT } from '../base/format-figure.ts';
import type { Measure } from '../tally/measures.ts';

/** How sentences speak of a measure. */
export interface MeasureWords {
  /** What there is more or fewer of, before the place: `bites are hooked`. */
  readonly happens: string;
  /** Its name in running text: `the share of bites hooked`. */
  readonly name: string;
  /** What one more of is wanted to settle a comparison: `bites`, `hooked fish`, `line-hours`. */
  readonly unit: string;
  /** The same for one: `bite`. */
  readonly oneUnit: string;
  readonly style: FigureStyle;
}

/** Words for every measure. */
export const MEASURE_WORDS: Readonly<Record<Measure, MeasureWords>> = {
  hookup_rate: {
    happens: 'bites are hooked',
    name: 'the share of bites hooked',
    unit: 'bites',
    oneUnit: 'bite',
    style: PERCENT,
  },
  caught_rate: {
    happens: 'hooked fish are caught',
    name: 'the share of hooked fish caught',
    unit: 'hooked fish',
    oneUnit: 'hooked fish',
    style: PERCENT,
  },
  release_rate: {
    happens: 'hooked fish are released',
    name: 'the share of hooked fish released',
    unit: 'hooked fish',
    oneUnit: 'hooked fish',
    style: PERCENT,
  },
  bite_to_boat: {
    happens: 'bites end at the boat',
    name: 'the share of bites that end at the boat',
    unit: 'bites',
    oneUnit: 'bite',
    style: PERCENT,
  },
  bites_per_line_hour: {
    happens: 'bites come to a line-hour',
    name: 'bites per line-hour',
    unit: 'line-hours',
    oneUnit: 'line-hour',
    style: PER_10_LINE_HOURS,
  },
  hookups_per_line_hour: {
    happens: 'fish are hooked in a line-hour',
    name: 'hookups per line-hour',
    unit: 'line-hours',
    oneUnit: 'line-hour',
    style: PER_10_LINE_HOURS,
  },
  caught_per_line_hour: {
    happens: 'fish are caught in a line-hour',
    name: 'fish caught per line-hour',
    unit: 'line-hours',
    oneUnit: 'line-hour',
    style: PER_10_LINE_HOURS,
  },
  released_per_line_hour: {
    happens: 'fish are released in a line-hour',
    name: 'fish released per line-hour',
    unit: 'line-hours',
    oneUnit: 'line-hour',
    style: PER_10_LINE_HOURS,
  },
};
