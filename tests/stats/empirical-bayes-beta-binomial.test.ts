import { describe, expect, test } from 'vitest';
import {
  type BetaBinomialFit,
  betaBinomialFit,
} from '../../src/stats/empirical-bayes-beta-binomial.ts';
import type { ShrunkenOption } from '../../src/stats/empirical-bayes-option.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

const paired = (successes: readonly number[], trials: readonly number[]) =>
  successes.map((x, i) => ({ successes: x, trials: trials[i] as number }));

function fitted(successes: readonly number[], trials: readonly number[]): BetaBinomialFit {
  const fit = betaBinomialFit(paired(successes, trials), { level: 0.95 });
  if (fit.kind !== 'fitted') throw new Error(fit.kind);
  return fit;
}

/** Options as one list for each of their fields, as the reference cases have them. */
const columns = (options: readonly ShrunkenOption[]) => ({
  posteriorMean: options.map((option) => option.posteriorMean),
  posteriorLower: options.map((option) => option.posteriorLower),
  posteriorUpper: options.map((option) => option.posteriorUpper),
  shrinkWeight: options.map((option) => option.shrinkWeight),
});

describe('reference cases 07-empirical-bayes (R Newton, VGAM)', () => {
  type Inputs = { successes: number[]; trials: number[]; level?: number };
  test.each(loadReference<Inputs>('07-empirical-bayes', 'bb-'))('$id', (reference) => {
    const { successes, trials, level = 0.95 } = reference.inputs;
    const fit = betaBinomialFit(paired(successes, trials), { level });
    if (fit.kind === 'not-estimable') throw new Error(fit.reason);
    expectClose({ ...fit, ...columns(fit.options) }, reference.expected, reference.tolerance);
  });
});

describe('check values of topic 5', () => {
  test('eb-beta-binomial', () => {
    type Inputs = { x: number[]; n: number[] };
    const { inputs, expected, tolerance } = loadCheckValue<Inputs>('eb-beta-binomial');
    const fit = fitted(inputs.x, inputs.n);
    const first = fit.options[0] as ShrunkenOption;
    const [params, loglik, post] = ['param', 'loglik', 'post'].map((name) => ({
      rel: 0,
      abs: tolerance.byKey?.[name]?.abs as number,
    })) as [typeof tolerance, typeof tolerance, typeof tolerance];
    for (const key of ['alpha', 'beta', 'mean', 'rho'] as const)
      expectClose(fit[key], expected[key], params);
    expectClose(fit.logLik, expected.loglik, loglik);
    expectClose(columns(fit.options).posteriorMean, expected.posterior_mean, post);
    expectClose([first.posteriorLower, first.posteriorUpper], expected.ci95_option1, post);
  });

  test('eb-beta-binomial-boundary: hardly any spread is fitted and said', () => {
    type Inputs = { x: number[]; n: number[] };
    const { inputs, expected, tolerance } = loadCheckValue<Inputs>('eb-beta-binomial-boundary');
    const fit = fitted(inputs.x, inputs.n);
    expectClose(fit.rho, expected.rho_ml, tolerance, 'rho');
    expectClose(fit.logLik, expected.loglik_ml, tolerance, 'loglik');
    expectClose(fit.logLikBinomial, expected.loglik_binomial, tolerance, 'loglik');
    expect(fit.notes).toEqual(['The options differ hardly more than chance would make them.']);
  });
});

describe('laws', () => {
  const successes = [12, 3, 30, 8, 0, 5, 21, 2, 17, 1];
  const trials = [20, 9, 41, 22, 4, 6, 50, 11, 19, 3];

  test('calling failures successes mirrors everything', () => {
    const [one, other] = [
      fitted(successes, trials),
      fitted(
        trials.map((n, i) => n - (successes[i] as number)),
        trials,
      ),
    ];
    expect(other.alpha / one.beta).toBeCloseTo(1, 9);
    expect(other.logLik).toBeCloseTo(one.logLik, 9);
    other.options.forEach((option, i) => {
      expect(option.posteriorLower).toBeCloseTo(1 - (one.options[i]?.posteriorUpper ?? 9), 9);
    });
  });

  test('a shrunken rate lies between the raw rate and the common one', () => {
    const { options, mean } = fitted(successes, trials);
    for (const { raw, posteriorMean, shrinkWeight } of options)
      expect(posteriorMean).toBeCloseTo(shrinkWeight * (raw ?? 0) + (1 - shrinkWeight) * mean, 12);
  });

  test('3 for 3 does not top 40 for 50', () => {
    const { options } = fitted([3, 40, 10, 22, 6], [3, 50, 25, 40, 20]);
    const [three, forty] = [options[0], options[1]];
    expect(three?.raw).toBeGreaterThan(forty?.raw as number);
    expect(three?.posteriorMean).toBeLessThan(forty?.posteriorMean as number);
  });

  test('options in another order, and options never tried, leave the fit alone', () => {
    const fit = fitted(successes, trials);
    expect(fitted(successes.toReversed(), trials.toReversed()).alpha).toBeCloseTo(fit.alpha, 9);
    const more = fitted([...successes, 0], [...trials, 0]);
    expect(more.alpha).toBe(fit.alpha);
    expect(more.options.at(-1)).toMatchObject({ raw: null, shrinkWeight: 0 });
    expect(more.options.at(-1)?.posteriorMean).toBeCloseTo(fit.mean, 12);
  });

  test('whole counts and counts off by a billionth give the same: fractions are no other path', () => {
    const near = fitted(
      successes.map((x) => x * (1 + 1e-9)),
      trials.map((n) => n * (1 + 1e-9)),
    );
    expect(near.alpha / fitted(successes, trials).alpha).toBeCloseTo(1, 6);
  });
});

describe('at the edges', () => {
  test('less spread than chance: everyone has the common rate, with its own limits', () => {
    const fit = betaBinomialFit(paired([5.2, 5, 5.1, 4.9], [10, 10, 10, 10]), { level: 0.95 });
    expect(fit).toMatchObject({ kind: 'pooled', precisionInfinite: true });
    if (fit.kind !== 'pooled') return;
    expect(fit.notes).toEqual([expect.stringContaining('no more than chance')]);
    for (const option of fit.options) {
      expect(option.posteriorMean).toBe(fit.mean);
      expect(option.posteriorUpper - option.posteriorLower).toBeGreaterThan(0.1);
    }
  });

  test('a hair more spread than chance, ever less of it: from a fit to pooling without a jump', () => {
    // Two options of 100 at p = 1/2: Tarone's score is 0 where the successes lie exactly 5 from 50.
    const means: number[] = [];
    for (const gap of [9, 7, 6, 5.5, 5.1, 5.01, 5.001, 5.0001]) {
      const fit = betaBinomialFit(paired([50 - gap, 50 + gap], [100, 100]), { level: 0.95 });
      if (fit.kind === 'not-estimable') throw new Error(fit.reason);
      means.push(fit.options[0]?.posteriorMean as number);
    }
    means.slice(1).forEach((mean, i) => {
      expect(mean).toBeGreaterThan(means[i] as number);
    });
    expect(means.at(-1)).toBeCloseTo(0.5, 3);
  });

  test('large counts', () => {
    const fit = fitted([41000, 38800, 45500], [1e5, 1e5, 1e5]);
    expect(fit.precision).toBeGreaterThan(50);
    expect(fit.options[0]?.posteriorMean).toBeCloseTo(0.41, 3);
  });

  test('few options: the limits are said to be too short', () => {
    const { notes } = fitted([2, 18, 9], [20, 20, 20]);
    expect(notes).toEqual([expect.stringContaining('Only 3 options')]);
  });

  test.each([
    ['no option', [], [], 'two options'],
    ['one option', [3], [9], 'two options'],
    ['one option tried', [3, 0], [9, 0], 'two options'],
    ['each tried once', [1, 0, 1], [1, 1, 1], 'more than once'],
    ['no success', [0, 0, 0], [4, 5, 6], 'Nothing succeeded'],
    ['no failure', [4, 5], [4, 5], 'Everything succeeded'],
    ['all or nothing', [0, 5, 0, 7], [4, 5, 6, 7], 'every time or never'],
  ])('%s: cannot be said', (_, successes, trials, words) => {
    const got = betaBinomialFit(paired(successes, trials), { level: 0.95 });
    expect(got).toEqual({ kind: 'not-estimable', reason: expect.stringContaining(words) });
  });

  test.each([
    [[3], [2]],
    [[-1], [2]],
    [[Number.NaN], [2]],
  ])('%j of %j is a mistake of the caller', (successes, trials) => {
    expect(() => betaBinomialFit(paired(successes, trials), { level: 0.95 })).toThrow('cannot be');
  });
});
