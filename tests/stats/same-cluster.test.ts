import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  sameClusterDifference,
  sameClusterRateDifference,
} from '../../src/stats/same-cluster-difference.ts';
import { sameClusterOddsRatio } from '../../src/stats/same-cluster-odds-ratio.ts';
import type { ClusterPair } from '../../src/stats/same-cluster-pairs.ts';
import { sameClusterRateRatio, sameClusterRiskRatio } from '../../src/stats/same-cluster-ratio.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

const level = 0.95;
const pair = (x1: number, n1: number, x2: number, n2: number): ClusterPair => ({ x1, n1, x2, n2 });
const swapped = ({ x1, n1, x2, n2 }: ClusterPair): ClusterPair => pair(x2, n2, x1, n1);

interface LensInputs {
  readonly clusters: ClusterPair[];
  readonly kind: 'proportion' | 'rate';
  readonly level: number;
}

// R, tests/reference/21-lenses.R: own formulas; the difference, its error and its degrees of freedom
// also by clubSandwich on trip-centred rows, the ratio's influences also by numerical derivatives,
// the odds ratio by mantelhaen.test.
test.each(
  loadReference<LensInputs>('21-lenses', 'same-day').map((entry) => [entry.id, entry] as const),
)('against R: %s', (_, { inputs: { clusters, kind, level }, expected, tolerance }) => {
  const isRate = kind === 'rate';
  const difference = (isRate ? sameClusterRateDifference : sameClusterDifference)(clusters, {
    level,
  });
  const ratio = (isRate ? sameClusterRateRatio : sameClusterRiskRatio)(clusters, { level });
  const oddsRatio = sameClusterOddsRatio(clusters, { level });
  expectClose({ ...difference, difference, ratio, oddsRatio }, expected, tolerance);
});

test('ten balanced trips of single bites (clubSandwich: CR2, Satterthwaite)', () => {
  const { inputs, expected } = loadCheckValue<
    { y_by_trip: number[][] },
    { lpm_diff_B_minus_A: number; se_CR2: number; satterthwaite_df: number; ci: [number, number] }
  >('within-trip-bait');
  const sum = (rows: number[]) => rows.reduce((total, y) => total + y, 0);
  const clusters = inputs.y_by_trip.map((y) => pair(sum(y.slice(3)), 3, sum(y.slice(0, 3)), 3));
  const {
    lpm_diff_B_minus_A: estimate,
    se_CR2: standardError,
    satterthwaite_df: df,
    ci,
  } = expected;
  const wanted = { estimate, standardError, df, lower: ci[0], upper: ci[1] };
  expectClose(sameClusterDifference(clusters, { level }), wanted, { rel: 0, abs: 1e-8 });
});

describe('laws', () => {
  const count = fc.integer({ min: 0, max: 12 });
  const trip = fc
    .tuple(count, count, count, count)
    .map(([a, b, c, d]) => pair(Math.min(a, b), Math.max(a, b), Math.min(c, d), Math.max(c, d)));
  const trips = fc.array(trip, { minLength: 2, maxLength: 15 });

  test('swapping the levels mirrors the difference and inverts the ratios', () => {
    fc.assert(
      fc.property(trips, (clusters) => {
        const back = clusters.map(swapped);
        const [d, dBack] = [clusters, back].map((c) => sameClusterDifference(c, { level }));
        const [r, rBack] = [clusters, back].map((c) => sameClusterRiskRatio(c, { level }));
        if (d?.kind === 'estimated' && dBack?.kind === 'estimated')
          expectClose(
            { estimate: -dBack.estimate, lower: -dBack.upper, upper: -dBack.lower, df: dBack.df },
            { estimate: d.estimate, lower: d.lower, upper: d.upper, df: d.df },
            { rel: 1e-9, abs: 1e-12 },
          );
        if (r?.kind === 'estimated' && rBack?.kind === 'estimated')
          expectClose(
            { estimate: 1 / rBack.estimate, lower: 1 / rBack.upper, upper: 1 / rBack.lower },
            { estimate: r.estimate, lower: r.lower, upper: r.upper },
            { rel: 1e-9, abs: 0 },
          );
        expect([dBack?.kind, rBack?.kind]).toEqual([d?.kind, r?.kind]);
      }),
    );
  });

  test('the order of trips is of no account, and trips with one level only are', () => {
    fc.assert(
      fc.property(trips, (clusters) => {
        const more = [pair(3, 5, 0, 0), ...clusters.toReversed(), pair(0, 0, 0, 0)];
        const [d, dMore] = [clusters, more].map((c) => sameClusterDifference(c, { level }));
        expect(dMore?.clustersLeftOut).toBe((d?.clustersLeftOut ?? 0) + 1);
        expect(dMore?.unitsLeftOut).toBe((d?.unitsLeftOut ?? 0) + 5);
        if (d?.kind === 'estimated') {
          const { estimate, lower, upper, standardError, df } = d;
          expectClose(
            dMore,
            { estimate, lower, upper, standardError, df },
            { rel: 1e-9, abs: 1e-12 },
          );
        } else expect(dMore?.kind).toBe('not-estimable');
      }),
    );
  });

  test('trips alike in size have as many degrees of freedom as trips less one', () => {
    const clusters = Array.from({ length: 12 }, (_, i) => pair(i % 4, 6, i % 3, 4));
    const got = sameClusterDifference(clusters, { level });
    expect(got.kind === 'estimated' && got.df).toBeCloseTo(11, 10);
  });

  test('twice the hours halve the rate difference and leave the ratio', () => {
    const clusters = [pair(4, 10, 1, 8), pair(2, 6.5, 2, 9), pair(7, 12, 3, 11)];
    const doubled = clusters.map(({ x1, n1, x2, n2 }) => pair(x1, 2 * n1, x2, 2 * n2));
    const before = sameClusterRateDifference(clusters, { level });
    const after = sameClusterRateDifference(doubled, { level });
    if (before.kind !== 'estimated' || after.kind !== 'estimated') expect.fail('must be estimable');
    expect(after.upper).toBeCloseTo(before.upper / 2, 12);
    expectClose(
      sameClusterRateRatio(doubled, { level }),
      { ...pick(sameClusterRateRatio(clusters, { level })) },
      { rel: 1e-12, abs: 0 },
    );
  });
});

const pick = (got: ReturnType<typeof sameClusterRateRatio>) =>
  got.kind === 'estimated' ? { estimate: got.estimate, lower: got.lower, upper: got.upper } : {};

describe('what cannot be said, and why', () => {
  const reasons = (clusters: ClusterPair[]) =>
    [
      sameClusterDifference(clusters, { level }),
      sameClusterRiskRatio(clusters, { level }),
      sameClusterOddsRatio(clusters, { level }),
    ].map((got) => (got.kind === 'not-estimable' ? got.reason : 'estimated'));

  test('no trip, or one trip, with both levels', () => {
    const none = 'No trip had both levels, so nothing can be compared within a day.';
    const one = 'Only one trip had both levels, and one trip cannot show how much trips vary.';
    expect(reasons([]).slice(0, 2)).toEqual([none, none]);
    expect(reasons([pair(1, 2, 0, 0), pair(0, 0, 3, 3)]).slice(0, 2)).toEqual([none, none]);
    expect(reasons([pair(1, 2, 2, 3), pair(2, 4, 0, 0)]).slice(0, 2)).toEqual([one, one]);
  });

  test('all trips alike: nothing, everything, or the same share', () => {
    const same = /^All 3 trips with both levels say the very same \((0|0\.333)\)/;
    const nothing = reasons([pair(0, 3, 0, 2), pair(0, 1, 0, 5), pair(0, 2, 0, 2)]);
    expect(nothing[0]).toMatch(same);
    expect(nothing[1]).toContain('no events at either level');
    expect(nothing[2]).toContain('No stratum holds both groups and both outcomes');
    const third = [pair(2, 3, 1, 3), pair(4, 6, 2, 6), pair(6, 9, 3, 9)];
    expect(reasons(third)[0]).toMatch(same);
    expect(reasons(third)[1]).toContain('say the very same (2)');
  });

  test('events at one level only, or on one trip only', () => {
    const [difference, ratio] = reasons([pair(1, 3, 0, 2), pair(0, 1, 0, 5), pair(2, 2, 0, 2)]);
    expect(difference).toBe('estimated');
    expect(ratio).toContain('no events at the second level');
    expect(reasons([pair(1, 3, 1, 2), pair(0, 1, 0, 5)])[1]).toContain('fell on one trip');
  });

  test('counts of a thousand million keep their digits', () => {
    const small = [pair(3, 10, 2, 10), pair(4, 10, 1, 10), pair(1, 10, 2, 10)];
    const huge = small.map(({ x1, x2 }) => pair(x1 * 1e8, 1e9, x2 * 1e8, 1e9));
    expectClose(
      pick(sameClusterRiskRatio(huge, { level })),
      pick(sameClusterRiskRatio(small, { level })),
      { rel: 1e-12, abs: 0 },
    );
  });

  test('numbers that cannot be are refused in words', () => {
    const call = () => sameClusterDifference([pair(1, -2, 1, 1)], { level });
    expect(call).toThrow('A cluster holds numbers of 0 or more, not 1/-2 and 1/1.');
  });
});
