import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TestOutcome } from '../../src/base/test-outcome.ts';
import { type MatchedPairs, mcnemarDifference, mcnemarTest } from '../../src/stats/mcnemar.ts';
import {
  type ClusterOfPairs,
  mcnemarDurkalski,
  mcnemarObuchowski,
} from '../../src/stats/mcnemar-clustered.ts';
import { mcnemarExact } from '../../src/stats/mcnemar-exact.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

const how = { level: 0.95 };
const statistic = (outcome: TestOutcome) => (outcome.kind === 'tested' ? outcome.statistic : null);

// tests/reference/05-stratified.json: R 4.2.2, stats::mcnemar.test and binom.test.
const cases = loadReference<MatchedPairs & { level: number }>('05-stratified').filter(
  ({ inputs }) => 'onlyFirst' in inputs,
);
test.each(cases.map((entry) => [entry.id, entry] as const))(
  'against R: %s',
  (_, { inputs, expected, tolerance }) => {
    const difference = mcnemarDifference(inputs, inputs);
    const exact = mcnemarExact(inputs, inputs);
    const got = {
      difference: difference.kind === 'estimated' ? difference.estimate : null,
      seDifference: difference.standardError,
      wald: difference,
      conditionalOddsRatio: exact.kind === 'estimated' ? exact.estimate : null,
      logSe: exact.logStandardError,
      exactOddsRatio: exact,
      chiSquare: mcnemarTest(inputs, { continuity: false }),
      chiSquareContinuity: mcnemarTest(inputs, { continuity: true }),
      pExact: exact.p,
      pMidP: exact.midP,
    };
    expectClose(got, expected, tolerance);
  },
);

describe('published values', () => {
  // Eliasziw & Donner 1991 (psychiatry) and Obuchowski 1998 (thyroid scans), as analysed by
  // Durkalski et al. 2003, Stat Med 22:2417: 11.85 / 7.19 / 7.542 and 4.5 / 2.86 / 2.32.
  test.each(['psychiatry', 'thyroid'])('clustered pairs: %s', (name) => {
    const { inputs, expected, tolerance } = loadCheckValue<
      { n: number[]; b: number[]; c: number[] },
      Record<string, number>
    >(`mcnemar-clustered-${name}`);
    const clusters = inputs.n.map(
      (pairs, i): ClusterOfPairs => ({
        pairs,
        onlyFirst: inputs.b[i] as number,
        onlySecond: inputs.c[i] as number,
      }),
    );
    const total = (of: (cluster: ClusterOfPairs) => number) =>
      clusters.reduce((sum, cluster) => sum + of(cluster), 0);
    const [onlyFirst, onlySecond] = [total((c) => c.onlyFirst), total((c) => c.onlySecond)];
    const neither = total((c) => c.pairs) - onlyFirst - onlySecond;
    const pairs = { bothYes: 0, onlyFirst, onlySecond, neither };
    const got = {
      mcnemar_no_cc: statistic(mcnemarTest(pairs, { continuity: false })),
      obuchowski: statistic(mcnemarObuchowski(clusters)),
      durkalski: statistic(mcnemarDurkalski(clusters)),
      K: clusters.length,
      N: total((c) => c.pairs),
      sum_b: onlyFirst,
      sum_c: onlySecond,
    };
    expectClose(got, expected, tolerance);
  });

  // Agresti, Categorical Data Analysis: approval of the Prime Minister; R's mcnemar.test help page.
  test('approval ratings', () => {
    const { inputs, expected, tolerance } = loadCheckValue<{
      table: [[number, number], [number, number]];
    }>('mcnemar-approval');
    const [[bothYes, onlyFirst], [onlySecond, neither]] = inputs.table;
    const pairs = { bothYes, onlyFirst, onlySecond, neither };
    const got = {
      chi2: statistic(mcnemarTest(pairs, { continuity: false })),
      chi2_cc: statistic(mcnemarTest(pairs, { continuity: true })),
    };
    expectClose(got, expected, tolerance);
  });
});

describe('laws', () => {
  const count = fc.integer({ min: 0, max: 40 });
  const pairs = fc.record({ bothYes: count, onlyFirst: count, onlySecond: count, neither: count });

  test('swapping the members mirrors the difference, inverts the odds ratio, leaves the tests', () => {
    fc.assert(
      fc.property(pairs, (here) => {
        const there = { ...here, onlyFirst: here.onlySecond, onlySecond: here.onlyFirst };
        const [d, e] = [mcnemarDifference(here, how), mcnemarDifference(there, how)];
        expect(e.kind).toBe(d.kind);
        if (d.kind === 'estimated' && e.kind === 'estimated')
          expect(e.upper).toBeCloseTo(-d.lower, 12);
        const [r, s] = [mcnemarExact(here, how), mcnemarExact(there, how)];
        if (r.kind === 'estimated' && s.kind === 'estimated')
          expectClose(1 / s.upper, r.lower, { rel: 1e-9, abs: 0 });
        expectClose(
          mcnemarTest(there, { continuity: true }),
          { ...mcnemarTest(here, { continuity: true }) },
          { rel: 1e-12, abs: 0 },
        );
        expectClose([s.p, s.midP], [r.p, r.midP], { rel: 1e-12, abs: 0 });
      }),
    );
  });

  test('exact p is the binomial sum written out', () => {
    const choose = (n: number, k: number): number =>
      k === 0 ? 1 : (choose(n, k - 1) * (n - k + 1)) / k;
    const { p, midP } = mcnemarExact({ bothYes: 3, onlyFirst: 11, onlySecond: 4, neither: 2 }, how);
    const atMost = [0, 1, 2, 3, 4].reduce((sum, k) => sum + choose(15, k), 0) / 2 ** 15;
    expect(p).toBeCloseTo(2 * atMost, 14);
    expect(midP).toBeCloseTo(2 * atMost - choose(15, 4) / 2 ** 15, 14);
  });

  test('clusters of one pair: Durkalski’s test is McNemar’s', () => {
    const clusters = [1, 1, 1, 0, 0, 1, -1, -1].map((lean) => ({
      pairs: 1,
      onlyFirst: lean > 0 ? 1 : 0,
      onlySecond: lean < 0 ? 1 : 0,
    }));
    const together = { bothYes: 2, onlyFirst: 4, onlySecond: 2, neither: 0 };
    expect(statistic(mcnemarDurkalski(clusters))).toBeCloseTo(
      statistic(mcnemarTest(together, { continuity: false })) as number,
      12,
    );
  });

  test('a thousand million pairs: the exact limits close on the normal ones', () => {
    const many = { bothYes: 4e8, onlyFirst: 2e8, onlySecond: 1.999e8, neither: 2.001e8 };
    const exact = mcnemarExact(many, how);
    if (exact.kind !== 'estimated') expect.fail(exact.reason);
    const margin = 1.959963984540054 * (exact.logStandardError as number); // R: qnorm(.975)
    expect(exact.lower / exact.estimate).toBeCloseTo(Math.exp(-margin), 7);
    expect(exact.upper / exact.estimate).toBeCloseTo(Math.exp(margin), 7);
  });
});

describe('what cannot be said, and why', () => {
  const pairs = (bothYes: number, onlyFirst: number, onlySecond: number, neither: number) => ({
    bothYes,
    onlyFirst,
    onlySecond,
    neither,
  });

  test('no pairs, no differing pairs, all pairs differing one way', () => {
    expect(mcnemarDifference(pairs(0, 0, 0, 0), how)).toMatchObject({
      reason: 'There are no pairs.',
    });
    const alike = pairs(5, 0, 0, 4);
    expect(mcnemarDifference(alike, how)).toMatchObject({
      reason: expect.stringContaining('both members are alike'),
    });
    expect(mcnemarExact(alike, how)).toMatchObject({
      reason: expect.stringContaining('No pair differs'),
      p: null,
    });
    expect(mcnemarTest(alike, { continuity: false })).toMatchObject({
      reason: expect.stringContaining('No pair differs'),
    });
    expect(mcnemarDifference(pairs(0, 4, 0, 0), how)).toMatchObject({
      reason: expect.stringContaining('in the same way'),
    });
  });

  test('clusters that do not lean, or too few of them', () => {
    const even = { pairs: 4, onlyFirst: 1, onlySecond: 1 };
    expect(mcnemarDurkalski([even, even])).toMatchObject({
      reason: expect.stringContaining('No cluster leans'),
    });
    expect(mcnemarObuchowski([{ ...even, onlySecond: 0 }])).toMatchObject({
      reason: expect.stringContaining('two clusters'),
    });
    expect(mcnemarDurkalski([])).toMatchObject({ reason: 'There are no pairs.' });
  });

  test('impossible counts are refused in words', () => {
    expect(() => mcnemarTest(pairs(1, -1, 2, 3), { continuity: true })).toThrow('not 1, -1, 2, 3');
    expect(() => mcnemarDurkalski([{ pairs: 2, onlyFirst: 2, onlySecond: 1 }])).toThrow(
      'A cluster of 2 pairs',
    );
  });
});
