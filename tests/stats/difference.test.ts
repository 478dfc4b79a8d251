import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Estimate } from '../../src/base/estimate.ts';
import { agrestiCaffo } from '../../src/stats/difference-agresti-caffo.ts';
import { chiSquareTest } from '../../src/stats/difference-chi-square.ts';
import { newcombe, newcombeContinuity } from '../../src/stats/difference-newcombe.ts';
import { restrictedProportions } from '../../src/stats/difference-restricted-likelihood.ts';
import { mee, miettinenNurminen } from '../../src/stats/difference-score.ts';
import type { TwoProportions } from '../../src/stats/difference-two-proportions.ts';
import { waldDifference } from '../../src/stats/difference-wald.ts';
import { fisherExact } from '../../src/stats/fisher-exact.ts';
import { haldaneOddsRatio, woolfOddsRatio } from '../../src/stats/ratio-of-odds-woolf.ts';
import { katzRatio } from '../../src/stats/ratio-of-proportions-katz.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

const how = { level: 0.95 };
const counts = (x1: number, n1: number, x2: number, n2: number): TwoProportions => ({
  x1,
  n1,
  x2,
  n2,
});

/** Every method on one pair of counts, under the names of the reference cases. */
function everything(two: TwoProportions, level: number) {
  const fisher = fisherExact(two, { level });
  const wald = waldDifference(two, { level });
  const ratio = (figure: ReturnType<typeof katzRatio>) =>
    figure.kind === 'estimated' ? { ...figure, logSe: figure.logStandardError } : null;
  const chiSquare = (continuity: boolean) => {
    const outcome = chiSquareTest(two, { continuity });
    return outcome.kind === 'tested' ? outcome : { statistic: null, p: null };
  };
  return {
    difference: wald.kind === 'estimated' ? wald.estimate : null,
    wald,
    agrestiCaffo: agrestiCaffo(two, { level }),
    newcombeHybridScore: newcombe(two, { level }),
    newcombeHybridScoreContinuity: newcombeContinuity(two, { level }),
    mee: mee(two, { level }),
    miettinenNurminen: miettinenNurminen(two, { level }),
    riskRatioKatz: ratio(katzRatio(two, { level })),
    oddsRatioWoolf: ratio(woolfOddsRatio(two, { level })),
    oddsRatioHaldaneHalf: ratio(haldaneOddsRatio(two, { level })),
    chiSquare: chiSquare(false),
    chiSquareYates: chiSquare(true),
    fisher: {
      ...fisher,
      ...fisher.limits,
      conditionalOddsRatio: fisher.kind === 'estimated' ? fisher.estimate : null,
    },
  };
}

// tests/reference/04-differences.json: R 4.2.2, own formulas with stats, epitools and vcd as second
// routes; score limits by numerical restricted likelihood.
const cases = loadReference<TwoProportions & { level: number }>('04-differences').filter(
  ({ inputs }) => 'x1' in inputs,
);
test.each(cases.map((entry) => [entry.id, entry] as const))(
  'against R: %s',
  (_, { inputs, expected, tolerance }) =>
    expectClose(everything(inputs, inputs.level), expected, tolerance),
);

describe('published tables', () => {
  // Newcombe 1998, Stat Med 17:873, Table II, method 10, as restated in secondary sources.
  test.each(
    [
      '56-70-48-80',
      '9-10-3-10',
      '6-7-2-7',
      '5-56-0-29',
      '0-10-0-20',
      '0-10-0-10',
      '10-10-0-20',
      '10-10-0-10',
    ].map((name) => [name, loadCheckValue<TwoProportions>(`newcombe-diff-${name}`)] as const),
  )('Newcombe, Table II: %s', (_, { inputs, expected, tolerance }) =>
    expectClose(newcombe(inputs, how), expected, tolerance),
  );

  test('Miettinen–Nurminen and Mee for the same eight tables', () => {
    const { inputs, expected, tolerance } = loadCheckValue<{
      cases: [number, number, number, number][];
    }>('mn-diff-all8');
    const limits = (method: typeof mee) =>
      inputs.cases.map((four) => {
        const got = method(counts(...four), how);
        return got.kind === 'estimated' ? [got.lower, got.upper] : null;
      });
    expectClose({ MN: limits(miettinenNurminen), Mee: limits(mee) }, expected, tolerance);
  });

  test('four methods on three tables, the limits there cut off at ±1', () => {
    const { inputs, expected, tolerance } = loadCheckValue<{
      cases: [number, number, number, number][];
    }>('mn-diff-3');
    const limits = (method: typeof mee) =>
      inputs.cases.map((four) => {
        const got = method(counts(...four), how);
        return got.kind === 'estimated' ? [Math.max(-1, got.lower), Math.min(1, got.upper)] : null;
      });
    const got = {
      miettinen_nurminen: limits(miettinenNurminen),
      mee_farrington_manning: limits(mee),
      agresti_caffo: limits(agrestiCaffo),
      newcombe_cc: limits(newcombeContinuity),
    };
    expectClose(got, expected, tolerance);
  });

  // Agresti, Categorical Data Analysis: aspirin and myocardial infarction, figures from memory.
  test('aspirin: RD .0077 (.0047 to .0107), RR 1.82, OR 1.83 (1.44 to 2.33)', () => {
    const two = counts(189, 11034, 104, 11037);
    const aspirin = { estimate: 0.0077, lower: 0.0047, upper: 0.0107 };
    expectClose(waldDifference(two, how), aspirin, { rel: 0, abs: 5e-5 });
    expectClose(katzRatio(two, how), { estimate: 1.82 }, { rel: 0, abs: 5e-3 });
    const odds = { estimate: 1.83, lower: 1.44, upper: 2.33 };
    expectClose(woolfOddsRatio(two, how), odds, { rel: 0, abs: 5e-3 });
  });
});

describe('laws', () => {
  const size = fc.integer({ min: 1, max: 60 });
  const two = fc
    .tuple(
      size,
      size,
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    )
    .map(([n1, n2, p1, p2]) => counts(Math.round(p1 * n1), n1, Math.round(p2 * n2), n2));
  const methods = {
    waldDifference,
    agrestiCaffo,
    newcombe,
    newcombeContinuity,
    mee,
    miettinenNurminen,
  };

  test.each(Object.entries(methods))(
    '%s: groups swapped, and outcomes swapped, mirror it',
    (_, method) => {
      fc.assert(
        fc.property(two, ({ x1, n1, x2, n2 }) => {
          const here = limitsOf(method(counts(x1, n1, x2, n2), how));
          const groups = limitsOf(method(counts(x2, n2, x1, n1), how));
          const outcomes = limitsOf(method(counts(n1 - x1, n1, n2 - x2, n2), how));
          for (const mirror of [groups, outcomes]) {
            expect(mirror.lower).toBeCloseTo(-here.upper, 10);
            expect(mirror.upper).toBeCloseTo(-here.lower, 10);
          }
        }),
      );
    },
  );

  test.each(Object.entries(methods))(
    '%s: 99 % holds 90 %, and both hold the estimate',
    (_, method) => {
      fc.assert(
        fc.property(two, (four) => {
          const [wide, narrow] = [0.99, 0.9].map((level) => limitsOf(method(four, { level })));
          expect(wide?.lower).toBeLessThanOrEqual((narrow?.lower as number) + 1e-12);
          expect(wide?.upper).toBeGreaterThanOrEqual((narrow?.upper as number) - 1e-12);
        }),
      );
    },
  );

  test('score limits put back into the score statistic give ±z', () => {
    const z = 1.959963984540054; // R 4.2.2: qnorm(.975)
    fc.assert(
      fc.property(two, (four) => {
        const observed = four.x1 / four.n1 - four.x2 / four.n2;
        const { lower, upper } = limitsOf(mee(four, how));
        for (const limit of [lower, upper]) {
          if (Math.abs(limit) === 1) continue;
          const { p1, p2 } = restrictedProportions(four, limit);
          const error = Math.sqrt((p1 * (1 - p1)) / four.n1 + (p2 * (1 - p2)) / four.n2);
          expect(Math.abs(observed - limit) / error).toBeCloseTo(z, 7);
        }
      }),
    );
  });

  test('restricted proportions are likelier than their neighbours', () => {
    const likelihood = ({ x1, n1, x2, n2 }: TwoProportions, p1: number, p2: number) => {
      const part = (x: number, p: number) => (x === 0 ? 0 : x * Math.log(p));
      return part(x1, p1) + part(n1 - x1, 1 - p1) + part(x2, p2) + part(n2 - x2, 1 - p2);
    };
    fc.assert(
      fc.property(two, fc.double({ min: -0.99, max: 0.99, noNaN: true }), (four, d) => {
        const { p1, p2 } = restrictedProportions(four, d);
        const top = likelihood(four, p1, p2);
        for (const step of [-1e-4, 1e-4]) {
          const [q1, q2] = [p1 + step, p2 + step];
          if (Math.min(q1, q2) < 0 || Math.max(q1, q2) > 1) continue;
          expect(likelihood(four, q1, q2)).toBeLessThanOrEqual(top + 1e-9);
        }
      }),
    );
  });
});

describe('ends and refusals', () => {
  test('at a difference of 0 the likeliest pair is the pooled proportion (textbook)', () => {
    for (const [four, pooled] of [
      [counts(1, 4, 0, 1), 0.2],
      [counts(5, 56, 0, 29), 5 / 85],
      [counts(3, 3, 1, 2), 0.8],
    ] as const)
      for (const difference of [0, 1e-18, -1e-18]) {
        const { p1, p2 } = restrictedProportions(four, difference);
        expect([p1, p2]).toEqual([expect.closeTo(pooled, 14), expect.closeTo(pooled, 14)]);
      }
  });

  test('a thousand million units: all methods agree with the normal one to its own error', () => {
    const four = counts(400_000_000, 1e9, 399_900_000, 1e9);
    const wald = limitsOf(waldDifference(four, how));
    for (const method of [agrestiCaffo, newcombe, mee, miettinenNurminen]) {
      expect(limitsOf(method(four, how)).lower).toBeCloseTo(wald.lower, 9);
      expect(limitsOf(method(four, how)).upper).toBeCloseTo(wald.upper, 9);
    }
    const exact = fisherExact(four, how);
    const woolf = woolfOddsRatio(four, how);
    expect(limitsOf(exact).lower).toBeCloseTo(limitsOf(woolf).lower, 7);
    expect(limitsOf(exact).upper).toBeCloseTo(limitsOf(woolf).upper, 7);
    const chiSquare = chiSquareTest(four, { continuity: false });
    expect(chiSquare.kind === 'tested' && chiSquare.p).toBeCloseTo(exact.pTwoSided as number, 7);
  });

  test('groups that are all or none: the normal interval says that it has no width', () => {
    expect(waldDifference(counts(0, 10, 0, 20), how).notes).toEqual([
      'Each group is all or none, where this method gives an interval without width.',
    ]);
    expect(waldDifference(counts(1, 10, 0, 20), how).notes).toEqual([]);
  });

  test('an empty group and impossible counts are named', () => {
    const reason = (figure: Estimate) => (figure.kind === 'not-estimable' ? figure.reason : '');
    for (const method of [
      waldDifference,
      agrestiCaffo,
      newcombe,
      newcombeContinuity,
      mee,
      miettinenNurminen,
      katzRatio,
      woolfOddsRatio,
      haldaneOddsRatio,
    ]) {
      expect(reason(method(counts(0, 0, 1, 2), how))).toMatch(
        /^In the first group: Nothing was counted/,
      );
      expect(reason(method(counts(1, 2, 5, 3), how))).toMatch(
        /^In the second group: 5 of 3 cannot be/,
      );
      expect(reason(method(counts(Number.NaN, 2, 1, 3), how))).toMatch(
        /^In the first group: NaN of 2/,
      );
    }
    expect(reason(katzRatio(counts(0, 7, 1, 2), how))).toContain(
      'first group has no events (0 of 7)',
    );
    expect(reason(woolfOddsRatio(counts(2, 7, 2, 2), how))).toContain('A group is all or none');
    const test = (four: TwoProportions) => chiSquareTest(four, { continuity: true });
    expect(test(counts(0, 7, 0, 2))).toMatchObject({
      reason: expect.stringContaining('No unit of'),
    });
    expect(test(counts(7, 7, 2, 2))).toMatchObject({
      reason: expect.stringContaining('Every unit'),
    });
    expect(test(counts(0, 0, 2, 2))).toMatchObject({
      reason: expect.stringContaining('first group'),
    });
  });
});

function limitsOf(figure: Estimate): { lower: number; upper: number } {
  if (figure.kind === 'not-estimable') expect.fail(figure.reason);
  return figure;
}
