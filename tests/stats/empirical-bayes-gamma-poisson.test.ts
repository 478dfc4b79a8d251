import { describe, expect, test } from 'vitest';
import {
  type GammaPoissonFit,
  gammaPoissonFit,
} from '../../src/stats/empirical-bayes-gamma-poisson.ts';
import type { ShrunkenOption } from '../../src/stats/empirical-bayes-option.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

const paired = (events: readonly number[], exposure: readonly number[]) =>
  events.map((y, i) => ({ events: y, exposure: exposure[i] as number }));

function fitted(events: readonly number[], exposure: readonly number[]): GammaPoissonFit {
  const fit = gammaPoissonFit(paired(events, exposure), { level: 0.95 });
  if (fit.kind !== 'fitted') throw new Error(fit.kind);
  return fit;
}

const means = (options: readonly ShrunkenOption[]) => options.map((o) => o.posteriorMean);

describe('reference cases 07-empirical-bayes (R Newton, MASS glm.nb)', () => {
  type Inputs = { events: number[]; exposure: number[]; level: number };
  test.each(loadReference<Inputs>('07-empirical-bayes', 'gp-'))('$id', (reference) => {
    const { events, exposure, level } = reference.inputs;
    const fit = gammaPoissonFit(paired(events, exposure), { level });
    if (fit.kind !== 'fitted') throw new Error(fit.kind);
    const got = {
      ...fit,
      posteriorMean: means(fit.options),
      posteriorLower: fit.options.map((option) => option.posteriorLower),
      posteriorUpper: fit.options.map((option) => option.posteriorUpper),
      shrinkWeight: fit.options.map((option) => option.shrinkWeight),
    };
    expectClose(got, reference.expected, reference.tolerance);
  });
});

// Source: Gaver & O'Muircheartaigh 1987, pump failures; maximum likelihood recomputed.
test('check value eb-gamma-poisson-pumps', () => {
  type Inputs = { y: number[]; t: number[] };
  const { inputs, expected, tolerance } = loadCheckValue<Inputs>('eb-gamma-poisson-pumps');
  const fit = fitted(inputs.y, inputs.t);
  const parameters = { shape: fit.shape, rate: fit.rate, loglik: fit.logLik };
  expectClose(parameters.shape, expected.shape, tolerance, 'param');
  expectClose(parameters.rate, expected.rate, tolerance, 'param');
  expectClose(parameters.loglik, expected.loglik, tolerance, 'param');
  expectClose(means(fit.options), expected.eb_rate, tolerance, 'eb');
});

describe('laws', () => {
  const events = [3, 0, 7, 2, 1, 12, 4, 0, 5, 2, 9, 1];
  const exposure = [6, 4.5, 8, 5, 7, 6.5, 8, 3, 6, 4, 7.5, 5];

  test('minutes in place of hours divide rates by 60 and leave the shape', () => {
    const minutes = fitted(
      events,
      exposure.map((hours) => hours * 60),
    );
    const hours = fitted(events, exposure);
    expect(minutes.shape / hours.shape).toBeCloseTo(1, 8);
    expect(minutes.logLik).toBeCloseTo(hours.logLik, 9);
    means(minutes.options).forEach((mean, i) => {
      expect(mean * 60).toBeCloseTo(means(hours.options)[i] as number, 9);
    });
  });

  test('a shrunken rate lies between the raw rate and the common one', () => {
    const { options, priorMean } = fitted(events, exposure);
    for (const { raw, posteriorMean, shrinkWeight } of options) {
      const mixed = shrinkWeight * (raw ?? 0) + (1 - shrinkWeight) * priorMean;
      expect(posteriorMean).toBeCloseTo(mixed, 12);
    }
  });

  test('an option without exposure has the common rate and leaves the fit alone', () => {
    const more = fitted([...events, 0], [...exposure, 0]);
    expect(more.shape).toBe(fitted(events, exposure).shape);
    expect(more.options.at(-1)).toMatchObject({ raw: null, shrinkWeight: 0 });
    expect(more.options.at(-1)?.posteriorMean).toBeCloseTo(more.priorMean, 12);
  });
});

describe('at the edges', () => {
  test('less spread than chance: the common rate with its own limits', () => {
    const fit = gammaPoissonFit(paired([10, 11, 9, 10], [20, 20, 20, 20]), { level: 0.9 });
    expect(fit).toMatchObject({ kind: 'pooled', priorMean: 0.5, notes: [expect.any(String)] });
    if (fit.kind !== 'pooled') return;
    for (const option of fit.options) {
      expect(option.posteriorMean).toBe(0.5);
      expect(option.posteriorLower).toBeLessThan(0.45);
      expect(option.posteriorUpper).toBeGreaterThan(0.55);
    }
  });

  test('effective counts need not be whole', () => {
    expect(fitted([1.7, 0.4, 6.2, 2.9], [3, 4.5, 2, 5]).shape).toBeGreaterThan(0);
  });

  test.each([
    ['no option', [], []],
    ['one option', [3], [9]],
    ['one option tried', [3, 0], [9, 0]],
    ['no event', [0, 0, 0], [4, 5, 6]],
  ])('%s: cannot be said', (_, events, exposure) => {
    const got = gammaPoissonFit(paired(events, exposure), { level: 0.95 });
    expect(got).toEqual({ kind: 'not-estimable', reason: expect.stringMatching(/^(It|Nothing) /) });
  });

  test.each([
    [[1], [0]],
    [[-1], [2]],
    [[1], [Number.POSITIVE_INFINITY]],
  ])('%j in %j is a mistake of the caller', (events, exposure) => {
    expect(() => gammaPoissonFit(paired(events, exposure), { level: 0.95 })).toThrow('cannot be');
  });
});
