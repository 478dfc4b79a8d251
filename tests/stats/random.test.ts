import { describe, expect, test } from 'vitest';
import { Random } from '../../src/stats/random.ts';

const DRAWS = 40_000;

/** Sample mean and variance of many draws from one seed. */
function moments(draw: (random: Random) => number): { mean: number; variance: number } {
  const random = new Random(20_240_611);
  const values = Array.from({ length: DRAWS }, () => draw(random));
  const mean = values.reduce((sum, value) => sum + value, 0) / DRAWS;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / DRAWS;
  return { mean, variance };
}

describe('draws have the mean and variance of their distribution (formulas of any textbook)', () => {
  // Four Monte Carlo standard errors: sd/√n for a mean, about variance·√((kurtosis − 1)/n) for a variance.
  test.each([
    ['uniform', (r: Random) => r.uniform(), 0.5, 1 / 12, 1.8],
    ['integer below 6', (r: Random) => r.integer(6), 2.5, 35 / 12, 1.8],
    ['normal', (r: Random) => r.normal(), 0, 1, 3],
    ['gamma of shape 0.3', (r: Random) => r.gamma(0.3), 0.3, 0.3, 3 + 6 / 0.3],
    ['gamma of shape 7', (r: Random) => r.gamma(7), 7, 7, 3 + 6 / 7],
    ['beta(2, 5)', (r: Random) => r.beta(2, 5), 2 / 7, 10 / (49 * 8), 3],
    ['Poisson of mean 0.5', (r: Random) => r.poisson(0.5), 0.5, 0.5, 5],
    ['Poisson of mean 29.9', (r: Random) => r.poisson(29.9), 29.9, 29.9, 3.1],
    ['Poisson of mean 30', (r: Random) => r.poisson(30), 30, 30, 3.1],
    ['Poisson of mean 4000', (r: Random) => r.poisson(4000), 4000, 4000, 3],
    ['binomial of 12, 0.2', (r: Random) => r.binomial(12, 0.2), 2.4, 1.92, 3.1],
    ['binomial of 500, 0.7', (r: Random) => r.binomial(500, 0.7), 350, 105, 3],
    ['binomial of 1e9, 0.4', (r: Random) => r.binomial(1e9, 0.4), 4e8, 2.4e8, 3],
    ['negative binomial', (r: Random) => r.negativeBinomial(5, 2), 5, 17.5, 6.1],
  ] as const)('%s', (_, draw, mean, variance, kurtosis) => {
    const got = moments(draw);
    expect(Math.abs(got.mean - mean)).toBeLessThan(4 * Math.sqrt(variance / DRAWS));
    const spread = variance * Math.sqrt((kurtosis - 1) / DRAWS);
    expect(Math.abs(got.variance - variance)).toBeLessThan(4 * spread);
  });
});

test('Poisson and binomial counts fall into their cells as often as they should', () => {
  const random = new Random(7);
  const counts = new Map<number, number>();
  for (let draw = 0; draw < DRAWS; draw++) {
    const value = random.binomial(6, 0.35);
    counts.set(value, (counts.get(value) ?? 0) + 1);
  }
  const choose = [1, 6, 15, 20, 15, 6, 1];
  const chiSquare = choose.reduce((sum, ways, k) => {
    const wanted = DRAWS * ways * 0.35 ** k * 0.65 ** (6 - k);
    return sum + ((counts.get(k) ?? 0) - wanted) ** 2 / wanted;
  }, 0);
  // Upper 0.1 % point of chi-square with 6 degrees of freedom, any printed table: 22.458.
  expect(chiSquare).toBeLessThan(22.458);
});

describe('the stream', () => {
  const first = (seed: number) => {
    const random = new Random(seed);
    return Array.from({ length: 5 }, () => random.uniform());
  };

  test('is the same for the same seed and another for the next', () => {
    expect(first(42)).toEqual(first(42));
    expect(first(42)).not.toEqual(first(43));
  });

  test('first numbers of neighbouring seeds are not alike', () => {
    const seeds = 4000;
    const numbers = Array.from({ length: seeds }, (_, seed) => new Random(seed).uniform() - 0.5);
    const lagged = numbers.reduce((sum, value, at) => sum + value * (numbers[at - 1] ?? 0), 0);
    expect(Math.abs(lagged / (seeds / 12))).toBeLessThan(4 / Math.sqrt(seeds));
  });

  test('regression: these numbers come from seed 1, here and on every machine', () => {
    expect(first(1).map((value) => value.toFixed(6))).toEqual([
      '0.503499',
      '0.488304',
      '0.584448',
      '0.226143',
      '0.519688',
    ]);
  });
});

test('a permutation holds every number once and moves the first to each place alike', () => {
  const random = new Random(3);
  const places = new Array<number>(5).fill(0);
  for (let draw = 0; draw < 5000; draw++) {
    const order = random.permutation(5);
    expect([...order].sort()).toEqual([0, 1, 2, 3, 4]);
    const place = order.indexOf(0);
    places[place] = (places[place] ?? 0) + 1;
  }
  for (const count of places) expect(Math.abs(count - 1000)).toBeLessThan(4 * Math.sqrt(800));
});

test('boundaries: what is certain is drawn as such, nonsense is refused in words', () => {
  const random = new Random(0);
  expect([random.poisson(0), random.binomial(0, 0.5), random.binomial(9, 0)]).toEqual([0, 0, 0]);
  expect([random.binomial(9, 1), random.integer(1)]).toEqual([9, 0]);
  expect(random.permutation(0)).toEqual([]);
  expect(() => new Random(1.5)).toThrow('whole number');
  expect(() => new Random(-1)).toThrow('whole number');
  expect(() => random.integer(0)).toThrow('at least 1');
  expect(() => random.poisson(Number.NaN)).toThrow('Poisson mean');
  expect(() => random.binomial(3, 1.2)).toThrow('probability');
  expect(() => random.gamma(0)).toThrow('gamma shape');
});
