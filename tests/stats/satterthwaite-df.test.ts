import { describe, expect, test } from 'vitest';
import { designMatrix } from '../../src/stats/design-matrix.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import type { FittedModel } from '../../src/stats/glm-model.ts';
import {
  type ClusterCovariance,
  type ClusterType,
  clusterCovariance,
} from '../../src/stats/sandwich-cluster.ts';
import { contrastSpread } from '../../src/stats/sandwich-contrast.ts';
import { satterthwaiteDf } from '../../src/stats/satterthwaite-df.ts';
import { expectClose, loadCheckValue } from '../helpers/reference.ts';

const unit = (size: number, index: number): Float64Array =>
  Float64Array.from({ length: size }, (_, i) => (i === index ? 1 : 0));

function errors(fit: FittedModel, clusters: readonly number[], type: ClusterType): number[] {
  const { matrix } = clusterCovariance(fit, clusters, type) as ClusterCovariance;
  return matrix.diag().map(Math.sqrt);
}

function degrees(fit: FittedModel, clusters: readonly number[]): (number | null)[] {
  const covariance = clusterCovariance(fit, clusters, 'CR2') as ClusterCovariance;
  return fit.names.map((_, i) => satterthwaiteDf(covariance, unit(fit.names.length, i)));
}

test('ten balanced trips of single bites (clubSandwich): CR1 = CR2, df 9', () => {
  const { inputs, expected } = loadCheckValue<
    { y_by_trip: number[][]; bait: string[] },
    Record<string, number>
  >('within-trip-bait');
  const values = inputs.y_by_trip.flatMap(() => inputs.bait);
  const trips = inputs.y_by_trip.flatMap((row, trip) => row.map(() => trip));
  const design = designMatrix(['bait'], { bait: { levels: ['A', 'B'], values } });
  const y = inputs.y_by_trip.flat();
  const linear = fitGlm({ design, y }, { name: 'gaussian' }) as FittedModel;
  const logit = fitGlm({ design, y }, { name: 'binomial' }) as FittedModel;
  const got = {
    lpm_diff_B_minus_A: linear.coefficients[1],
    se_CR0: errors(linear, trips, 'CR0')[1],
    se_CR1: errors(linear, trips, 'CR1')[1],
    se_CR1S: errors(linear, trips, 'CR1S')[1],
    se_CR2: errors(linear, trips, 'CR2')[1],
    satterthwaite_df: degrees(linear, trips)[1],
    logit_beta: logit.coefficients[1],
    logit_se_CR0: errors(logit, trips, 'CR0')[1],
    logit_se_CR1: errors(logit, trips, 'CR1')[1],
    logit_se_CR2: errors(logit, trips, 'CR2')[1],
  };
  // Interval and p there are those of same-cluster-difference; the exact conditional fit is another file's.
  const { p: _p, ci: _ci, clogit_exact_beta: _b, clogit_se: _se, ...compared } = expected;
  expectClose(got, compared, { rel: 0, abs: 1e-8 });
});

test('twelve unbalanced trips, bait constant within a trip (clubSandwich)', () => {
  const { inputs, expected } = loadCheckValue<
    { x: number[]; n: number[]; live_trips_1based: number[] },
    Record<string, number[]>
  >('between-trip-live');
  const bites = inputs.n.flatMap((n, trip) =>
    Array.from({ length: n }, (_, bite) => ({
      trip,
      y: bite < (inputs.x[trip] ?? 0) ? 1 : 0,
      live: inputs.live_trips_1based.includes(trip + 1) ? 1 : 0,
    })),
  );
  const trips = bites.map(({ trip }) => trip);
  const design = designMatrix(['live'], { live: bites.map(({ live }) => live) });
  const fit = fitGlm({ design, y: bites.map(({ y }) => y) }, { name: 'gaussian' }) as FittedModel;
  const got = {
    beta: [...fit.coefficients],
    se_CR0: errors(fit, trips, 'CR0'),
    se_CR1: errors(fit, trips, 'CR1'),
    se_CR1S: errors(fit, trips, 'CR1S'),
    se_CR2: errors(fit, trips, 'CR2'),
    se_CR3: errors(fit, trips, 'CR3'),
    df_satt: degrees(fit, trips),
  };
  const { t: _t, p: _p, ...compared } = expected;
  const digits = { beta: { rel: 0, abs: 1e-9 }, df_satt: { rel: 0, abs: 1e-6 } };
  expectClose(got, compared, { rel: 0, abs: 1e-8, byKey: digits });
});

describe('what one trip decides alone', () => {
  // Month c is seen on trip 5 only; its coefficient has no residual to judge it by.
  const values = ['a', 'a', 'a', 'a', 'b', 'b', 'b', 'b', 'c', 'c'];
  const trips = [1, 1, 2, 2, 3, 3, 4, 4, 5, 5];
  const y = [3, 5, 2, 2, 6, 4, 5, 8, 3, 2];
  const design = designMatrix(['month'], { month: { levels: ['a', 'b', 'c'], values } });
  const fit = fitGlm({ design, y, trials: y.map(() => 10) }, { name: 'binomial' }) as FittedModel;
  const covariance = (type: ClusterType) =>
    clusterCovariance(fit, trips, type) as ClusterCovariance;

  test.each(['CR2', 'CR3', 'CR3J', 'CR1'] as const)('%s: refused for c, given for b', (type) => {
    const alone = contrastSpread(covariance(type), Float64Array.from([0, 0, 1]));
    expect(alone).toMatchObject({ kind: 'not-estimable' });
    expect(alone.kind === 'spread' ? '' : alone.reason).toContain('trip 5 alone');
    expect(contrastSpread(covariance(type), Float64Array.from([0, 1, 0])).kind).toBe('spread');
  });

  const spreadOf = (type: ClusterType, c: readonly number[]) => {
    const spread = contrastSpread(covariance(type), Float64Array.from(c));
    if (spread.kind !== 'spread') throw new Error(spread.reason);
    const bare = c.reduce(
      (sum, a, i) => sum + a * c.reduce((s, b, j) => s + b * covariance(type).matrix.get(i, j), 0),
      0,
    );
    return { ...spread, bare: Math.sqrt(bare) };
  };

  test('CR2: a small share of it adds nothing to the variance and is told, a large one widens', () => {
    const { standardError, bare, alone } = spreadOf('CR2', [0, 1, 0.3]);
    expect(standardError).toBeCloseTo(bare, 12);
    expect(alone).toMatchObject({ cluster: '5', isWidened: false });
    const much = spreadOf('CR2', [0, 1, 1]);
    expect(much.alone).toMatchObject({ cluster: '5', isWidened: true });
    expect(much.standardError).toBeCloseTo(much.bare / Math.sqrt(1 - (much.alone?.share ?? 0)), 12);
    // Month c alone has 20 bites: its own variance is 1 / (20 · 0.25 · 0.75), beside that of b − a.
    const [own, rest] = [0.3 ** 2 / 3.75, 1 / (40 * 0.3 * 0.7) + 1 / (40 * 0.575 * 0.425)];
    const mixed = own + rest + ((0.3 + 1) ** 2 - 1) / (40 * 0.3 * 0.7);
    expect(alone?.share).toBeCloseTo(own / mixed, 6);
    expect(spreadOf('CR2', [0, 1, 0]).alone).toBeNull();
    expect(spreadOf('CR2', [0, 1, 0.05]).alone).toBeNull();
  });

  test.each(['CR3', 'CR3J'] as const)('%s: a share of it widens the interval instead', (type) => {
    const { standardError, bare } = spreadOf(type, [0, 1, 0.3]);
    expect(standardError).toBeGreaterThan(bare * 1.01);
    expect(standardError).toBeLessThan(bare * Math.SQRT2);
  });

  test('one cluster for all rows is refused in words', () => {
    const one = trips.map(() => 7);
    expect(clusterCovariance(fit, one, 'CR2')).toMatchObject({
      kind: 'not-estimable',
      reason: expect.stringContaining('one trip'),
    });
  });

  test('two trips that fit exactly leave no spread', () => {
    const pair = designMatrix(['month'], { month: { levels: ['a', 'b'], values: ['a', 'b'] } });
    const exact = fitGlm(
      { design: pair, y: [3, 5], trials: [10, 10] },
      { name: 'binomial' },
    ) as FittedModel;
    const found = contrastSpread(
      clusterCovariance(exact, [1, 2], 'CR2') as ClusterCovariance,
      Float64Array.from([0, 1]),
    );
    expect(found.kind).toBe('not-estimable');
  });
});
