import { describe, expect, test } from 'vitest';
import { Random } from '../../src/stats/random.ts';
import { planFrom, powerMet } from './plan-power-study.ts';
import type { PlanWorld } from './plan-power-world.ts';

// The study of run-plan-power-study.ts in small; its table is plan-power-study.md.

const RUNS = 600;
const LOG_TRIPS = 1500;
/** What may be missing or left over, beside four Monte-Carlo standard errors. */
const POINTS = 0.03;

const share = {
  kind: 'share',
  dayShape: 1.3,
  daySpread: 0.5,
  sideSpread: 0,
  known: false,
} as const;
const WORLDS: readonly (PlanWorld & { readonly name: string })[] = [
  { ...share, name: 'sides', design: 'sides', base: 0.6, difference: 0.2, bites: 12 },
  {
    ...share,
    name: 'both in the log',
    design: 'sides',
    base: 0.8,
    difference: 0.2,
    bites: 10,
    known: true,
  },
  { ...share, name: 'whole days', design: 'days', base: 0.6, difference: 0.2, bites: 15 },
  {
    name: 'a rate, in bursts',
    design: 'sides',
    kind: 'rate',
    base: 0.4,
    difference: 0.5,
    bites: 8,
    dayShape: 3,
    daySpread: 0,
    sideSpread: 4,
    known: false,
  },
];

describe('the power that a plan promises is met within 3 points', () => {
  test.each(WORLDS)('$name', (world) => {
    const random = new Random(77);
    const plan = planFrom(world, LOG_TRIPS, random);
    const trips = plan.needed ?? 0;
    expect(trips).toBeGreaterThan(0);
    const { promised, met } = powerMet(world, plan, { trips, runs: RUNS, random });
    const error = Math.sqrt((promised * (1 - promised)) / RUNS);
    expect(promised).toBeGreaterThanOrEqual(0.8);
    expect(Math.abs(met - promised)).toBeLessThan(POINTS + 4 * error);
  });

  test('where nothing differs the same-day lens is wrong on one side in 2.5 of 100 seasons', () => {
    const random = new Random(78);
    const [world] = WORLDS;
    if (world === undefined) return;
    const plan = planFrom(world, LOG_TRIPS, random);
    const same = { ...world, difference: 0 };
    const { met } = powerMet(same, plan, { trips: 30, runs: RUNS, random });
    expect(met).toBeLessThan(0.025 + 4 * Math.sqrt((0.025 * 0.975) / RUNS));
  });
});
