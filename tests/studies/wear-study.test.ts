import { expect, test } from 'vitest';
import { wearStudy } from './wear-study.ts';

// The study of run-wear-study.ts in small; its table is wear-study.md. The bounds are those of a
// binomial count at 40 runs (95 % held: 34 or fewer of 40 would happen once in 250 times).

const EVEN = Number.POSITIVE_INFINITY;
const WORLD = { trips: 90, rods: 8, fightsPerTrip: 1.6, spoolShape: EVEN, tripShape: EVEN };

const RUNS = { runs: 40, firstSeed: 7, draws: 100 };

test('reads known wear: beta is held, the age is near', () => {
  const study = wearStudy({ ...WORLD, beta: 2, theta: 32 }, RUNS);
  expect(study.betaHeld).toBeGreaterThan(34 / 40);
  expect(study.ageError).toBeLessThan(0.2);
  expect(study.advised).toBeGreaterThan(0.8);
  expect(study.ageHeld).toBeGreaterThan(0.8);
});

test('names an age for line that does not wear hardly ever', () => {
  const study = wearStudy({ ...WORLD, beta: 1, theta: 25 }, RUNS);
  expect(study.betaHeld).toBeGreaterThan(34 / 40);
  expect(study.advised).toBeLessThan(6 / 40);
});
