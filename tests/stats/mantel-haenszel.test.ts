import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TwoRates } from '../../src/stats/difference-two-rates.ts';
import { breslowDay } from '../../src/stats/homogeneity-breslow-day.ts';
import { mantelHaenszelOddsRatio } from '../../src/stats/mantel-haenszel-odds-ratio.ts';
import { mantelHaenszelRateDifference } from '../../src/stats/mantel-haenszel-rate-difference.ts';
import { mantelHaenszelRateRatio } from '../../src/stats/mantel-haenszel-rate-ratio.ts';
import { mantelHaenszelRateTest } from '../../src/stats/mantel-haenszel-rate-test.ts';
import { mantelHaenszelRiskDifference } from '../../src/stats/mantel-haenszel-risk-difference.ts';
import { mantelHaenszelRiskRatio } from '../../src/stats/mantel-haenszel-risk-ratio.ts';
import type { Stratum } from '../../src/stats/mantel-haenszel-strata.ts';
import { mantelHaenszelTest } from '../../src/stats/mantel-haenszel-test.ts';
import { woolfOddsRatio } from '../../src/stats/ratio-of-odds-woolf.ts';
import { katzRatio } from '../../src/stats/ratio-of-proportions-katz.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';
import { everything, type Four, stratum, tested } from './mantel-haenszel-everything.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

// tests/reference/05-stratified.json: R 4.2.2, own formulas; second routes stats::mantelhaen.test
// and metafor::rma.mh. Among the cases: UCBAdmissions (Bickel, Hammel & O'Connell 1975), the UGDP
// trial, the oesophagus study of Breslow & Day 1980, Mantel's rabbits, lung cancer in China.
type StratifiedInputs = { strata: Four[]; level: number } | ({ level: number } & RateColumns);
interface RateColumns {
  readonly events1: number[];
  readonly exposure1: number[];
  readonly events2: number[];
  readonly exposure2: number[];
}
const cases = loadReference<StratifiedInputs>('05-stratified');

test.each(cases.flatMap((entry) => ('strata' in entry.inputs ? [[entry.id, entry] as const] : [])))(
  'against R: %s',
  (_, { inputs, expected, tolerance }) => {
    const strata = (inputs as { strata: Four[] }).strata.map(stratum);
    expectClose(everything(strata, inputs.level), expected, tolerance);
  },
);

test.each(
  cases.flatMap((entry) => ('exposure1' in entry.inputs ? [[entry.id, entry] as const] : [])),
)('against R, rates: %s', (_, { inputs, expected, tolerance }) => {
  const columns = inputs as RateColumns;
  const strata = columns.events1.map(
    (events1, i): TwoRates => ({
      events1,
      exposure1: columns.exposure1[i] as number,
      events2: columns.events2[i] as number,
      exposure2: columns.exposure2[i] as number,
    }),
  );
  const ratio = mantelHaenszelRateRatio(strata, { level: inputs.level });
  const difference = mantelHaenszelRateDifference(strata, { level: inputs.level });
  const got = {
    rateRatioMH: ratio.kind === 'estimated' ? { ...ratio, logSe: ratio.logStandardError } : ratio,
    rateDifferenceMH:
      difference.kind === 'estimated'
        ? { ...difference, se: difference.standardError }
        : difference,
    mhChiSquare: tested(mantelHaenszelRateTest(strata)),
  };
  expectClose(got, expected, tolerance);
});

describe('laws', () => {
  const count = fc.integer({ min: 0, max: 15 });
  const tables = fc.array(fc.tuple(count, count, count, count).map(stratum), {
    minLength: 1,
    maxLength: 8,
  });
  const swapped = ({ x1, n1, x2, n2 }: Stratum): Stratum => ({ x1: x2, n1: n2, x2: x1, n2: n1 });
  const how = { level: 0.95 };
  const near = { rel: 1e-9, abs: 1e-11 };

  test('swapping the groups inverts the ratios, mirrors the difference, leaves the tests', () => {
    fc.assert(
      fc.property(tables, (strata) => {
        const [here, there] = [everything(strata, 0.9), everything(strata.map(swapped), 0.9)];
        for (const name of ['oddsRatioMH', 'riskRatioMH', 'conditionalOddsRatio'] as const) {
          const [a, b] = [here[name], there[name]];
          expect(b.kind).toBe(a.kind);
          if (a.kind === 'estimated' && b.kind === 'estimated')
            expectClose(
              { estimate: 1 / b.estimate, lower: 1 / b.upper, upper: 1 / b.lower },
              {
                estimate: a.estimate,
                lower: a.lower,
                upper: a.upper,
              },
              near,
            );
        }
        const [a, b] = [here, there].map((of) => of.riskDifferenceMH);
        if (a !== undefined && 'seSato' in a && b !== undefined && 'seSato' in b)
          expectClose(
            { ...b, estimate: -b.estimate, lowerSato: -b.upperSato, upperSato: -b.lowerSato },
            a,
            near,
          );
        for (const name of ['cmh', 'cmhContinuity', 'breslowDay'] as const)
          expectClose(there[name].statistic, here[name].statistic, near);
      }),
    );
  });

  test('the order and the names of strata are of no account, nor are empty ones', () => {
    fc.assert(
      fc.property(tables, (strata) => {
        const more = [stratum([0, 0, 0, 0]), ...strata.toReversed(), stratum([3, 2, 0, 0])];
        const { strata: _, ...here } = everything(strata, 0.95);
        const { strata: count, ...there } = everything(more, 0.95);
        expect(count).toBe(strata.length + 2);
        for (const name of ['cmh', 'cmhContinuity', 'breslowDay'] as const)
          expectClose(there[name].statistic, here[name].statistic, near);
        for (const name of ['oddsRatioMH', 'riskRatioMH'] as const)
          expectClose(limits(there[name]), limits(here[name]), near);
      }),
    );
  });

  test('one stratum: the risk ratio is Katz’, the odds ratio and its error are Woolf’s', () => {
    const filled = fc.integer({ min: 1, max: 40 });
    fc.assert(
      fc.property(fc.tuple(filled, filled, filled, filled), (four) => {
        const table = stratum(four);
        const [ratio, katz] = [mantelHaenszelRiskRatio([table], how), katzRatio(table, how)];
        expectClose(limits(ratio), limits(katz), near);
        const [odds, woolf] = [mantelHaenszelOddsRatio([table], how), woolfOddsRatio(table, how)];
        expectClose(limits(odds), limits(woolf), near);
      }),
    );
  });

  test('cutting a stratum into two alike leaves the estimates', () => {
    fc.assert(
      fc.property(tables, (strata) => {
        const doubled = strata.map(({ x1, n1, x2, n2 }) => ({
          x1: 2 * x1,
          n1: 2 * n1,
          x2: 2 * x2,
          n2: 2 * n2,
        }));
        const halves = strata.flatMap((half) => [half, half]);
        for (const method of [
          mantelHaenszelOddsRatio,
          mantelHaenszelRiskRatio,
          mantelHaenszelRiskDifference,
        ]) {
          const [whole, cut] = [method(doubled, how), method(halves, how)];
          if (whole.kind === 'estimated' && cut.kind === 'estimated')
            expectClose(cut.estimate, whole.estimate, near);
        }
      }),
    );
  });

  test('cells multiplied by 10⁸ divide the standard errors by 10⁴', () => {
    const four: Four[] = [
      [3, 7, 2, 9],
      [4, 4, 3, 6],
    ];
    const [small, huge] = [
      four.map(stratum),
      four.map((f) => stratum(f.map((v) => v * 1e8) as Four)),
    ];
    const [a, b] = [mantelHaenszelOddsRatio(small, how), mantelHaenszelOddsRatio(huge, how)];
    if (a.kind !== 'estimated' || b.kind !== 'estimated') expect.fail('must be estimable');
    expect(b.estimate).toBeCloseTo(a.estimate, 12);
    expect(b.logStandardError * 1e4).toBeCloseTo(a.logStandardError, 12);
    const [d, e] = [
      mantelHaenszelRiskDifference(small, how),
      mantelHaenszelRiskDifference(huge, how),
    ];
    if (d.kind !== 'estimated' || e.kind !== 'estimated') expect.fail('must be estimable');
    expect(e.standardErrorGreenlandRobins * 1e4).toBeCloseTo(d.standardErrorGreenlandRobins, 12);
  });
});

describe('what cannot be said, and why', () => {
  const how = { level: 0.95 };
  const nothing = [
    [],
    [[0, 0, 0, 0]],
    [
      [2, 1, 0, 0],
      [0, 0, 3, 1],
    ],
  ] as Four[][];
  test.each(nothing.map((four) => [four] as const))('no stratum with both groups: %j', (four) => {
    const strata = four.map(stratum);
    for (const method of [
      mantelHaenszelOddsRatio,
      mantelHaenszelRiskRatio,
      mantelHaenszelRiskDifference,
    ])
      expect(method(strata, how)).toMatchObject({
        reason: expect.stringContaining('No stratum holds both'),
      });
    expect(mantelHaenszelTest(strata, { continuity: true }).kind).toBe('not-estimable');
  });

  test('all events, no events, all of one group', () => {
    const all = [stratum([3, 0, 4, 0]), stratum([1, 0, 2, 0])];
    const none = [stratum([0, 3, 0, 4])];
    const apart = [stratum([3, 0, 0, 4]), stratum([2, 0, 0, 5])];
    for (const strata of [all, none, apart])
      expect(mantelHaenszelRiskDifference(strata, how)).toMatchObject({
        reason: expect.stringContaining('No stratum shows any variation within its groups'),
      });
    const reasonOf = (strata: Stratum[]) => mantelHaenszelRiskRatio(strata, how);
    expect(reasonOf(all)).toMatchObject({
      reason: expect.stringContaining('Every unit was an event'),
    });
    expect(reasonOf(none)).toMatchObject({
      reason: expect.stringContaining('first group has no events'),
    });
    expect(reasonOf(apart)).toMatchObject({
      reason: expect.stringContaining('second group has no events'),
    });
    expect(mantelHaenszelOddsRatio(apart, how)).toMatchObject({
      reason: expect.stringContaining('speaks for the first group and none for the second'),
    });
  });

  test('homogeneity needs two informative strata, and says when they are too small to mean much', () => {
    expect(breslowDay([stratum([3, 2, 1, 4])]).breslowDay).toMatchObject({
      reason: expect.stringContaining('two strata'),
    });
    const small = breslowDay([stratum([1, 1, 0, 2]), stratum([1, 1, 1, 1])]);
    expect(small.breslowDay.kind).toBe('tested');
    expect(small.largeEnough).toBe(false);
    expect(breslowDay([stratum([20, 30, 25, 15]), stratum([9, 11, 14, 16])]).largeEnough).toBe(
      true,
    );
  });

  test('homogeneity of tables with cells far below a unit stays a number', () => {
    const far: Four[] = [
      [1_000_000, 0, 0, 3],
      [1, 0, 0, 7],
      [0, 40, 157_917_419, 842_082_581],
      [999_999_999, 1, 7, 0],
    ];
    const { breslowDay: plain, tarone } = breslowDay(far.map(stratum));
    for (const outcome of [plain, tarone]) {
      if (outcome.kind !== 'tested') expect.fail(outcome.reason);
      expect(Number.isFinite(outcome.statistic)).toBe(true);
      expect(outcome.p).toBeGreaterThanOrEqual(0);
    }
  });

  test('rates without exposure or events', () => {
    const rates = (events1: number, exposure1: number, events2: number, exposure2: number) => [
      { events1, exposure1, events2, exposure2 },
    ];
    const apart = rates(3, 2, 0, 0);
    expect(mantelHaenszelRateRatio(apart, how)).toMatchObject({
      reason: 'No stratum has exposure in both groups.',
    });
    expect(mantelHaenszelRateDifference(apart, how).kind).toBe('not-estimable');
    expect(mantelHaenszelRateTest(apart).kind).toBe('not-estimable');
    const quiet = rates(0, 2, 0, 5);
    expect(mantelHaenszelRateRatio(quiet, how)).toMatchObject({
      reason: expect.stringContaining('first group'),
    });
    expect(mantelHaenszelRateDifference(quiet, how)).toMatchObject({
      reason: expect.stringContaining('no events'),
    });
    expect(() => mantelHaenszelRateTest(rates(-1, 2, 0, 5))).toThrow('not -1 in 2 and 0 in 5');
  });

  test('impossible counts are refused in words', () => {
    const table = { x1: 5, n1: 3, x2: 1, n2: 2 };
    expect(() => mantelHaenszelOddsRatio([table], how)).toThrow('5 of 3 and 1 of 2 make no table');
  });
});

function limits(got: {
  kind: string;
  reason?: string;
  estimate?: number;
  lower?: number;
  upper?: number;
}) {
  const { kind, estimate = null, lower = null, upper = null } = got;
  return { kind, estimate, lower, upper };
}
