import { describe, expect, test } from 'vitest';
import {
  binomialAtLeast,
  binomialAtMost,
  logBinomialProbability,
} from '../../src/stats/binomial.ts';

describe('binomial probabilities against R 4.2.2', () => {
  // dbinom(k, n, p)
  test.each([
    [300, 1000, 0.3, 0.0275210038212684],
    [5, 1e6, 1e-6, 0.00306564514862799],
    [4e8, 1e9, 0.4, 2.57516134614171e-5],
  ])('P(X = %d) of %d at %d', (k, n, p, expected) => {
    const got = Math.exp(logBinomialProbability(k, { n, p }));
    expect(Math.abs(got / expected - 1)).toBeLessThan(1e-11);
  });

  // pbinom(k, n, p), and 1 − pbinom(k − 1, n, p) for the last
  test.each([
    [290, 1000, 0.3, 0.256908399484376],
    [7, 30, 0.4, 0.043524118996555],
    [120, 1000, 0.3, 1.11768461374708e-41],
  ])('P(X ≤ %d) of %d at %d', (k, n, p, expected) => {
    expect(Math.abs(binomialAtMost(k, { n, p }) / expected - 1)).toBeLessThan(1e-12);
  });

  test('P(X ≥ 5) of 1000000 at 0.000001', () => {
    const got = binomialAtLeast(5, { n: 1e6, p: 1e-6 });
    expect(Math.abs(got / 0.00365982383490228 - 1)).toBeLessThan(1e-12);
  });
});

test('all counts together have probability 1, and tails are sums', () => {
  const trials = { n: 9, p: 0.35 };
  const chances = Array.from({ length: 10 }, (_, k) => Math.exp(logBinomialProbability(k, trials)));
  let sum = 0;
  for (const [k, chance] of chances.entries()) {
    expect(binomialAtLeast(k, trials)).toBeCloseTo(1 - sum, 13);
    sum += chance;
    expect(binomialAtMost(k, trials)).toBeCloseTo(sum, 13);
  }
  expect(sum).toBeCloseTo(1, 13);
});

test('what is certain, and what cannot happen', () => {
  expect(logBinomialProbability(0, { n: 0, p: 0.3 })).toBe(0);
  expect(Math.exp(logBinomialProbability(0, { n: 4, p: 0 }))).toBe(1);
  expect(Math.exp(logBinomialProbability(4, { n: 4, p: 1 }))).toBe(1);
  expect(logBinomialProbability(2, { n: 4, p: 0 })).toBe(Number.NEGATIVE_INFINITY);
  expect([binomialAtMost(-1, { n: 4, p: 0.5 }), binomialAtMost(4, { n: 4, p: 0.5 })]).toEqual([
    0, 1,
  ]);
  expect([binomialAtLeast(0, { n: 4, p: 0.5 }), binomialAtLeast(5, { n: 4, p: 0.5 })]).toEqual([
    1, 0,
  ]);
});
