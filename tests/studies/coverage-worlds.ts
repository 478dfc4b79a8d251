import { PLAIN_WORLD, type World } from './line-world.ts';

/** A kind of season that intervals are tried on. */
export interface Setting {
  readonly name: string;
  readonly world: World;
}

const MIDDLING: World = {
  ...PLAIN_WORLD,
  dayHookup: 0.6,
  dayBites: { law: 'gamma', shape: 2.5 },
};

/** What may go wrong with an interval in a real log, one at a time. */
export const SETTINGS: readonly Setting[] = [
  { name: 'days differ little', world: PLAIN_WORLD },
  {
    name: 'days differ much',
    world: { ...MIDDLING, dayHookup: 1, dayBites: { law: 'gamma', shape: 1 } },
  },
  { name: '92 % are hooked', world: { ...MIDDLING, hookup: 0.92 } },
  {
    name: 'the line matters more on some days',
    world: { ...MIDDLING, lineByDay: { hookup: 0.8, bites: 0.4 } },
  },
  {
    name: 'bites come three at a time',
    world: { ...MIDDLING, bursts: { size: 3, mood: 1 } },
  },
  {
    name: 'good days bring more bites',
    world: { ...MIDDLING, dayBites: { law: 'log-normal', spread: 0.6, withHookup: 0.7 } },
  },
  {
    name: 'a few days bring most bites',
    world: { ...MIDDLING, dayBites: { law: 'log-normal', spread: 1, withHookup: 0 } },
  },
];

export const BITES_PER_TRIP = [3, 12] as const;
export const TRIPS = [10, 15, 30, 60] as const;
