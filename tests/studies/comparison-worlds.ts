import type { Rig, World } from './line-world.ts';
import { PLAIN_WORLD } from './line-world.ts';

/** A kind of season that verdicts are tried on. */
export interface Scene {
  readonly name: string;
  /** What is true of it, in a few words. */
  readonly truth: string;
  readonly world: World;
}

/** Days differ, and so does the line's advantage from day to day. */
const MIDDLING: World = {
  ...PLAIN_WORLD,
  dayHookup: 0.6,
  dayBites: { law: 'gamma', shape: 2.5 },
  line: { hookup: 0, bites: 0 },
  lineByDay: { hookup: 0.6, bites: 0 },
};

/** Late months and long lines hook far better, and that is where the braid is. */
const CONFOUNDED: World = {
  ...MIDDLING,
  months: [
    { hookup: -0.6, bites: -0.3 },
    { hookup: -0.3, bites: 0.3 },
    { hookup: 0.3, bites: 0.2 },
    { hookup: 0.6, bites: -0.2 },
  ],
  reaches: {
    short: { hookup: -0.5, bites: -0.2 },
    middle: { hookup: 0, bites: 0 },
    long: { hookup: 0.5, bites: 0.2 },
  },
  braidChance: ({ month, reach }) =>
    0.15 + 0.35 * Number(month >= 2) + 0.35 * Number(reach === 'long'),
};

const tiedTo = (isBraid: (rig: Omit<Rig, 'braid'>) => boolean): World => ({
  ...CONFOUNDED,
  braidChance: (rig) => Number(isBraid(rig)),
});

/** Every scene gives its months as many trips each. */
export const SCENES: readonly Scene[] = [
  { name: 'fair, 30 trips', truth: 'no difference', world: MIDDLING },
  { name: 'fair, 60 trips', truth: 'no difference', world: { ...MIDDLING, trips: 60 } },
  {
    name: 'fair, 60 trips of 3 bites',
    truth: 'no difference',
    world: { ...MIDDLING, trips: 60, bitesPerTrip: 3 },
  },
  {
    name: 'braid in late months, on long lines, 60 trips',
    truth: 'no difference',
    world: { ...CONFOUNDED, trips: 60 },
  },
  {
    name: 'the same, braid hooks worse',
    truth: '−0.5 on the logit',
    world: { ...CONFOUNDED, trips: 60, line: { hookup: -0.5, bites: 0 } },
  },
  {
    name: 'braid in late months only, 60 trips',
    truth: 'cannot be told',
    world: { ...tiedTo(({ month }) => month >= 2), trips: 60 },
  },
  {
    name: 'braid on long lines only, 60 trips',
    truth: 'cannot be told',
    world: { ...tiedTo(({ reach }) => reach === 'long'), trips: 60 },
  },
  {
    name: 'fair, 200 trips of 50 bites',
    truth: '+0.5 points',
    world: { ...PLAIN_WORLD, trips: 200, bitesPerTrip: 50, line: { hookup: 0.022, bites: 0 } },
  },
];
