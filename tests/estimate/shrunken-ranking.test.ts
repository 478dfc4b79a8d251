import { describe, expect, test } from 'vitest';
import { estimated, notEstimable } from '../../src/base/estimate.ts';
import type { GroupRate } from '../../src/estimate/group-rate.ts';
import { shrunkenRanking } from '../../src/estimate/shrunken-ranking.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

const BASIS = { level: 0.95, method: 'test', n: 1, exposure: null, notes: [] };

/** A row of rates: so many of so many, and by how much trips spread it. */
function rateRow(
  level: string,
  [numerator, denominator]: readonly [number, number],
  { measure = 'hookup_rate', effect = 1 }: { measure?: GroupRate['measure']; effect?: number } = {},
): GroupRate {
  const estimate = numerator / denominator;
  const rate =
    denominator > 0
      ? estimated({ ...BASIS, estimate, lower: 0, upper: 1 })
      : notEstimable('Nothing was counted.', BASIS);
  return {
    measure,
    by: { bait: level },
    trips: 10,
    bites: denominator,
    hooked: numerator,
    caught: numerator,
    released: numerator,
    kept: 0,
    line_hours: null,
    numerator,
    denominator,
    rate,
    design_effect: effect,
    effort_cover: null,
  };
}

const names = (rows: readonly GroupRate[], margin = 0.05) =>
  shrunkenRanking(rows, margin).levels.map(({ raw }) => raw.by.bait);

describe('against R (own Newton code; VGAM and MASS as second routes)', () => {
  interface Inputs {
    successes: number[];
    trials: number[];
    events: number[];
    exposure: number[];
    level: number;
  }
  const cases = loadReference<Inputs>('07-empirical-bayes').filter(
    ({ expected }) => 'posteriorMean' in expected,
  );

  test.each(cases)(
    '$id: the posterior means, best first',
    ({ id, inputs, expected, tolerance }) => {
      const share = id.startsWith('bb-');
      const counts = share ? inputs.successes : inputs.events;
      const sizes = share ? inputs.trials : inputs.exposure;
      const measure = share ? ('hookup_rate' as const) : ('bites_per_line_hour' as const);
      const rows = counts.map((count, at) =>
        rateRow(String(at), [count, sizes[at] ?? 0], { measure }),
      );
      const { levels } = shrunkenRanking(rows, 0.05);
      const means = expected.posteriorMean as number[];
      expectClose(
        levels.map(({ shrunken }) => shrunken.estimate),
        [...means].sort((one, other) => other - one),
        tolerance,
        'posteriorMean',
      );
    },
  );
});

describe('a fair ranking', () => {
  test('three for three does not top fifty of sixty', () => {
    const rows = [
      rateRow('squid', [3, 3]),
      rateRow('scad', [50, 60]),
      rateRow('mullet', [90, 200]),
      rateRow('sardine', [40, 120]),
      rateRow('ribbon', [70, 150]),
    ];
    expect(names(rows)[0]).toBe('scad');
    const { levels } = shrunkenRanking(rows, 0.05);
    const squid = levels.find(({ raw }) => raw.by.bait === 'squid');
    expect(squid?.shrunken.estimate).toBeLessThan(0.9);
    expect(levels.reduce((sum, one) => sum + one.probabilityBest, 0)).toBeCloseTo(1, 6);
    for (const { probabilityBest, probabilityNearBest, shrunken } of levels) {
      expect(probabilityNearBest).toBeGreaterThanOrEqual(probabilityBest);
      expect(shrunken.lower).toBeLessThan(shrunken.estimate);
      expect(shrunken.upper).toBeGreaterThan(shrunken.estimate);
    }
  });

  test('bites that come in trips count for less: the same counts are drawn in further', () => {
    const counts = [
      ['scad', [50, 60]],
      ['mullet', [90, 200]],
      ['sardine', [40, 120]],
    ] as const;
    const best = (effect: number) => {
      const rows = counts.map(([bait, count]) => rateRow(bait, count, { effect }));
      return shrunkenRanking(rows, 0.05).levels[0]?.probabilityBest ?? 0;
    };
    expect(best(8)).toBeLessThan(best(1));
    // An effect below 1 is chance: it makes nothing surer.
    expect(best(0.2)).toBe(best(1));
  });

  test('rates are ranked by what came in an hour', () => {
    const measure = 'bites_per_line_hour';
    const rows = [
      rateRow('scad', [40, 400], { measure }),
      rateRow('mullet', [90, 300], { measure }),
      rateRow('squid', [0, 50], { measure }),
    ];
    expect(names(rows)).toEqual(['mullet', 'scad', 'squid']);
  });

  test('rows without a figure are left out; with none, or one, it is said', () => {
    const none = rateRow('squid', [0, 0]);
    expect(names([rateRow('scad', [5, 9]), rateRow('mullet', [6, 9]), none])).not.toContain(
      'squid',
    );
    expect(shrunkenRanking([none], 0.05)).toMatchObject({
      levels: [],
      refused: 'Nothing was counted.',
    });
    expect(shrunkenRanking([], 0.05).levels).toEqual([]);
    const one = shrunkenRanking([rateRow('scad', [5, 9])], 0.05);
    expect(one.refused !== null || one.levels.length === 1).toBe(true);
  });
});
