import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { unguardCell } from '../../src/base/format-csv-cell.ts';
import { csvText } from '../../src/write/csv.ts';

test('a table as RFC 4180 has it: commas, CRLF, doubled quotes', () => {
  expect(
    csvText(
      ['bait', 'bites', 'note'],
      [
        ['mullet, big', 12, 'said "good"'],
        ['=HYPERLINK("x")', -3.25, null],
        ['two\nlines', 0, ' spaced '],
      ],
    ),
  ).toBe(
    'bait,bites,note\r\n' +
      '"mullet, big",12,"said ""good"""\r\n' +
      '"\'=HYPERLINK(""x"")",-3.25,\r\n' +
      '"two\nlines",0," spaced "\r\n',
  );
});

test('numbers keep every digit; an open end is Inf; a non-number is refused', () => {
  expect(csvText(['x'], [[0.1 + 0.2], [1e-12], [-0], [Number.POSITIVE_INFINITY]])).toBe(
    'x\r\n0.30000000000000004\r\n1e-12\r\n0\r\nInf\r\n',
  );
  expect(() => csvText(['x'], [[Number.NaN]])).toThrow('no number');
});

test('any cells come back through a CSV reader and the unguarding', () => {
  const row = fc.tuple(fc.string({ unit: 'grapheme' }), fc.string({ unit: 'grapheme' }));
  fc.assert(
    fc.property(fc.array(row, { minLength: 1 }), (rows) => {
      const read: string[][] = parse(csvText(['a', 'b'], rows), { record_delimiter: '\r\n' });
      expect(read.slice(1).map((cells) => cells.map(unguardCell))).toEqual(rows);
    }),
  );
});
