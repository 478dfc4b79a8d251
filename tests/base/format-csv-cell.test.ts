import fc from 'fast-check';
import { expect, test } from 'vitest';
import { guardCell, unguardCell } from '../../src/base/format-csv-cell.ts';

test.each([
  ['=1+1', "'=1+1"],
  ['+cmd|" /C calc"!A0', '\'+cmd|" /C calc"!A0'],
  ['-2+3', "'-2+3"],
  ['@SUM(A1)', "'@SUM(A1)"],
  ['\t=1', "'\t=1"],
  ['\rx', "'\rx"],
  ['  =1', "'  =1"],
  ["'=1", "''=1"],
  ['＝1', "'＝1"],
])('%j is guarded', (text, guarded) => {
  expect(guardCell(text)).toBe(guarded);
});

test.each(['-3.2', '+5', '-1e-5', '-,5', '3', '', "'twas", 'mullet', 'port-short', 'a=b', '5/0'])(
  '%j stays as it is',
  (text) => {
    expect(guardCell(text)).toBe(text);
    expect(unguardCell(text)).toBe(text);
  },
);

test('the guard comes off again, whatever the text', () => {
  const awkward = fc.string({
    unit: fc.constantFrom("'", '=', '+', '-', '@', '\t', ' ', '1', '.', 'a'),
  });
  fc.assert(
    fc.property(fc.oneof(awkward, fc.string()), (text) => {
      expect(unguardCell(guardCell(text))).toBe(text);
    }),
    { numRuns: 2000 },
  );
});
