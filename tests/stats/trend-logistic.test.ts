import { Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { designMatrix } from '../../src/stats/design-matrix.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import { normalCritical } from '../../src/stats/interval-level.ts';
import type { ScoredGroup } from '../../src/stats/trend-cochran-armitage.ts';
import {
  chanceAt,
  describeLogisticTrend,
  type LogisticTrend,
  logisticTrend,
} from '../../src/stats/trend-logistic.ts';
import { expectClose, loadData, loadReference } from '../helpers/reference.ts';

interface Inputs {
  formula: string;
  predictAt: number[];
  data?: Record<string, number[]>;
  dataset?: string;
}

/** Groups of a case, by its formula `cbind(y, n - y) ~ x` or `event ~ x`, and the name of x. */
function read({ formula, data, dataset }: Inputs): { x: string; groups: ScoredGroup[] } {
  const columns = data ?? loadData((dataset ?? '').replace(/^data\/|\.csv$/g, ''));
  const [left = '', x = ''] = formula.split(' ~ ');
  const column = (...names: string[]): number[] => {
    const name = names.find((candidate) => columns[candidate] !== undefined);
    return (columns[name ?? ''] ?? []).map(Number);
  };
  const grouped = left.startsWith('cbind');
  const events = grouped ? column('y', 'Menarche') : column(left);
  const totals = grouped ? column('n', 'Total') : events.map(() => 1);
  const scores = column(x);
  const groups = events.map((count, i) => ({
    events: count,
    total: totals[i] as number,
    score: scores[i] as number,
  }));
  return { x, groups };
}

function fitted(groups: readonly ScoredGroup[], level = 0.95): LogisticTrend {
  const trend = logisticTrend(groups, { level });
  if (trend.kind !== 'fitted') throw new Error(trend.reason);
  return trend;
}

const modelOf = (groups: readonly ScoredGroup[]) => {
  const design = designMatrix(['score'], { score: groups.map((g) => g.score) });
  const y = groups.map((g) => g.events);
  const model = fitGlm({ design, y, trials: groups.map((g) => g.total) }, { name: 'binomial' });
  if (model.kind !== 'fitted') throw new Error(model.reason);
  return model;
};

describe('reference cases 12-trend-smoothing (R stats::glm)', () => {
  test.each(loadReference<Inputs>('12-trend-smoothing', 'logit-'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const { x, groups } = read(inputs);
      const trend = fitted(groups);
      const model = modelOf(groups);
      const { covariance } = trend;
      const chances = inputs.predictAt.map((value) => chanceAt(trend, value));
      const got = {
        coefficients: { '(Intercept)': trend.intercept, [x]: trend.slope },
        se: {
          '(Intercept)': Math.sqrt(covariance.get(0, 0)),
          [x]: Math.sqrt(covariance.get(1, 1)),
        },
        vcov: covariance.to2DArray(),
        deviance: model.deviance,
        logLik: model.logLik,
        oddsRatioPerUnit: trend.oddsRatio,
        fitted: chances.map((chance) => chance.estimate),
        fittedLower: chances.map((chance) => chance.lower),
        fittedUpper: chances.map((chance) => chance.upper),
        halfPoint: trend.halfPoint?.estimate,
        seHalfPoint: trend.halfPoint?.standardError,
      };
      expectClose(got, expected, tolerance);
    },
  );

  test('Agresti, snoring and heart disease: −3.87 + 0.40 x, deviance 2.8 (from memory)', () => {
    const groups = [
      { events: 24, total: 1379, score: 0 },
      { events: 35, total: 638, score: 2 },
      { events: 21, total: 213, score: 4 },
      { events: 30, total: 254, score: 5 },
    ];
    expect(fitted(groups).intercept).toBeCloseTo(-3.87, 2);
    expect(fitted(groups).slope).toBeCloseTo(0.4, 2);
    expect(modelOf(groups).deviance).toBeCloseTo(2.8, 1);
  });
});

const some: ScoredGroup[] = [
  { events: 1, total: 12, score: 0 },
  { events: 3, total: 9, score: 10 },
  { events: 2, total: 5, score: 25 },
  { events: 6, total: 8, score: 40 },
];

describe('laws', () => {
  test('another unit of x rescales slope and half point and leaves the chances', () => {
    const hours = fitted(some);
    const minutes = fitted(some.map((group) => ({ ...group, score: 60 * group.score })));
    expect(minutes.slope * 60).toBeCloseTo(hours.slope, 9);
    expect(minutes.halfPoint?.estimate ?? 0).toBeCloseTo(60 * (hours.halfPoint?.estimate ?? 0), 6);
    expectClose(chanceAt(minutes, 60 * 33), chanceAt(hours, 33), { rel: 1e-9, abs: 0 });
  });

  test('at the half point the chance is one half, and one fish a row is the same as counts', () => {
    const trend = fitted(some);
    expect(chanceAt(trend, trend.halfPoint?.estimate ?? 0).estimate).toBeCloseTo(0.5, 12);
    const rows = some.flatMap(({ events, total, score }) =>
      Array.from({ length: total }, (_, i) => ({ events: i < events ? 1 : 0, total: 1, score })),
    );
    expect(fitted(rows).slope).toBeCloseTo(trend.slope, 9);
    expect(fitted(rows).oddsRatio.upper).toBeCloseTo(trend.oddsRatio.upper, 8);
  });

  test('errors four times as large in variance double every reach', () => {
    const trend = fitted(some);
    const covariance = Matrix.mul(trend.covariance, 4);
    const critical = normalCritical(0.95);
    const wide = describeLogisticTrend(modelOf(some), { covariance, critical });
    const reach = ({ oddsRatio }: LogisticTrend) => Math.log(oddsRatio.upper / oddsRatio.lower);
    expect(reach(wide) / reach(trend)).toBeCloseTo(2, 10);
    expect(wide.halfPoint?.standardError).toBeCloseTo(2 * (trend.halfPoint?.standardError ?? 0), 9);
  });
});

describe('what cannot be said', () => {
  test.each([
    ['none had the event', some.map((g) => ({ ...g, events: 0 })), 'All or none'],
    ['all had the event', some.map((g) => ({ ...g, events: g.total })), 'All or none'],
    ['a clean cut', some.map((g) => ({ ...g, events: g.score > 15 ? g.total : 0 })), 'one side'],
    ['one value', some.map((g) => ({ ...g, score: 4 })), 'All groups stand at one value.'],
    ['no counts', some.map((g) => ({ ...g, events: 0, total: 0 })), 'No row'],
    ['no groups', [], 'No row'],
  ])('%s', (_, groups, reason) => {
    const trend = logisticTrend(groups, { level: 0.95 });
    expect(trend.kind === 'not-estimable' && trend.reason).toContain(reason);
  });
});
