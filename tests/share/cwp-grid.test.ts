import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  cellAt,
  cellCode,
  cellFromCode,
  GRID_SIZES,
  type GridSize,
} from '../../src/share/cwp-grid.ts';
import { loadCheckValue } from '../helpers/reference.ts';

// FAO CWP areal grid, official table of 1 to 30 degree cells (tests/reference/check-values.json).
const table = loadCheckValue<
  { cells: { lat: number; lon: number; size: string }[] },
  { codes: string[] }
>('cwp-grid');

describe('cells of the grid', () => {
  test.each(table.inputs.cells.map((cell, at) => ({ ...cell, code: table.expected.codes[at] })))(
    '$lat, $lon at $size is $code',
    ({ lat, lon, size, code }) => {
      const sizeDeg = Number(size.split('x')[0]) as GridSize;
      expect(cellCode(cellAt(lat, lon, sizeDeg))).toBe(code);
    },
  );

  test('a code reads back: the example of the IOTC form for catch and effort', () => {
    const { inputs, expected } = loadCheckValue<
      { code: string },
      { size: string; quadrant: string; lat: [number, number]; lon: [number, number] }
    >('cwp-grid-iotc-example');
    expect(cellFromCode(inputs.code)).toEqual({
      sizeDeg: Number(expected.size.split('x')[0]),
      quadrant: expected.quadrant,
      cornerLat: expected.lat[0],
      cornerLon: expected.lon[0],
    });
  });

  test('what names no cell is no cell', () => {
    const wrong = ['', '521205', '1212054', '5512054', '5290054', '5212180', '6212054', 'x212054'];
    expect(wrong.map(cellFromCode)).toEqual(wrong.map(() => null));
  });

  // The convention of the contract: a point on a line belongs to the cell nearer 0, 0.
  test.each([
    [-12, 54, 1, { quadrant: 'SE', cornerLat: 11, cornerLon: 53 }],
    [-12.5, 54.5, 0.5, { quadrant: 'SE', cornerLat: 12, cornerLon: 54 }],
    [0, 0, 1, { quadrant: 'NE', cornerLat: 0, cornerLon: 0 }],
    [-0, -0, 5, { quadrant: 'NE', cornerLat: 0, cornerLon: 0 }],
    [90, 180, 5, { quadrant: 'NE', cornerLat: 85, cornerLon: 175 }],
    [-90, -180, 1, { quadrant: 'SW', cornerLat: 89, cornerLon: 179 }],
    [15, 55, 5, { quadrant: 'NE', cornerLat: 10, cornerLon: 50 }],
  ] as const)('%d, %d at %d° on a line', (lat, lon, size, expected) => {
    expect(cellAt(lat, lon, size)).toMatchObject(expected);
  });

  const degrees = (most: number) =>
    fc.integer({ min: -most * 1000, max: most * 1000 }).map((thousandths) => thousandths / 1000);

  test('law: a cell holds its point, lies in the larger cell, and its code reads back', () => {
    fc.assert(
      fc.property(degrees(90), degrees(180), fc.constantFrom(...GRID_SIZES), (lat, lon, size) => {
        const cell = cellAt(lat, lon, size);
        const [y, x] = [Math.abs(lat), Math.abs(lon)];
        expect(y >= cell.cornerLat && y <= cell.cornerLat + size).toBe(true);
        expect(x >= cell.cornerLon && x <= cell.cornerLon + size).toBe(true);
        const code = cellCode(cell);
        if (code !== null) expect(cellFromCode(code)).toEqual(cell);
        else expect(size).toBe(0.5);
        const larger = cellAt(lat, lon, 5);
        if (size < 5) {
          expect(cell.cornerLat).toBeGreaterThanOrEqual(larger.cornerLat);
          expect(cell.cornerLat + size).toBeLessThanOrEqual(larger.cornerLat + 5);
          expect(cell.cornerLon + size).toBeLessThanOrEqual(larger.cornerLon + 5);
        }
      }),
    );
  });
});
