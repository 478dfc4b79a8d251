import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { betaBinomialFit } from '../../src/stats/empirical-bayes-beta-binomial.ts';
import {
  probabilityBestProportion,
  probabilityBestRate,
  type Standing,
} from '../../src/stats/probability-best.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

const betas = (a: readonly number[], b: readonly number[]) =>
  a.map((value, i) => ({ a: value, b: b[i] as number }));

const columns = (standings: readonly Standing[]) => ({
  best: standings.map((standing) => standing.best),
  nearBest: standings.map((standing) => standing.nearBest),
  expectedRank: standings.map((standing) => standing.expectedRank),
});

describe('reference cases 24-best (R sums and integrate, mpmath)', () => {
  type Proportions = { a: number[]; b: number[]; difference: number };
  test.each(loadReference<Proportions>('24-best', 'beta-'))('$id', (reference) => {
    const { a, b, difference } = reference.inputs;
    const got = columns(probabilityBestProportion(betas(a, b), { difference }));
    expectClose(got, reference.expected, reference.tolerance);
  });

  type Rates = { shape: number[]; rate: number[]; share: number };
  test.each(loadReference<Rates>('24-best', 'gamma-'))('$id', (reference) => {
    const { shape, rate, share } = reference.inputs;
    const options = shape.map((value, i) => ({ shape: value, rate: rate[i] as number }));
    const got = columns(probabilityBestRate(options, { share }));
    expectClose(got, reference.expected, reference.tolerance);
  });
});

test('check value prob-best', () => {
  type Inputs = { two: [number, number, number, number][]; three_beta: [number, number][] };
  const { inputs, expected, tolerance } = loadCheckValue<Inputs>('prob-best');
  const best = (options: { a: number; b: number }[]): number[] =>
    columns(probabilityBestProportion(options, { difference: 0 })).best;
  const got = {
    p_first_greater: inputs.two.map(([a, b, c, d]) => best(betas([a, c], [b, d]))[0]),
    three: best(inputs.three_beta.map(([a, b]) => ({ a, b }))),
  };
  expectClose(got, expected, tolerance);
});

describe('laws', () => {
  const size = fc.double({ min: 0.05, max: 80, noNaN: true });
  const options = fc.array(fc.record({ a: size, b: size }), { minLength: 2, maxLength: 6 });

  test('chances of being best add up to 1, ranks to 1 + 2 + … + K, near best holds best', () => {
    fc.assert(
      fc.property(options, (beliefs) => {
        const standings = probabilityBestProportion(beliefs, { difference: 0.05 });
        const sum = (of: (standing: Standing) => number): number =>
          standings.reduce((total, standing) => total + of(standing), 0);
        const K = beliefs.length;
        expect(sum((standing) => standing.best)).toBeCloseTo(1, 8);
        expect(sum((standing) => standing.expectedRank)).toBeCloseTo((K * (K + 1)) / 2, 7);
        for (const { best, nearBest } of standings)
          expect(nearBest).toBeGreaterThanOrEqual(best - 1e-9);
      }),
      { seed: 7, numRuns: 40 },
    );
  });

  test('equal options share the chance equally', () => {
    const five = Array.from({ length: 5 }, () => ({ shape: 3.2, rate: 7 }));
    for (const { best, expectedRank } of probabilityBestRate(five, { share: 0.1 })) {
      expect(best).toBeCloseTo(0.2, 9);
      expect(expectedRank).toBeCloseTo(3, 9);
    }
  });

  test('rates per hour and per minute rank the same', () => {
    const hours = [
      { shape: 5.3, rate: 9.8 },
      { shape: 14.3, rate: 10.3 },
      { shape: 0.4, rate: 2 },
    ];
    const minutes = hours.map(({ shape, rate }) => ({ shape, rate: rate * 60 }));
    const [first, second] = [hours, minutes].map((all) => probabilityBestRate(all, { share: 0.1 }));
    expectClose(second, first, { rel: 0, abs: 1e-9 });
  });

  test('a margin of everything: all are near the best', () => {
    for (const { nearBest } of probabilityBestProportion(betas([1, 9], [9, 1]), { difference: 1 }))
      expect(nearBest).toBeCloseTo(1, 9);
  });
});

describe('at the edges', () => {
  test('no option; one option', () => {
    expect(probabilityBestProportion([], { difference: 0.05 })).toEqual([]);
    const [alone] = probabilityBestRate([{ shape: 2, rate: 3 }], { share: 0.1 });
    expect(alone).toMatchObject({ best: expect.closeTo(1, 9), expectedRank: expect.closeTo(1, 9) });
  });

  test('two trials, both hooked: best under a flat prior, not under the fitted one', () => {
    const options = [
      { successes: 2, trials: 2 },
      { successes: 33, trials: 60 },
      { successes: 20, trials: 45 },
      { successes: 28, trials: 40 },
      { successes: 14, trials: 31 },
    ];
    const flat = options.map(({ successes: x, trials: n }) => ({ a: x + 1, b: n - x + 1 }));
    const fit = betaBinomialFit(options, { level: 0.9 });
    if (fit.kind === 'not-estimable') throw new Error(fit.reason);
    const [under, fitted] = [flat, fit.options].map(
      (beliefs) => columns(probabilityBestProportion(beliefs, { difference: 0.05 })).best,
    ) as [number[], number[]];
    expect(Math.max(...under)).toBe(under[0]);
    expect(Math.max(...fitted)).toBe(fitted[3]);
  });

  test('shapes far below 1: nothing is lost in the tails', () => {
    const standings = probabilityBestProportion(betas([0.02, 5.02, 3.02], [3, 0.02, 0.02]), {
      difference: 0.05,
    });
    expect(standings.reduce((sum, { best }) => sum + best, 0)).toBeCloseTo(1, 8);
    const rates = [0.01, 0.02, 4].map((shape) => ({ shape, rate: 1 }));
    const others = probabilityBestRate(rates, { share: 0.1 });
    expect(others.reduce((sum, { best }) => sum + best, 0)).toBeCloseTo(1, 8);
  });

  test('a margin below 0 is a mistake of the caller', () => {
    expect(() => probabilityBestProportion([], { difference: -0.1 })).toThrow('margin');
    expect(() => probabilityBestRate([], { share: Number.NaN })).toThrow('margin');
  });
});
