import { describe, expect, test } from 'vitest';
import { adjustedRows, isSameThing } from '../../src/estimate/adjusted-rows.ts';
import { lensAdjusted } from '../../src/estimate/lens-adjusted.ts';
import type { FactorName } from '../../src/tally/factors.ts';
import { makeTally } from './make-tallies.ts';

const hookups = {
  factor: 'line_type',
  levels: ['braid', 'mono'],
  measure: 'hookup_rate',
} as const;

/** `braid 7/10 Jan long`: 7 of 10 bites hooked on braid in January on the long lines. */
const rows = (...cells: readonly string[]) =>
  cells.map((cell, at) => {
    const [line_type = '', counts = '', month = '', reach = ''] = cell.split(' ');
    const [hooked, bites] = counts.split('/').map(Number) as [number, number];
    return makeTally({ trip_id: `T${at}`, line_type, month, reach, hooked, bites });
  });

const kept = (cells: readonly string[], ...asked: readonly FactorName[]) => {
  const found = adjustedRows(rows(...cells), hookups, asked);
  return { ...found, trips: found.rows.map((row) => row.trip_id) };
};

describe('rows and covariates of the adjusted lens', () => {
  test('rows of A and B that have bites, covariates that vary', () => {
    const found = kept(
      [
        'braid 7/10 Jan long',
        'mono 5/9 Feb long',
        'braid 2/4 Feb long',
        'mono 1/3 Jan long',
        'wire 3/5 Jan long',
        'mono 0/0 Jan long',
      ],
      'month',
      'reach',
    );
    expect(found.trips).toEqual(['T0', 'T1', 'T2', 'T3']);
    expect(found.covariates).toEqual(['month']);
    expect(found.dropped).toEqual([
      { covariate: 'reach', reason: expect.stringContaining('only one level') },
    ]);
  });

  test('a covariate that never sees A beside B is no covariate', () => {
    const found = kept(['braid 7/10 Jan long', 'mono 5/9 Feb long'], 'month');
    expect(found.covariates).toEqual([]);
  });

  test('the compared factor, coarser or finer, is none either', () => {
    expect(isSameThing('line_type', 'line_type')).toBe(true);
    expect(isSameThing('position', 'reach')).toBe(true);
    expect(isSameThing('reach', 'position')).toBe(true);
    expect(isSameThing('month', 'week')).toBe(true);
    expect(isSameThing('side', 'reach')).toBe(false);
    const byPosition = {
      ...hookups,
      factor: 'position',
      levels: ['port-long', 'port-short'],
    } as const;
    const tallies = [
      makeTally({ trip_id: 'T1', position: 'port-long', reach: 'long', bites: 4, hooked: 2 }),
      makeTally({ trip_id: 'T1', position: 'port-short', reach: 'short', bites: 4, hooked: 2 }),
    ];
    expect(adjustedRows(tallies, byPosition, ['reach', 'position']).covariates).toEqual([]);
  });

  test('a level that is all or none is set aside and named; one may make another so', () => {
    // All of March were hooked. Without March all on the short lines were missed.
    const found = kept(
      [
        'braid 7/10 Jan long',
        'mono 5/9 Jan long',
        'braid 2/4 Feb long',
        'mono 1/3 Feb long',
        'braid 2/2 Mar short',
        'mono 3/3 Mar long',
        'mono 0/4 Jan short',
      ],
      'month',
      'reach',
    );
    expect(found.trips).toEqual(['T0', 'T1', 'T2', 'T3']);
    expect(found.covariates).toEqual(['month']);
    expect(found.dropped.map(({ covariate }) => covariate)).toEqual(['month', 'reach']);
    expect(found.dropped[0]?.reason).toMatch(
      /^Level Mar is left out of this lens: all bites there were hooked/,
    );
    expect(found.dropped[1]?.reason).toMatch(
      /^Level short is left out of this lens: nothing there was hooked/,
    );
  });

  test('nothing in, nothing out', () => {
    expect(adjustedRows([], hookups, ['month'])).toMatchObject({ rows: [], covariates: [] });
  });
});

describe('a line that only two covariates together give away', () => {
  // Braid where the month is February and the reach is not long: neither alone tells, both do.
  const cells = Array.from({ length: 6 }, () => [
    'mono 5/9 Jan short',
    'braid 6/9 Feb short',
    'mono 5/8 Feb long',
  ]).flat();

  test('is refused with a reason, never given a number', () => {
    const lens = lensAdjusted(rows(...cells), hookups, { level: 0.95, adjust: ['month', 'reach'] });
    expect(lens.refused).toMatch(/^[A-Z].*\.$/);
    expect(lens.difference.kind).toBe('not-estimable');
  });
});
