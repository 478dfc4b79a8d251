/** The measures a captain may ask for: what is counted over what. */
export const MEASURES = {
  hookup_rate: { numerator: 'hooked', denominator: 'bites', kind: 'proportion' },
  caught_rate: { numerator: 'caught', denominator: 'hooked', kind: 'proportion' },
  release_rate: { numerator: 'released', denominator: 'hooked', kind: 'proportion' },
  bite_to_boat: { numerator: 'caught', denominator: 'bites', kind: 'proportion' },
  bites_per_line_hour: { numerator: 'bites', denominator: 'line_hours', kind: 'rate' },
  hookups_per_line_hour: { numerator: 'hooked', denominator: 'line_hours', kind: 'rate' },
  caught_per_line_hour: { numerator: 'caught', denominator: 'line_hours', kind: 'rate' },
  released_per_line_hour: { numerator: 'released', denominator: 'line_hours', kind: 'rate' },
} as const;

export type Measure = keyof typeof MEASURES;
export type Counted = 'bites' | 'hooked' | 'caught' | 'released' | 'kept';

/** The measures in the order tables show them. */
export const MEASURE_NAMES = Object.keys(MEASURES) as readonly Measure[];
