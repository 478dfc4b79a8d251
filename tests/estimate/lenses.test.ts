import { describe, expect, test } from 'vitest';
import { compareLevels } from '../../src/estimate/compare-levels.ts';
import { LENS_NAMES } from '../../src/estimate/lens.ts';
import type { BiteRow } from '../../src/read/rows.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { makeLog } from '../helpers/make-log.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';

interface Cluster {
  readonly x1: number;
  readonly n1: number;
  readonly x2: number;
  readonly n2: number;
}

interface Inputs {
  readonly clusters: readonly Cluster[];
  readonly kind: 'proportion' | 'rate';
  readonly level: number;
  readonly borrowedCorrelation?: number;
}

const REQUEST = { ...WHOLE_LOG, adjust: [], level: 0.95 };

/**
 * A season of these trips: braid has x1 of n1, mono x2 of n2. For rates n are line-hours and x bites;
 * else n are bites and x those hooked.
 */
function seasonOf({ clusters, kind }: Pick<Inputs, 'clusters' | 'kind'>) {
  const lines = clusters.flatMap(({ x1, n1, x2, n2 }, at) => [
    { trip_id: `T${at}`, position: 'port-long', line_type: 'braid', x: x1, n: n1 },
    { trip_id: `T${at}`, position: 'starboard-long', line_type: 'mono', x: x2, n: n2 },
  ]);
  const out = lines.filter(({ n }) => n > 0);
  const bites = out.flatMap(({ trip_id, position, x, n }) => {
    const missed = kind === 'rate' ? 0 : n - x;
    const rows: Pick<BiteRow, 'outcome' | 'count'>[] = [
      { outcome: 'released', count: x },
      { outcome: 'missed', count: missed },
    ];
    return rows.filter(({ count }) => count > 0).map((row) => ({ ...row, trip_id, position }));
  });
  return tidySeason(
    makeLog({
      trips: clusters.map((_, at) => ({
        trip_id: `T${at}`,
        date: `2026-03-${String(at + 1).padStart(2, '0')}`,
      })),
      soaks: out.map(({ trip_id, position, line_type, n }) => ({
        trip_id,
        position,
        line_type,
        hours: kind === 'rate' ? n : 1,
      })),
      bites,
    }),
  );
}

function lensesOf({ clusters, kind, level }: Inputs) {
  const contrast = {
    factor: 'line_type',
    levels: ['braid', 'mono'],
    measure: kind === 'rate' ? 'bites_per_line_hour' : 'hookup_rate',
  } as const;
  return compareLevels(seasonOf({ clusters, kind }), contrast, { ...REQUEST, level });
}

describe('from the rows of a log to two lenses, against R (21-lenses.R)', () => {
  const cases = loadReference<Inputs, Record<string, Json>>('21-lenses').filter(
    // With two or three shared trips the log leaves their correlation out, and R does not; R was
    // given a correlation to borrow that a log works out from itself.
    ({ inputs }) =>
      inputs.clusters.filter(({ n1, n2 }) => n1 > 0 && n2 > 0).length > 3 &&
      inputs.borrowedCorrelation === undefined,
  );

  test.each(cases)('$id', ({ id, inputs, expected, tolerance }) => {
    const { as_logged, same_day } = lensesOf(inputs).lenses;
    if (id.startsWith('same-day')) {
      const { difference, ratio } = expected;
      expectClose(same_day, { difference, ratio }, tolerance);
      if ('oddsRatio' in expected)
        expectClose(same_day, { oddsRatio: expected.oddsRatio }, tolerance);
      return;
    }
    const { first: a, second: b, difference } = expected;
    expectClose(as_logged, { a, b, difference }, tolerance);
    if ('logRatio' in expected) expectClose(as_logged.ratio, expected.logRatio, tolerance);
  });
});

describe('a comparison over the season', () => {
  /** So many trips on which braid hooked nine of ten and mono one of ten. */
  const clusters = Array.from({ length: 12 }, () => ({ x1: 9, n1: 10, x2: 1, n2: 10 }));
  const aside = { x1: 5, n1: 10, x2: 0, n2: 0 };

  test('one step for each trip that fished both, in the order of days', () => {
    const { season } = lensesOf({
      clusters: [aside, ...clusters.slice(0, 3), aside],
      kind: 'proportion',
      level: 0.95,
    });
    expect(season.steps.map(({ date }) => date)).toEqual([
      '2026-03-02',
      '2026-03-03',
      '2026-03-04',
    ]);
    expect(season.steps.map(({ difference }) => difference.n)).toEqual([1, 2, 3]);
    expect(season.clearSince).toBeNull();
  });

  test('clear from the day the always-valid interval leaves 0, and the same for mono before braid', () => {
    const { season } = lensesOf({ clusters, kind: 'proportion', level: 0.95 });
    const firstClear = season.steps.find(
      ({ difference }) => difference.kind === 'estimated' && difference.lower > 0,
    );
    expect(season.clearSince).toBe(firstClear?.date);
    expect(season.clearSince).not.toBeNull();
    const turned = clusters.map(({ x1, n1, x2, n2 }) => ({ x1: x2, n1: n2, x2: x1, n2: n1 }));
    const mirrored = lensesOf({ clusters: turned, kind: 'proportion', level: 0.95 });
    expect(mirrored.season.clearSince).toBe(season.clearSince);
  });

  test('rates have no such interval, which is said', () => {
    const { season } = lensesOf({ clusters, kind: 'rate', level: 0.95 });
    expect(season.steps).toEqual([]);
    expect(season.refused).toMatch(/^[A-Z].*\.$/);
  });
});

describe('nothing to compare', () => {
  test.each([
    ['only braid', [{ x1: 5, n1: 10, x2: 0, n2: 0 }]],
    ['no bites at all', []],
  ])('%s: every lens refuses in words', (_, clusters) => {
    const { lenses } = lensesOf({ clusters, kind: 'proportion', level: 0.95 });
    for (const name of LENS_NAMES) {
      expect(lenses[name].refused).toMatch(/^[A-Z].*\.$/);
      expect(lenses[name].difference.kind).toBe('not-estimable');
    }
  });
});
