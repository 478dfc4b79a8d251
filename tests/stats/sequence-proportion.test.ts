import { describe, expect, test } from 'vitest';
import { normalCritical } from '../../src/stats/interval-level.ts';
import { Random } from '../../src/stats/random.ts';
import {
  logNormalMixture,
  normalMixtureBound,
  normalMixtureScale,
} from '../../src/stats/sequence-normal-mixture.ts';
import {
  evenMixture,
  proportionCapital,
  proportionSequence,
  tunedMixture,
} from '../../src/stats/sequence-proportion.ts';
import { expectClose, loadCheckValue } from '../helpers/reference.ts';

describe('check values of topic 4', () => {
  // Source: Howard, Ramdas, McAuliffe & Sekhon 2021, Ann. Stat. 49:1055.
  test('cs-normal-mixture', () => {
    type Inputs = { v_opt: number; alpha_opt: number; v: number; alpha: number };
    const { inputs, expected, tolerance } = loadCheckValue<Inputs>('cs-normal-mixture');
    const { v, alpha } = inputs;
    const of = (sided: 1 | 2) => {
      const rho = normalMixtureScale(inputs.v_opt, { alpha: inputs.alpha_opt, sided });
      return { rho, sided };
    };
    const [one, two] = [of(1), of(2)];
    expect(one.rho).toBeCloseTo(15.80063, 5);
    const got = {
      rho: two.rho,
      log_mixture_s10: logNormalMixture(10, v, two),
      bound: normalMixtureBound(v, { ...two, alpha }),
      one_sided_log_mixture_s10: logNormalMixture(10, v, one),
      one_sided_bound: normalMixtureBound(v, { ...one, alpha }),
    };
    expectClose(got, expected, tolerance);
  });

  // Source: Howard et al. 2021, beta-binomial mixture.
  test('cs-bernoulli-betabinomial', () => {
    type Inputs = { cases: [number, number, number, number][] };
    const { inputs, expected, tolerance } = loadCheckValue<Inputs>('cs-bernoulli-betabinomial');
    const ci = inputs.cases.map(([successes, trials, alpha, best]) => {
      const mixture = tunedMixture(best);
      const { lower, upper } = proportionSequence(
        { successes, trials },
        { level: 1 - alpha, mixture },
      );
      return [lower, upper];
    });
    expectClose({ ci }, expected, tolerance);
  });

  // Source: Robbins 1970.
  test('cs-bernoulli-uniform-mixture', () => {
    type Inputs = { cases: [number, number][]; alpha: number };
    const { inputs, expected, tolerance } = loadCheckValue<Inputs>('cs-bernoulli-uniform-mixture');
    const ci = inputs.cases.map(([successes, trials]) => {
      const options = { level: 1 - inputs.alpha, mixture: evenMixture };
      const { lower, upper } = proportionSequence({ successes, trials }, options);
      return [lower, upper];
    });
    expectClose({ ci }, expected, tolerance);
  });

  // Source: Robbins 1970.
  test('e-value-binomial', () => {
    type Inputs = { cases: [number, number][]; p0: number };
    const { inputs, expected, tolerance } = loadCheckValue<Inputs>('e-value-binomial');
    const e = inputs.cases.map(([successes, trials]) =>
      proportionCapital({ successes, trials }, { p: inputs.p0, mixture: evenMixture }),
    );
    expectClose({ e }, expected, tolerance);
  });
});

describe('laws', () => {
  test('the capital is fair: its mean over all outcomes of ten trials is 1', () => {
    for (const p of [0.07, 0.5, 0.93])
      for (const mixture of [evenMixture, tunedMixture(30)]) {
        let mean = 0;
        let probability = (1 - p) ** 10;
        for (let successes = 0; successes <= 10; successes++) {
          mean += probability * proportionCapital({ successes, trials: 10 }, { p, mixture });
          probability *= ((10 - successes) / (successes + 1)) * (p / (1 - p));
        }
        expect(mean).toBeCloseTo(1, 9);
      }
  });

  test('at each limit the capital is 1/α', () => {
    const options = { level: 0.9, mixture: tunedMixture(60) };
    const { lower, upper } = proportionSequence({ successes: 21, trials: 50 }, options);
    for (const p of [lower, upper])
      expect(proportionCapital({ successes: 21, trials: 50 }, { p, ...options })).toBeCloseTo(
        10,
        6,
      );
  });

  test('it is wider than an interval for one look, and narrows', () => {
    const width = (trials: number): number => {
      const options = { level: 0.95, mixture: evenMixture };
      const { lower, upper } = proportionSequence({ successes: trials / 2, trials }, options);
      return upper - lower;
    };
    expect(width(100)).toBeGreaterThan(2 * normalCritical(0.95) * Math.sqrt(0.25 / 100));
    expect(width(400)).toBeLessThan(width(100));
  });

  test('seed 4: over 200 looks, 95 % or more of seasons hold the true proportion throughout', () => {
    const random = new Random(4);
    const seasons = 300;
    let wrong = 0;
    for (let i = 0; i < seasons; i++) {
      let successes = 0;
      let richest = 0;
      for (let trials = 1; trials <= 200; trials++) {
        successes += random.binomial(1, 0.35);
        const capital = proportionCapital({ successes, trials }, { p: 0.35, mixture: evenMixture });
        richest = Math.max(richest, capital);
      }
      if (richest > 20) wrong++;
    }
    expect(wrong / seasons).toBeLessThan(0.05 + 4 * Math.sqrt((0.05 * 0.95) / seasons));
  });

  test('the normal boundary is where the martingale reaches 1/α, on one side and on two', () => {
    for (const sided of [1, 2] as const)
      for (const v of [0.5, 30, 4000]) {
        const mixture = { rho: 12, sided };
        const bound = normalMixtureBound(v, { ...mixture, alpha: 0.05 });
        expect(logNormalMixture(bound, v, mixture)).toBeCloseTo(Math.log(20), 8);
      }
  });
});

describe('at the edges', () => {
  const options = { level: 0.95, mixture: evenMixture };
  test('no trial says nothing', () => {
    const got = proportionSequence({ successes: 0, trials: 0 }, options);
    expect(got).toEqual({ lower: 0, upper: 1 });
  });

  // By hand: with bets spread evenly, n failures in a row turn 1 into 1/((n + 1)(1 − p)ⁿ).
  test.each([1, 2, 50, 4000])('%d trials, all the same way', (trials) => {
    const reach = 1 - (0.05 / (trials + 1)) ** (1 / trials);
    const none = proportionSequence({ successes: 0, trials }, options);
    const all = proportionSequence({ successes: trials, trials }, options);
    expect(none).toEqual({ lower: 0, upper: expect.closeTo(reach, 9) });
    expect(all).toEqual({ lower: expect.closeTo(1 - reach, 9), upper: 1 });
  });

  test('a million trials', () => {
    const { lower, upper } = proportionSequence({ successes: 6e5, trials: 1e6 }, options);
    expect(lower).toBeGreaterThan(0.597);
    expect(upper).toBeLessThan(0.603);
  });
});
