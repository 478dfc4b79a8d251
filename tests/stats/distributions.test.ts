import { describe, expect, test } from 'vitest';
import * as d from '../../src/stats/distributions.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

const TOPIC = '13-distributions';

interface Parameters {
  df: number;
  df1: number;
  df2: number;
  shape: number;
  rate: number;
  a: number;
  b: number;
}

type Quantile = (p: number, parameters: Parameters) => number;

const QUANTILES: Record<string, { lower: Quantile; upper: Quantile; complement?: Quantile }> = {
  normal: { lower: d.normalQuantile, upper: d.normalUpperQuantile },
  t: { lower: (p, { df }) => d.tQuantile(p, df), upper: (p, { df }) => d.tUpperQuantile(p, df) },
  chisq: {
    lower: (p, { df }) => d.chiSquareQuantile(p, df),
    upper: (p, { df }) => d.chiSquareUpperQuantile(p, df),
  },
  gamma: {
    lower: (p, { shape, rate }) => d.gammaQuantile(p, shape) / rate,
    upper: (p, { shape, rate }) => d.gammaUpperQuantile(p, shape) / rate,
  },
  beta: {
    lower: (p, { a, b }) => d.betaQuantile(p, a, b),
    upper: (p, { a, b }) => d.betaUpperQuantile(p, a, b),
  },
  F: {
    lower: (p, { df1, df2 }) => d.fQuantile(p, df1, df2),
    upper: (p, { df1, df2 }) => d.fUpperQuantile(p, df1, df2),
  },
};

const TAILS: Record<string, (x: number, parameters: Parameters) => object> = {
  normal: d.normalTails,
  t: (x, { df }) => d.tTails(x, df),
  chisq: (x, { df }) => d.chiSquareTails(x, df),
  gamma: (x, { shape, rate }) => d.gammaTails(x * rate, shape),
  beta: (x, { a, b }) => d.betaTails(x, a, b),
  F: (x, { df1, df2 }) => d.fTails(x, df1, df2),
};

describe('quantiles against 45-digit arithmetic', () => {
  interface Inputs {
    distribution: string;
    parameters: Parameters;
    probability: number;
    tail: 'lower' | 'upper';
  }
  test.each(loadReference<Inputs>(TOPIC, 'q-'))('$id', ({ inputs, expected, tolerance }) => {
    const { distribution, parameters, probability, tail } = inputs;
    const x = QUANTILES[distribution]?.[tail](probability, parameters);
    const { a, b } = parameters;
    const swapped = tail === 'lower' ? d.betaUpperQuantile : d.betaQuantile;
    const oneMinusX = distribution === 'beta' ? swapped(probability, b, a) : null;
    expectClose({ x, oneMinusX }, expected, tolerance);
  });
});

describe('both tails and their logarithms against 45-digit arithmetic', () => {
  interface Inputs {
    distribution: string;
    parameters: Parameters;
    x: number;
  }
  test.each(loadReference<Inputs>(TOPIC, 'p-'))('$id', ({ inputs, expected, tolerance }) => {
    const { distribution, parameters, x } = inputs;
    expectClose(TAILS[distribution]?.(x, parameters), expected, tolerance);
  });
});

describe('special functions against 45-digit arithmetic', () => {
  interface Inputs {
    x: number;
    a: number;
    b: number;
  }
  test.each(loadReference<Inputs>(TOPIC, 'f-'))('$id', ({ inputs, expected, tolerance }) => {
    const { x, a, b } = inputs;
    const got =
      a === undefined
        ? {
            lgamma: d.logGamma(x),
            digamma: d.digamma(x),
            trigamma: d.trigamma(x),
            erf: d.erf(x),
            erfc: d.erfc(x),
          }
        : { lbeta: d.logBeta(a, b) };
    expectClose(got, expected, tolerance);
  });
});

describe('laws of distributions', () => {
  const shapes = [1e-3, 0.4, 1, 7.5, 300, 2e6];
  const probabilities = [1e-12, 0.003, 0.4, 0.5, 0.9];
  const near = (got: number, wanted: number) =>
    expect(Math.abs(got / wanted - 1), `${got} for ${wanted}`).toBeLessThan(1e-11);

  test('a quantile put back gives its probability, in either tail', () => {
    for (const shape of shapes)
      for (const p of probabilities) {
        // Below that the true quantile is smaller than any double.
        const lower = d.gammaQuantile(p, shape);
        if (lower > 1e-300) near(d.gammaTails(lower, shape).lower, p);
        const upper = d.gammaUpperQuantile(p, shape);
        if (upper > 1e-300) near(d.gammaTails(upper, shape).upper, p);
        near(d.tTails(d.tUpperQuantile(p, shape + 0.1), shape + 0.1).upper, p);
        near(d.fTails(d.fUpperQuantile(p, 3.5, shape + 1), 3.5, shape + 1).upper, p);
      }
  });

  test('t is the mirror of itself, and square of t is F on 1 degree of freedom', () => {
    for (const df of [1, 2.5, 40]) {
      expect(d.tQuantile(0.1, df)).toBe(-d.tUpperQuantile(0.1, df));
      near(d.tQuantile(0.95, df) ** 2, d.fQuantile(0.9, 1, df));
    }
  });

  test('t without end of degrees of freedom is normal', () => {
    expect(d.tQuantile(0.975, Number.POSITIVE_INFINITY)).toBe(d.normalQuantile(0.975));
    near(d.tQuantile(0.975, 1e12), d.normalQuantile(0.975));
  });

  test('ends of the support come back at 0 and 1', () => {
    expect([d.betaQuantile(0, 2, 3), d.betaQuantile(1, 2, 3)]).toEqual([0, 1]);
    expect([d.gammaQuantile(0, 2), d.gammaQuantile(1, 2)]).toEqual([0, Infinity]);
    expect([d.tQuantile(0, 2), d.tQuantile(1, 2)]).toEqual([-Infinity, Infinity]);
    expect([d.normalQuantile(0), d.normalQuantile(1)]).toEqual([-Infinity, Infinity]);
    expect(d.tCdf(0, 5)).toBe(0.5);
    expect([d.gammaCdf(0, 2), d.gammaCdf(Infinity, 2)]).toEqual([0, 1]);
    expect([d.betaCdf(0, 2, 3), d.betaCdf(1, 2, 3)]).toEqual([0, 1]);
  });

  test('what cannot be is refused in words', () => {
    expect(() => d.tQuantile(1.5, 3)).toThrow('A probability lies between 0 and 1, not at 1.5.');
    expect(() => d.normalQuantile(Number.NaN)).toThrow('probability');
    expect(() => d.gammaQuantile(0.5, 0)).toThrow('gamma distribution of shape 0');
    expect(() => d.betaQuantile(0.5, -1, 2)).toThrow('beta distribution of -1 and 2');
  });
});
