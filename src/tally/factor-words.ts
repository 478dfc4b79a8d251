import { formatMonth } from '../base/format-time.ts';
import { levelWords, printable } from '../base/words.ts';
import type { FactorName } from './factors.ts';
import { NOT_RECORDED } from './level-order.ts';

type Phrase = (level: string) => string;

const on: Phrase = (level) => `on ${level}`;

const PLACES: Readonly<Record<FactorName, Phrase>> = {
  bait: (level) => `with ${level}`,
  position: on,
  side: (level) => (level === 'centre' ? 'in the centre' : `on the ${level} side`),
  reach: (level) => {
    if (level === 'flat') return 'on the flat lines';
    return level === 'pitch' ? 'on the pitch rod' : `on the ${level} lines`;
  },
  line_type: on,
  line_class_lb: (level) => `on ${level} lb line`,
  hook_size: (level) => `on ${level} hooks`,
  hook_model: (level) => `on ${level} hooks`,
  leader_lb: (level) => `on ${level} lb leaders`,
  rod: (level) => `on rod ${level}`,
  species: (level) => `of ${level}`,
  area: (level) => `at ${level}`,
  vessel: (level) => `on ${level}`,
  trip_kind: (level) => `on ${level} trips`,
  month: (level) => `in ${formatMonth(level)}`,
  week: (level) => `in week ${level}`,
  hour_of_day: (level) => `in the hour from ${level.padStart(2, '0')}:00`,
  light: (level) => (level === 'day' ? 'by day' : level === 'night' ? 'at night' : `at ${level}`),
  wind_band: (level) => `in force ${level}`,
  moon: (level) => `around the ${level} moon`,
  line_age_band: (level) => `on line of ${level}`,
};

/**
 * Where a bite came, as a sentence says it: `on braid`, `with mullet`, `on the long lines`,
 * `in March 2026`.
 */
export function levelPlace(factor: FactorName, level: string): string {
  if (level === NOT_RECORDED) return `where the ${factorWords(factor)} is not recorded`;
  return PLACES[factor](printable(levelWords(level)));
}

const FACTOR_WORDS: Readonly<Partial<Record<FactorName, string>>> = {
  line_class_lb: 'line class',
  leader_lb: 'leader',
  wind_band: 'wind',
  hour_of_day: 'hour of day',
  trip_kind: 'kind of trip',
  area: 'ground',
};

/** A factor in the trade's words: `line type`, `leader`, `wind`. */
export function factorWords(factor: FactorName): string {
  return FACTOR_WORDS[factor] ?? levelWords(factor);
}

const SAME: Readonly<Partial<Record<FactorName, string>>> = {
  bait: 'with the same bait',
  side: 'on the same side',
  month: 'in the same month',
  week: 'in the same week',
  wind_band: 'in the same wind',
  light: 'in the same light',
  hour_of_day: 'in the same hour of the day',
  area: 'on the same ground',
  rod: 'on the same rod',
  vessel: 'on the same boat',
};

/** Being alike in a factor, after a verb: `in the same month`, `at the same reach`. */
export function sameLevelWords(factor: FactorName): string {
  return SAME[factor] ?? `at the same ${factorWords(factor)}`;
}
