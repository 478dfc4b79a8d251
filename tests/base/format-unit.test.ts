import { expect, test } from 'vitest';
import type { ReaderUnits } from '../../src/base/format-unit.ts';
import { formatMeasured, inReaderUnit, unitSign } from '../../src/base/format-unit.ts';
import { DEFAULT_SETTINGS } from '../../src/settings/settings.ts';

const METRIC: ReaderUnits = DEFAULT_SETTINGS.units;
const OTHER: ReaderUnits = {
  wind: 'mph',
  depth: 'fa',
  temperature: 'f',
  length: 'in',
  weight: 'lb',
};

test('conversions agree with NIST SP 811 (2008), appendix B.8', () => {
  // Printed there: 1 mile/h = 0.44704 m/s, 1 knot = 0.5144444 m/s, 1 fathom (6 US survey ft) =
  // 1.828804 m, 1 inch = 2.54 cm, 1 lb = 0.45359237 kg, t/°F = 1.8 t/°C + 32.
  expect(inReaderUnit(10, 'wind', OTHER)).toBeCloseTo((10 * 0.5144444) / 0.44704, 5);
  expect(inReaderUnit(10, 'wind', { ...METRIC, wind: 'm_s' })).toBeCloseTo(5.144444, 5);
  expect(inReaderUnit(10, 'wind', { ...METRIC, wind: 'km_h' })).toBeCloseTo(18.52, 10);
  expect(inReaderUnit(50 * 1.828804, 'depth', OTHER)).toBeCloseTo(50, 3);
  expect(inReaderUnit(0.3048, 'depth', { ...METRIC, depth: 'ft' })).toBeCloseTo(1, 12);
  expect(inReaderUnit(254, 'length', OTHER)).toBeCloseTo(100, 12);
  expect(inReaderUnit(45.359237, 'weight', OTHER)).toBeCloseTo(100, 10);
  expect([-40, 0, 26, 100].map((t) => inReaderUnit(t, 'temperature', OTHER))).toEqual([
    -40, 32, 78.80000000000001, 212,
  ]);
});

test('measured values carry the reader’s unit and no false digits', () => {
  const spaced = (text: string) => text.replaceAll('\u202f', ' ');
  expect(spaced(formatMeasured(14, 'wind', METRIC))).toBe('14 kn');
  expect(spaced(formatMeasured(26, 'temperature', OTHER))).toBe('79 °F');
  expect(spaced(formatMeasured(1.83, 'depth', METRIC))).toBe('1.8 m');
  expect(spaced(formatMeasured(0, 'wind', METRIC))).toBe('0.0 kn');
  expect(unitSign('depth', OTHER)).toBe('fa');
});
