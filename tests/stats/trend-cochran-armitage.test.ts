import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  cochranArmitage,
  type ScoredGroup,
  type Trend,
} from '../../src/stats/trend-cochran-armitage.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

interface Inputs {
  events: number[];
  totals: number[];
  scores: number[];
}

const groupsOf = ({ events, totals, scores }: Inputs): ScoredGroup[] =>
  events.map((count, i) => ({
    events: count,
    total: totals[i] as number,
    score: scores[i] as number,
  }));

function tested(groups: readonly ScoredGroup[]): Trend {
  const trend = cochranArmitage(groups);
  if (trend.kind !== 'tested') throw new Error(trend.reason);
  return trend;
}

describe('reference cases 12-trend-smoothing (R stats::prop.trend.test, second route coin)', () => {
  test.each(loadReference<Inputs, Record<string, number>>('12-trend-smoothing', 'ca-'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const trend = tested(groupsOf(inputs));
      const got = {
        ...trend,
        chiSquare: trend.z ** 2,
        chiSquareHeterogeneity: trend.heterogeneity.chiSquare,
        dfHeterogeneity: trend.heterogeneity.df,
        pHeterogeneity: trend.heterogeneity.p,
        chiSquareDeparture: trend.departure.chiSquare,
        pDeparture: trend.departure.p,
      };
      const { pDeparture, ...rest } = expected;
      expectClose(got, rest, tolerance);
      // With two groups nothing departs from a line; R's 0 or 1 there hangs on a rounding.
      expectClose(got.pDeparture, inputs.events.length > 2 ? pDeparture : null, tolerance);
    },
  );

  test('Agresti, Categorical Data Analysis: M² = 6.57, malformation by drinks (from memory)', () => {
    const trend = tested(
      groupsOf({
        events: [48, 38, 5, 1, 1],
        totals: [17114, 14502, 793, 127, 38],
        scores: [0, 0.5, 1.5, 4, 7],
      }),
    );
    expect(trend.chiSquareMantel).toBeCloseTo(6.57, 2);
  });
});

const someGroups = fc
  .array(
    fc.record({
      events: fc.integer({ min: 0, max: 30 }),
      more: fc.integer({ min: 0, max: 30 }),
      score: fc.integer({ min: -5, max: 5 }),
    }),
    { minLength: 2, maxLength: 6 },
  )
  .map((list) => list.map(({ events, more, score }) => ({ events, total: events + more, score })))
  .filter((groups) => cochranArmitage(groups).kind === 'tested');

describe('laws', () => {
  test('scores moved or stretched leave z; turned round, z turns its sign', () => {
    fc.assert(
      fc.property(someGroups, (groups) => {
        const { z } = tested(groups);
        const moved = groups.map((g) => ({ ...g, score: 3 * g.score - 40 }));
        const turned = groups.map((g) => ({ ...g, score: -g.score }));
        expect(tested(moved).z).toBeCloseTo(z, 9);
        expect(tested(turned).z).toBeCloseTo(-z, 9);
      }),
    );
  });

  test('the parts add up, and splitting a group in two of its score leaves z', () => {
    fc.assert(
      fc.property(someGroups, (groups) => {
        const trend = tested(groups);
        const parts = trend.z ** 2 + trend.departure.chiSquare;
        expect(parts).toBeCloseTo(trend.heterogeneity.chiSquare, 8);
        const [first, ...rest] = groups as [ScoredGroup, ...ScoredGroup[]];
        const part = {
          ...first,
          events: Math.min(1, first.events),
          total: Math.min(1, first.total),
        };
        const other = {
          ...first,
          events: first.events - part.events,
          total: first.total - part.total,
        };
        if (other.events <= other.total)
          expect(tested([part, other, ...rest]).z).toBeCloseTo(trend.z, 9);
      }),
    );
  });
});

describe('what cannot be said', () => {
  test.each([
    ['no events', [0, 0], [5, 6], [1, 2], 'All or none'],
    ['all events', [5, 6], [5, 6], [1, 2], 'All or none'],
    ['one score', [1, 2], [5, 6], [3, 3], 'one score'],
    ['no groups', [], [], [], 'All or none'],
    ['one group and an empty one', [2, 0], [5, 0], [1, 2], 'one score'],
  ])('%s', (_, events, totals, scores, reason) => {
    const trend = cochranArmitage(groupsOf({ events, totals, scores }));
    expect(trend.kind === 'not-estimable' && trend.reason).toContain(reason);
  });

  test('counts that cannot be', () => {
    expect(() => cochranArmitage([{ events: 3, total: 2, score: 0 }])).toThrow('3 events of 2');
  });
});
