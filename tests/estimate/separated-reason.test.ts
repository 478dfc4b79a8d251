import { expect, test } from 'vitest';
import { separatedReason } from '../../src/estimate/separated-reason.ts';
import { designMatrix } from '../../src/stats/design-matrix.ts';

const WIND = ['3', 'not recorded', '3', 'not recorded'];
const LINE = ['braid', 'braid', 'mono:blue', 'mono:blue'];
const design = designMatrix(['wind_band', 'line_type', 'wind_band:line_type'], {
  wind_band: { levels: [...new Set(WIND)], values: WIND },
  line_type: { levels: [...new Set(LINE)], values: LINE },
});

test('columns are told by factor and level, and both of a product', () => {
  const start = 'Some combination of levels went all one way, so no figure can be found';
  expect(design.names).toContain('wind_bandnot recorded:line_typemono:blue');
  expect(separatedReason(['wind_bandnot recorded', 'line_typemono:blue'], design)).toBe(
    `${start} for wind not recorded and line type mono:blue.`,
  );
  expect(separatedReason(['wind_bandnot recorded:line_typemono:blue'], design)).toBe(
    `${start} for wind not recorded with line type mono:blue.`,
  );
  expect(separatedReason(['(Intercept)'], design)).toBe(`${start}.`);
});
