import type { World } from './world.ts';

/** Light baits are wanted on the short and flat lines, heavy ones on the long. */
export const BAITS: World['baits'] = {
  sardine: {
    weight: 'light',
    bites: 0.85,
    hookup_logit: 0.1,
    wanted: { short: 0.42, middle: 0.12, long: 0.02, flat: 0.4, pitch: 0.15 },
    unit_cost: 0.7,
    dies: 0.12,
    spellings: ['sardines', 'sard'],
  },
  halfbeak: {
    weight: 'light',
    bites: 1,
    hookup_logit: 0,
    wanted: { short: 0.26, middle: 0.16, long: 0.05, flat: 0.35, pitch: 0.25 },
    unit_cost: 1.4,
    dies: 0.1,
    spellings: ['half beak', 'h-beak'],
  },
  'mackerel scad': {
    weight: 'middle',
    bites: 1.05,
    hookup_logit: 0.05,
    wanted: { short: 0.24, middle: 0.4, long: 0.18, flat: 0.18, pitch: 0.35 },
    unit_cost: 1.9,
    dies: 0.06,
    spellings: ['mack scad', 'mackrel scad'],
  },
  'bigeye scad': {
    weight: 'heavy',
    bites: 1.2,
    hookup_logit: 0,
    wanted: { short: 0.06, middle: 0.24, long: 0.43, flat: 0.05, pitch: 0.25 },
    unit_cost: 2.6,
    dies: 0.05,
    spellings: ['big-eye scad', 'bigeye'],
  },
  'flathead mullet': {
    weight: 'heavy',
    bites: 0.9,
    hookup_logit: -0.2,
    wanted: { short: 0.02, middle: 0.08, long: 0.32, flat: 0.02, pitch: 0 },
    unit_cost: 3.1,
    dies: 0.03,
    spellings: ['mullet', 'flat head mullet'],
  },
};

/** Large hooks go with heavy baits, and hook more. */
export const HOOK_SIZES: World['hook_sizes'] = {
  '5/0': { hookup_logit: -0.55, rigged: { light: 0.55, middle: 0.3, heavy: 0.15 } },
  '6/0': { hookup_logit: 0, rigged: { light: 0.25, middle: 0.3, heavy: 0.25 } },
  '7/0': { hookup_logit: 0.35, rigged: { light: 0.2, middle: 0.4, heavy: 0.6 } },
};

/** The two usual leaders hook alike; what bites through them differs. */
export const LEADERS: World['leaders'] = {
  pair_lb: [40, 60],
  heavy_lb: 80,
  heavy_share: 0.08,
  hookup_logit: { 40: 0, 60: 0, 80: -0.1 },
  bitten_through: { 40: 0.2, 60: 0.14, 80: 0.06 },
};

/** Braid hooks a little less, lasts much longer and costs more. */
export const LINE_TYPES: World['line_types'] = {
  mono: {
    hookup_logit: 0,
    pulled: 0.09,
    fight: 1,
    wear: { beta: 2, theta_fights: 32 },
    spool_cost: 38,
    life_trips: [9, 17],
    late: { share: 0.15, times: 1.7 },
    spellings: ['monofilament', 'nylon'],
  },
  braid: {
    hookup_logit: -0.2,
    pulled: 0.11,
    fight: 0.92,
    wear: { beta: 1.1, theta_fights: 75 },
    spool_cost: 145,
    life_trips: [60, 80],
    late: { share: 0, times: 1 },
    spellings: ['braided', 'braid line'],
  },
};
