import { expect, test } from 'vitest';
import { LINE_AGE_BANDS, lineAgeBand } from '../../src/tally/line-age-band.ts';

test.each([
  [1, '1-5 trips'],
  [5, '1-5 trips'],
  [6, '6-10 trips'],
  [15, '11-15 trips'],
  [20, '16-20 trips'],
  [21, '21 trips or more'],
  [4000, '21 trips or more'],
])('on its %i-th trip a line is in the band of %s', (trips, band) => {
  expect(lineAgeBand(trips)).toBe(band);
});

test('bands follow one another without a gap, young to old', () => {
  const met = Array.from({ length: 60 }, (_, at) => lineAgeBand(at + 1));
  expect([...new Set(met)]).toEqual(LINE_AGE_BANDS);
});
