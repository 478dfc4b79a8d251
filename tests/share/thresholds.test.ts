import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isTooClose } from '../../src/share/p-percent.ts';
import { vesselKey } from '../../src/share/share-trip.ts';
import { mayPublish, vesselCount } from '../../src/share/thresholds.ts';
import { loadCheckValue } from '../helpers/reference.ts';

const trip = (vessel: string, effort = 5) => ({ vessel, effort });

describe('what may be shown', () => {
  test('the usual rule of three vessels (WCPFC Rules and Procedures, para. 9)', () => {
    const { inputs, expected } = loadCheckValue<
      { cells: { vessels: number }[] },
      { publish: boolean[] }
    >('three-vessel-rule');
    const shown = inputs.cells.map(({ vessels }) => {
      const trips = Array.from({ length: 6 }, (_, at) => trip(`v${at % vessels}`));
      return mayPublish(trips, { minVessels: 3, minTrips: 3 });
    });
    expect(shown).toEqual(expected.publish);
  });

  test('forty trips of one boat are one contributor', () => {
    const trips = Array.from({ length: 40 }, () => trip('one'));
    expect(mayPublish(trips, { minVessels: 3, minTrips: 3 })).toBe(false);
    expect(mayPublish(trips, { minVessels: 1, minTrips: 3 })).toBe(true);
    expect(mayPublish(trips.slice(0, 2), { minVessels: 1, minTrips: 3 })).toBe(false);
    expect(mayPublish([], { minVessels: 1, minTrips: 1 })).toBe(false);
  });

  test('one boat spelt five ways is one boat; no name is no further boat', () => {
    const spellings = [
      'Teal Hesper',
      'teal hesper ',
      'TEAL-HESPER',
      'Ｔｅａｌ Hesper',
      'teal  hésper',
    ];
    // An accent more may be another boat, and is counted as one only if letters differ.
    expect(new Set(spellings.slice(0, 4).map(vesselKey)).size).toBe(1);
    expect(vesselCount([trip('a'), trip(''), trip('b')])).toBe(2);
    expect(vesselCount([trip(''), trip('')])).toBe(1);
  });

  test('three vessels do not hide one that did nearly everything', () => {
    const trips = [trip('a', 100), trip('b', 1), trip('c', 1)];
    expect(mayPublish(trips, { minVessels: 3, minTrips: 3 })).toBe(false);
    expect(mayPublish(trips, { minVessels: 2, minTrips: 3 })).toBe(true);
  });
});

describe('p percent', () => {
  test('the cells of the handbook (Hundepool et al.)', () => {
    const { inputs, expected } = loadCheckValue<
      { p: number; cells: number[][] },
      { sensitive: boolean[] }
    >('p-percent-cells');
    expect(inputs.cells.map((cell) => isTooClose(cell, inputs.p))).toEqual(expected.sensitive);
  });

  test('the links of the handbook: what p = 100(100 - k)/k flags, the (2, k) rule flags too', () => {
    const { inputs, expected, tolerance } = loadCheckValue<
      { k: number[] },
      { p_equivalent: number[] }
    >('p-percent-vs-dominance');
    const isDominated = (cell: readonly number[], k: number) => {
      const [first = 0, second = 0] = [...cell].sort((a, b) => b - a);
      return first + second > (k / 100) * cell.reduce((sum, one) => sum + one, 0);
    };
    const cells = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 6 });
    for (const [at, k] of inputs.k.entries()) {
      const p = expected.p_equivalent[at] ?? 0;
      expect(Math.abs((100 * (100 - k)) / k - p)).toBeLessThan(tolerance.abs);
      fc.assert(
        fc.property(cells, (cell) => {
          if (isTooClose(cell, p * (1 - 1e-9))) expect(isDominated(cell, k)).toBe(true);
        }),
      );
    }
  });
});
