import { BAITS, HOOK_SIZES, LEADERS, LINE_TYPES } from './port-vellamy-gear.ts';
import { SPECIES } from './port-vellamy-species.ts';
import type { World } from './world.ts';

/**
 * The invented fishery of the demo season: the boat Quillandra out of Port Vellamy, a harbour that
 * is on no chart, on a bank that is on no chart either. Every figure is made up. What these
 * parameters are meant to show is told in `data-samples/README.md`.
 */
export const PORT_VELLAMY: World = {
  name: 'Port Vellamy 2024/25',
  vessel: 'Quillandra',
  time_zone: 'Indian/Mauritius',
  trip_prefix: 'PV',
  seed: 94,
  months: [
    month('2024-09', 16, 'cool', { wind: 15, water: 25.4, bites: 0.8, hookup: -0.35 }),
    month('2024-10', 17, 'cool', { wind: 13, water: 26.1, bites: 0.9, hookup: -0.3 }),
    month('2024-11', 17, 'warm', { wind: 9, water: 27.3, bites: 1.1, hookup: 0 }),
    month('2024-12', 18, 'warm', { wind: 8, water: 28.2, bites: 1.25, hookup: 0.15 }),
    month('2025-01', 18, 'warm', { wind: 9, water: 28.9, bites: 1.2, hookup: 0.15 }),
    month('2025-02', 16, 'warm', { wind: 10, water: 29.1, bites: 1, hookup: 0.05 }),
    month('2025-03', 17, 'warm', { wind: 8, water: 28.8, bites: 1.05, hookup: 0.1 }),
    month('2025-04', 17, 'warm', { wind: 10, water: 28.1, bites: 0.9, hookup: 0.05 }),
    month('2025-05', 14, 'cool', { wind: 14, water: 27, bites: 0.75, hookup: -0.2 }),
  ],
  trip_kinds: {
    charter: {
      share: 0.68,
      hours: [5, 7],
      kite_lines: [4, 6],
      flat_lines: [1, 2],
      anglers: [2, 5],
    },
    tournament: {
      share: 0.14,
      hours: [8, 9],
      kite_lines: [6, 6],
      flat_lines: [1, 2],
      anglers: [3, 5],
    },
    scouting: {
      share: 0.18,
      hours: [4, 6],
      kite_lines: [2, 4],
      flat_lines: [1, 2],
      anglers: [1, 2],
    },
  },
  areas: {
    'Bank Edge': { share: 0.4, lat: -12.38, lon: 54.57, depth_m: [60, 110], bites: 1.05 },
    'Kettle Drop': { share: 0.25, lat: -12.47, lon: 54.69, depth_m: [120, 240], bites: 1.1 },
    'Long Shelf': { share: 0.2, lat: -12.29, lon: 54.52, depth_m: [35, 60], bites: 0.85 },
    Ninefold: { share: 0.15, lat: -12.55, lon: 54.61, depth_m: [80, 160], bites: 0.95 },
  },
  bites: {
    per_line_hour: 0.55,
    day_shape: 1.3,
    bursts: { per_hour: 0.35, minutes: [8, 20], times: 8 },
    hour_of_day: [
      0.5, 0.5, 0.5, 0.5, 0.7, 1.3, 1.6, 1.5, 1.1, 0.9, 0.8, 0.7, 0.65, 0.75, 0.9, 1.1, 1.4, 1.6,
      1.2, 0.8, 0.6, 0.5, 0.5, 0.5,
    ],
    wind_kn: [
      { below: 7, bites: 0.85 },
      { below: 17, bites: 1.1 },
      { below: null, bites: 0.9 },
    ],
    current_kn: [
      { below: 0.5, bites: 0.75 },
      { below: 1.5, bites: 1.1 },
      { below: null, bites: 0.9 },
    ],
    moon: 1,
  },
  hookup: { base_logit: 2.15, day_sd: 0.25, wind_logit_per_kn: -0.045 },
  reaches: {
    short: { bites: 0.95, hookup_logit: -0.25 },
    middle: { bites: 1, hookup_logit: 0 },
    long: { bites: 1.15, hookup_logit: 0.4 },
    flat: { bites: 0.8, hookup_logit: -0.25 },
    pitch: { bites: 3, hookup_logit: 0 },
  },
  baits: BAITS,
  hook_sizes: HOOK_SIZES,
  hook_models: { 'bench A': 0.88, 'bench B': 0.12 },
  leaders: LEADERS,
  line_types: LINE_TYPES,
  line_class_lb: [
    { from: '2024-09-01', lb: 20 },
    { from: '2024-11-01', lb: 30 },
  ],
  changes: {
    K3: [{ from: '2024-11-16', line_type: 'braid' }],
    K6: [
      { from: '2025-01-10', line_type: 'braid' },
      { from: '2025-04-05', line_type: 'mono' },
    ],
    K5: [{ from: '2025-02-01', line_type: 'braid' }],
    F1: [{ from: '2025-03-08', line_type: 'braid' }],
  },
  species: SPECIES,
  handling: {
    fight_log_sd: 0.45,
    drop_back_s_median: 8,
    drop_back_log_sd: 0.5,
    hooked_in: { mouth: 0.09, deep: 0.025, foul: 0.015 },
    deep_after_15_s: 3,
    hook_failed: 0.005,
    predator: 0.015,
    other_loss: 0.01,
    tired_per_fight_min: 0.007,
    bleeding: { deep: 0.3, elsewhere: 0.02 },
    dead: { deep: 0.12, elsewhere: 0.01 },
  },
  costs: {
    currency: 'EUR',
    lost_fish: 90,
    bait_short: 14,
    bait_left: 2.5,
    weekend_price: 1.15,
    weekend_supply: 0.85,
  },
  writing: {
    bite_time: 0.99,
    position: 0.996,
    fight: 0.98,
    drop_back: 0.85,
    hooked_in: 0.88,
    length: 0.65,
    water_temp: 0.93,
    current: 0.95,
    missed_species: 0.3,
  },
  comparisons: [
    {
      factor: 'hook_size',
      between: ['7/0', '5/0'],
      verdict: 'clear',
      why: 'a large true difference; hook sizes lean on the weight of the bait but all of them meet',
    },
    {
      factor: 'leader_lb',
      between: ['40', '60'],
      verdict: 'alike',
      why: 'no difference, both leaders fished on most days, many bites of each',
    },
    {
      factor: 'line_type',
      between: ['braid', 'mono'],
      verdict: 'open',
      why: 'a small true difference; braid went on in the calm months and mostly on the long rods',
    },
    {
      factor: 'line_class_lb',
      between: ['30', '20'],
      verdict: 'tied',
      why: 'no difference, but every reel went from 20 lb to 30 lb on the first trip of November',
    },
  ],
};

function month(
  name: string,
  trips: number,
  season: 'cool' | 'warm',
  truth: { wind: number; water: number; bites: number; hookup: number },
): World['months'][number] {
  return {
    month: name,
    trips,
    season,
    mean_wind_kn: truth.wind,
    // South-east trades in the cool months, north-west monsoon in the warm ones.
    wind_from_deg: season === 'cool' ? 130 : 315,
    water_temp_c: truth.water,
    bites: truth.bites,
    hookup_logit: truth.hookup,
  };
}
