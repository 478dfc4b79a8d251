import { describe, expect, test } from 'vitest';
import { betaBinomialFit } from '../../src/stats/empirical-bayes-beta-binomial.ts';
import { gammaPoissonFit } from '../../src/stats/empirical-bayes-gamma-poisson.ts';
import type { ShrunkenOption } from '../../src/stats/empirical-bayes-option.ts';
import { Random } from '../../src/stats/random.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

const limits = (options: readonly ShrunkenOption[]) => ({
  lower: options.map(({ lower }) => lower),
  upper: options.map(({ upper }) => upper),
});

describe('reference cases 24-doubt (R sums over a fine grid)', () => {
  type Counts = { successes: number[]; trials: number[]; level: number };
  test.each(loadReference<Counts>('24-doubt', 'bb-'))('$id', (reference) => {
    const { successes, trials, level } = reference.inputs;
    const options = successes.map((x, i) => ({ successes: x, trials: trials[i] as number }));
    const fit = betaBinomialFit(options, { level });
    if (fit.kind === 'not-estimable') throw new Error(fit.reason);
    expectClose(limits(fit.options), reference.expected, reference.tolerance);
  });

  type Rates = { events: number[]; exposure: number[]; level: number };
  test.each(loadReference<Rates>('24-doubt', 'gp-'))('$id', (reference) => {
    const { events, exposure, level } = reference.inputs;
    const options = events.map((y, i) => ({ events: y, exposure: exposure[i] as number }));
    const fit = gammaPoissonFit(options, { level });
    if (fit.kind === 'not-estimable') throw new Error(fit.reason);
    expectClose(limits(fit.options), reference.expected, reference.tolerance);
  });
});

describe('simulated tables of six options, seed 3', () => {
  const random = new Random(3);
  const truths = (draw: () => number): number[] => Array.from({ length: 6 }, draw);
  const held = (options: readonly ShrunkenOption[], rates: readonly number[]): number =>
    options.filter(({ lower, upper }, i) => {
      const rate = rates[i] as number;
      return lower <= rate && rate <= upper;
    }).length;
  // Four standard errors of 150 limits below 90 %, as if independent.
  const allowed = 0.9 - 4 * Math.sqrt((0.9 * 0.1) / 150);

  test.each([
    ['much', 4],
    ['some', 20],
    ['hardly any', 400],
  ])('proportions with %s spread between them', (_, precision) => {
    let count = 0;
    for (let table = 0; table < 25; table++) {
      const rates = truths(() => random.beta(0.6 * precision, 0.4 * precision));
      const options = rates.map((rate) => {
        const trials = 2 + random.poisson(20 * random.gamma(1));
        return { trials, successes: random.binomial(trials, rate) };
      });
      const fit = betaBinomialFit(options, { level: 0.9 });
      if (fit.kind !== 'not-estimable') count += held(fit.options, rates);
    }
    expect(count / 150).toBeGreaterThan(allowed);
  });

  test.each([
    ['much', 2],
    ['some', 20],
  ])('rates with %s spread between them', (_, shape) => {
    let count = 0;
    for (let table = 0; table < 25; table++) {
      const rates = truths(() => (0.3 * random.gamma(shape)) / shape);
      const options = rates.map((rate) => {
        const exposure = 1 + 40 * random.gamma(1);
        return { exposure, events: random.poisson(rate * exposure) };
      });
      const fit = gammaPoissonFit(options, { level: 0.9 });
      if (fit.kind !== 'not-estimable') count += held(fit.options, rates);
    }
    expect(count / 150).toBeGreaterThan(allowed);
  });
});

test('the limits hold the shrunken rate, also where all options have the common one', () => {
  const tables = [
    [
      [5, 10],
      [5, 10],
      [5.2, 10],
    ],
    [
      [0, 40],
      [1, 40],
      [38, 40],
      [3, 3],
    ],
  ];
  for (const table of tables) {
    const options = table.map(([successes = 0, trials = 0]) => ({ successes, trials }));
    const fit = betaBinomialFit(options, { level: 0.5 });
    if (fit.kind === 'not-estimable') throw new Error(fit.reason);
    for (const { lower, posteriorMean, upper } of fit.options) {
      expect(lower).toBeLessThanOrEqual(posteriorMean);
      expect(upper).toBeGreaterThanOrEqual(posteriorMean);
      expect(upper).toBeGreaterThan(lower);
    }
  }
});
