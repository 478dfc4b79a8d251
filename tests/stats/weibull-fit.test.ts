import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Life } from '../../src/stats/kaplan-meier-lives.ts';
import { Random } from '../../src/stats/random.ts';
import {
  fitWeibull,
  type WeibullFit,
  weibullMean,
  weibullMedian,
} from '../../src/stats/weibull-fit.ts';
import { expectClose, loadCheckValue, loadData, loadReference } from '../helpers/reference.ts';
import { livesFrom, type SurvivalInputs } from '../helpers/survival-inputs.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

type WeibullInputs = SurvivalInputs & Record<string, unknown>;

function fitted(...call: Parameters<typeof fitWeibull>): WeibullFit {
  const fit = fitWeibull(...call);
  if (fit.kind !== 'fitted') throw new Error(fit.reason);
  return fit;
}

/** Names and number columns of a case's covariates, text in treatment coding as R does it. */
function covariatesOf(inputs: WeibullInputs): { terms: string[]; columns: number[][] } {
  const names = (inputs.model ?? '').split('~')[1]?.trim().split(' + ') ?? [];
  const parts = names
    .filter((name) => name !== '1')
    .flatMap((name) => {
      const values = (inputs[name] ?? loadData('lung')[name]) as (string | number)[];
      if (values.every((value) => !Number.isNaN(Number(value))))
        return [{ term: name, column: values.map(Number) }];
      const levels = [...new Set(values)].sort().slice(1);
      return levels.map((level) => ({
        term: `${name}${level}`,
        column: values.map((value) => (value === level ? 1 : 0)),
      }));
    });
  return { terms: parts.map((p) => p.term), columns: parts.map((p) => p.column) };
}

describe('reference cases 09-survival (own R Newton code; second route R survival::survreg)', () => {
  test.each(loadReference<WeibullInputs>('09-survival', 'weibull-'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const { terms, columns } = covariatesOf(inputs);
      const fit = fitted(livesFrom(inputs), { level: 0.95, covariates: columns });
      const { shape, scale } = fit;
      const got = {
        coefficients: Object.fromEntries(
          ['(Intercept)', ...terms].map((term, j) => [term, fit.coefficients[j]]),
        ),
        logSigma: named(fit.logSigma),
        vcov: fit.covariance,
        logLik: fit.logLikelihood,
        sigma: named(Math.exp(fit.logSigma)),
        shape: named(shape.estimate),
        seShape: named(shape.standardError),
        shapeLower95: named(shape.lower),
        shapeUpper95: named(shape.upper),
        scale: named(scale?.estimate),
        seScale: named(scale?.standardError),
        scaleLower95: named(scale?.lower),
        scaleUpper95: named(scale?.upper),
        medianTime: named(weibullMedian(fit)),
        meanTime: named(weibullMean(fit)),
      };
      expectClose(got, expected, tolerance);
    },
  );
});

/** The files carry some single numbers under the name of the R coefficient they came from. */
const named = (value: unknown) => ({ '1': value, '(Intercept)': value });

describe('published figures: Freireich et al. 1963 (R MASS::gehan)', () => {
  const treated = livesFrom(loadCheckValue<SurvivalInputs>('km-6mp').inputs);
  const control = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23];

  test('weibull-6mp', () => {
    const { expected, tolerance } = loadCheckValue('weibull-6mp');
    const fit = fitted(treated, { level: 0.95 });
    const got = { shape: fit.shape.estimate, scale: fit.scale?.estimate };
    expectClose(got, expected, tolerance);
  });

  test('weibull-aft-gehan', () => {
    const { expected, tolerance } = loadCheckValue<never, Record<string, number>>(
      'weibull-aft-gehan',
    );
    const lives = [...treated, ...control.map((time) => ({ time, event: true }))];
    const isControl = lives.map((_, i) => (i < treated.length ? 0 : 1));
    const fit = fitted(lives, { level: 0.95, covariates: [isControl] });
    const [intercept, effect] = fit.coefficients;
    const { coef = { abs: 0 } } = tolerance.byKey ?? {};
    const byKey = { ...tolerance.byKey, intercept: coef, control: coef, sigma: coef };
    const got = {
      intercept,
      control: effect,
      sigma: Math.exp(fit.logSigma),
      loglik: fit.logLikelihood,
    };
    expectClose(got, expected, { ...tolerance, byKey });
  });
});

const spread = fc
  .array(fc.record({ time: fc.integer({ min: 1, max: 400 }), event: fc.boolean() }), {
    minLength: 6,
    maxLength: 30,
  })
  .filter((lives) => fitWeibull(lives, { level: 0.9 }).kind === 'fitted');

describe('laws', () => {
  test('a time unit k times as small multiplies the scale by k and leaves the shape', () => {
    fc.assert(
      fc.property(spread, fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (lives, k) => {
        const fit = fitted(lives, { level: 0.9 });
        const scaled = fitted(
          lives.map(({ time, event }) => ({ time: time * k, event })),
          { level: 0.9 },
        );
        expect(scaled.shape.estimate / fit.shape.estimate).toBeCloseTo(1, 7);
        expect((scaled.scale?.lower ?? 0) / ((fit.scale?.lower ?? 0) * k)).toBeCloseTo(1, 6);
      }),
      { numRuns: 40 },
    );
  });

  test('the fit is a maximum: the score of shape and scale is 0 there', () => {
    fc.assert(
      fc.property(spread, (lives) => {
        const { shape, scale, events } = fitted(lives, { level: 0.9 });
        const k = shape.estimate;
        const powers = lives.map(({ time }) => (time / (scale?.estimate ?? 1)) ** k);
        expect(powers.reduce((sum, v) => sum + v, 0) / events).toBeCloseTo(1, 8);
        const score = lives.reduce((sum, { time, event }, i) => {
          const log = Math.log(time / (scale?.estimate ?? 1));
          return sum + (event ? 1 / k + log : 0) - (powers[i] as number) * log;
        }, 0);
        expect((score * k) / events).toBeCloseTo(0, 7);
      }),
      { numRuns: 40 },
    );
  });

  test('the shape interval holds the truth in about 95 of 100 (seed 7, 30 lives, half censored)', () => {
    const random = new Random(7);
    let held = 0;
    for (let run = 0; run < 400; run++) {
      const lives = Array.from({ length: 30 }, () => {
        const time = 40 * (-Math.log(1 - random.uniform())) ** (1 / 1.8);
        return { time: Math.min(time, 36), event: time <= 36 };
      });
      const { lower, upper } = fitted(lives, { level: 0.95 }).shape;
      if (lower <= 1.8 && 1.8 <= upper) held++;
    }
    expect(held / 400).toBeGreaterThan(0.92);
    expect(held / 400).toBeLessThan(0.98);
  });
});

describe('what cannot be said', () => {
  const life = (time: number, event: boolean): Life => ({ time, event });
  const group = [0, 0, 0, 1, 1, 1];
  const some = [4, 9, 12, 7, 11, 15].map((time, i) => life(time, i < 3));

  test.each([
    ['no lives', [], 'No life has ended'],
    ['all censored', [life(3, false), life(8, false)], 'No life has ended'],
    ['a life of no length', [life(0, true), life(8, true)], 'length 0'],
    ['one life', [life(3, true)], 'as long as the longest one watched'],
    [
      'all at the longest',
      [life(8, true), life(8, true), life(2, false)],
      'as long as the longest',
    ],
  ])('%s', (_, lives, reason) => {
    const fit = fitWeibull(lives, { level: 0.95 });
    expect(fit).toMatchObject({ kind: 'not-estimable' });
    expect(fit.kind === 'not-estimable' && fit.reason).toContain(reason);
  });

  test('a group in which nothing ended', () => {
    const fit = fitWeibull(some, { level: 0.95, covariates: [group] });
    expect(fit).toMatchObject({ kind: 'not-estimable' });
    expect(fit.kind === 'not-estimable' && fit.reason).toContain('No Weibull law fits best');
  });

  test('covariates that repeat each other or never change', () => {
    const lives = some.map(({ time }) => life(time, true));
    const double = group.map((v) => 3 - 2 * v);
    for (const covariates of [[group, double], [group.map(() => 5)], [group.map(() => 0)]])
      expect(fitWeibull(lives, { level: 0.95, covariates })).toMatchObject({
        kind: 'not-estimable',
        reason: 'The covariates repeat each other.',
      });
  });

  test('a shape far from 1 and times in millions are no trouble', () => {
    const lives = [1e6, 1.01e6, 1.02e6, 0.99e6].map((time) => life(time, true));
    const fit = fitted(lives, { level: 0.95 });
    expect(fit.shape.estimate).toBeGreaterThan(50);
    const steep = fitted(
      [1e-6, 1, 1e6, 1e9].map((time) => life(time, true)),
      { level: 0.95 },
    );
    expect(steep.shape.estimate).toBeLessThan(0.2);
  });
});
