import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type CountDistribution,
  countCdf,
  countMean,
  countPmf,
  countQuantile,
  countTail,
  countVariance,
  expectedExcess,
} from '../../src/stats/count-distribution.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

interface DemandInputs {
  distribution: 'poisson' | 'negativeBinomial';
  mean: number;
  size?: number;
  probabilities: number[];
  k: number[];
}

const poisson = (mean: number): CountDistribution => ({ family: 'poisson', mean });
const nb = (mean: number, size: number): CountDistribution => ({
  family: 'negative-binomial',
  mean,
  size,
});

describe('reference cases 10-stocking (R stats)', () => {
  const cases = ['poisson-quantiles', 'nb-quantiles'].flatMap((prefix) =>
    loadReference<DemandInputs>('10-stocking', prefix),
  );
  test.each(cases)('$id', ({ inputs, expected, tolerance }) => {
    const law = inputs.size === undefined ? poisson(inputs.mean) : nb(inputs.mean, inputs.size);
    const got = {
      quantiles: inputs.probabilities.map((p) => countQuantile(law, p)),
      pmf: inputs.k.map((k) => countPmf(law, k)),
      cdf: inputs.k.map((k) => countCdf(law, k)),
    };
    expectClose(got, expected, tolerance);
  });

  test('newsvendor-discrete: quantiles and distribution of NB and Poisson', () => {
    const { expected, tolerance } = loadCheckValue('newsvendor-discrete');
    const got = {
      Q: [
        countQuantile(poisson(12), 0.8),
        countQuantile(nb(12, 3), 0.8),
        countQuantile(nb(12, 3), 0.95),
        countQuantile(nb(8, 2), 0.75),
      ],
      cdf_at_11_and_10_last: [countCdf(nb(8, 2), 11), countCdf(nb(8, 2), 10)],
    };
    const byKey = { ...tolerance.byKey, cdf_at_11_and_10_last: { rel: 0, abs: 1e-8 } };
    expectClose(got, expected, { ...tolerance, byKey });
  });
});

describe('reference cases 23-count-laws (mpmath at 40 to 60 digits)', () => {
  test.each(loadReference<{ mean: number; size?: number; k: number }>('23-count-laws'))(
    '$id',
    ({ inputs: { mean, size, k }, expected, tolerance }) => {
      const law = size === undefined ? poisson(mean) : nb(mean, size);
      const got = { pmf: countPmf(law, k), cdf: countCdf(law, k), tail: countTail(law, k) };
      expectClose(got, expected, tolerance);
    },
  );
});

const laws = fc.oneof(
  fc.double({ min: 0.01, max: 300, noNaN: true }).map(poisson),
  fc
    .tuple(
      fc.double({ min: 0.01, max: 300, noNaN: true }),
      fc.double({ min: 0.05, max: 1000, noNaN: true }),
    )
    .map(([mean, size]) => nb(mean, size)),
);

describe('laws', () => {
  test('the quantile is the smallest count that is enough, and never falls as more is asked', () => {
    const chances = fc.tuple(
      fc.double({ min: 0.01, max: 0.995, noNaN: true }),
      fc.double({ min: 0.01, max: 0.995, noNaN: true }),
    );
    fc.assert(
      fc.property(laws, chances, (law, [p, other]) => {
        const k = countQuantile(law, p);
        expect(countCdf(law, k)).toBeGreaterThanOrEqual(p - 1e-12);
        if (k > 0) expect(countCdf(law, k - 1)).toBeLessThan(p);
        if (other >= p) expect(countQuantile(law, other)).toBeGreaterThanOrEqual(k);
      }),
    );
  });

  test('so is the quantile of a mixture, however far apart or heavy its parts are', () => {
    const chance = fc.double({ min: 0.01, max: 0.9999, noNaN: true });
    const part = fc.record({ weight: fc.double({ min: 0.01, max: 1, noNaN: true }), of: laws });
    const far: CountDistribution[] = [
      { family: 'mixture', parts: [{ weight: 1, of: poisson(5000) }] },
      { family: 'mixture', parts: [{ weight: 1, of: nb(80_000, 0.05) }] },
    ];
    const mixtures = fc.oneof(
      fc
        .array(part, { minLength: 1, maxLength: 6 })
        .map((parts): CountDistribution => ({ family: 'mixture', parts })),
      fc.constantFrom(...far),
    );
    fc.assert(
      fc.property(mixtures, chance, (law, p) => {
        const k = countQuantile(law, p);
        expect(countCdf(law, k)).toBeGreaterThanOrEqual(p - 1e-12);
        if (k > 0) expect(countCdf(law, k - 1)).toBeLessThan(p + 1e-12);
      }),
    );
  });

  test('tails add up to 1 and step by the probabilities', () => {
    fc.assert(
      fc.property(laws, fc.integer({ min: 1, max: 500 }), (law, k) => {
        expect(countCdf(law, k) + countTail(law, k)).toBeCloseTo(1, 13);
        expect(countTail(law, k - 1) - countTail(law, k)).toBeCloseTo(countPmf(law, k), 12);
      }),
    );
  });

  test('the expected excess is the sum of all further tails', () => {
    fc.assert(
      fc.property(laws, fc.integer({ min: 0, max: 60 }), (law, stock) => {
        const end = countQuantile(law, 1 - 1e-13);
        let sum = 0;
        for (let k = Math.max(end, stock) + 20; k >= stock; k--) sum += countTail(law, k);
        expect(expectedExcess(law, stock)).toBeCloseTo(sum, 6);
      }),
      { numRuns: 40 },
    );
  });

  test('a mixture of one part is that part, and of two lies between them', () => {
    fc.assert(
      fc.property(laws, laws, fc.integer({ min: 0, max: 200 }), (a, b, k) => {
        const alone: CountDistribution = { family: 'mixture', parts: [{ weight: 3, of: a }] };
        expect(countCdf(alone, k)).toBe(countCdf(a, k));
        const parts = [a, b].map((of) => ({ weight: 1, of }));
        const both: CountDistribution = { family: 'mixture', parts };
        expect(countTail(both, k)).toBeCloseTo((countTail(a, k) + countTail(b, k)) / 2, 12);
        const end = countMean(both) + 80 * Math.sqrt(countVariance(both)) + 200;
        if (end > 9000) return;
        let square = 0;
        for (let j = 0; j < end; j++) square += j * j * countPmf(both, j);
        expect(countVariance(both) / (square - countMean(both) ** 2)).toBeCloseTo(1, 4);
      }),
      { numRuns: 30 },
    );
  });
});

describe('ends and mistakes', () => {
  test('a mean of 0 is never used', () => {
    for (const law of [poisson(0), nb(0, 2)]) {
      expect(countPmf(law, 0)).toBe(1);
      expect(countPmf(law, 4)).toBe(0);
      expect(countTail(law, 0)).toBe(0);
      expect(countQuantile(law, 0.999)).toBe(0);
      expect(expectedExcess(law, 0)).toBe(0);
    }
  });

  test('what was seen before, as it is', () => {
    const seen: CountDistribution = { family: 'empirical', counts: [4, 0, 9, 4] };
    expect(countQuantile(seen, 0.75)).toBe(4);
    expect(countQuantile(seen, 1)).toBe(9);
    expect(countMean(seen)).toBe(4.25);
    expect(countVariance(seen)).toBeCloseTo(10.1875, 12);
    expect(countPmf(seen, 4)).toBe(0.5);
    expect(expectedExcess(seen, 4)).toBe(1.25);
  });

  test('means of a thousand million', () => {
    for (const law of [poisson(1e9), nb(1e9, 4)]) {
      const k = countQuantile(law, 0.9);
      expect(countCdf(law, k)).toBeCloseTo(0.9, 5);
      expect(expectedExcess(law, k)).toBeGreaterThan(0);
    }
    expect(countQuantile(poisson(1e9), 0.5)).toBe(1e9);
  });

  test('certainty has no end, and impossible parameters are refused', () => {
    expect(countQuantile(poisson(3), 1)).toBe(Number.POSITIVE_INFINITY);
    expect(() => countQuantile(poisson(3), 1.2)).toThrow('between 0 and 1');
    expect(() => countCdf(poisson(-1), 3)).toThrow('A mean count is 0 or more, not -1.');
    expect(() => countCdf(nb(3, 0), 3)).toThrow('size is above 0, not 0');
  });
});
