import { describe, expect, test } from 'vitest';
import { crossTable, isTied, tiedReason } from '../../src/estimate/tied-factors.ts';
import { FACTOR_NAMES } from '../../src/tally/factors.ts';
import { makeTally } from './make-tallies.ts';

const hookups = {
  factor: 'line_type',
  levels: ['braid', 'mono'],
  measure: 'hookup_rate',
} as const;

/** Bites by line and month: `braid 3 Jan` is three bites on braid in January. */
const rows = (...cells: readonly string[]) =>
  cells.map((cell, at) => {
    const [line_type = '', bites, month = ''] = cell.split(' ');
    return makeTally({ trip_id: `T${at}`, line_type, month, bites: Number(bites), line_hours: 4 });
  });

describe('who fished where', () => {
  test('units of A and B at every level, other levels of the factor left out', () => {
    const table = crossTable(
      rows('braid 3 Jan', 'braid 2 Jan', 'mono 4 Jan', 'mono 1 Feb', 'wire 9 Mar'),
      hookups,
      'month',
    );
    expect(table).toEqual({
      covariate: 'month',
      rows: [
        { level: 'Jan', a: 5, b: 4 },
        { level: 'Feb', a: 0, b: 1 },
      ],
    });
    expect(isTied(table)).toBe(false);
  });

  test('rates count line-hours, shares of hooked fish count those', () => {
    const tallies = rows('braid 3 Jan', 'mono 4 Jan');
    const per = (measure: 'bites_per_line_hour' | 'caught_rate') =>
      crossTable(tallies, { ...hookups, measure }, 'month').rows;
    expect(per('bites_per_line_hour')).toEqual([{ level: 'Jan', a: 4, b: 4 }]);
    expect(per('caught_rate')).toEqual([]);
  });
});

describe('tied together', () => {
  test.each([
    ['never in one month', ['braid 9 Jan', 'braid 9 Feb', 'mono 9 Mar'], true],
    ['once in one month', ['braid 9 Jan', 'braid 1 Mar', 'mono 9 Mar'], false],
    ['both in the only month', ['braid 9 Jan', 'mono 9 Jan'], false],
    [
      'a trip of braid without a bite is no meeting',
      ['braid 9 Jan', 'braid 0 Mar', 'mono 9 Mar'],
      true,
    ],
    ['no braid at all', ['mono 9 Jan', 'mono 9 Feb'], false],
    ['nothing at all', [], false],
  ])('%s', (_, cells, tied) => {
    expect(isTied(crossTable(rows(...cells), hookups, 'month'))).toBe(tied);
  });

  test('is said in whole sentences for every covariate', () => {
    expect(tiedReason(hookups, 'month')).toBe(
      'What was fished on braid and on mono was never fished in the same month: the line type and the month are tied together.',
    );
    for (const covariate of FACTOR_NAMES)
      expect(tiedReason(hookups, covariate)).toMatch(/^What was .* tied together\.$/);
  });
});
