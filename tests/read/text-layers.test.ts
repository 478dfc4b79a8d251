import { describe, expect, test } from 'vitest';
import { RecordAssembler } from '../../src/read/assemble-records.ts';
import { splitRecord, splitRecords } from '../../src/read/csv-records.ts';
import { decodeFile } from '../../src/read/decode-file.ts';
import type { FileBytes } from '../../src/read/file-bytes.ts';
import { quoteState } from '../../src/read/quote-state.ts';
import { sniffEncoding } from '../../src/read/sniff-encoding.ts';
import { splitIrregular } from '../../src/read/split-irregular.ts';
import { noCounts, splitLines } from '../../src/read/split-lines.ts';

/** Bytes handed out in chunks of a size, to cut letters and line ends in two. */
function inChunks(bytes: Buffer, size: number): FileBytes {
  return async function* () {
    for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
  };
}

async function decoded(bytes: Buffer, size = 1): Promise<{ encoding: string; text: string }> {
  const source = inChunks(bytes, size);
  // The head must be long enough to tell UTF-16 by.
  const { encoding } = await sniffEncoding(inChunks(bytes, 4096));
  let text = '';
  for await (const chunk of decodeFile(source, encoding)) text += chunk;
  return { encoding, text };
}

describe('encodings', () => {
  test('every letter of Windows-1252 above ASCII', async () => {
    // Python's codec cp1252 and the WHATWG index agree on these 27; five bytes are left open.
    const high = '€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ';
    const bytes = Buffer.from([
      0x80, 0x82, 0x83, 0x84, 0x85, 0x86, 0x87, 0x88, 0x89, 0x8a, 0x8b, 0x8c, 0x8e, 0x91, 0x92,
      0x93, 0x94, 0x95, 0x96, 0x97, 0x98, 0x99, 0x9a, 0x9b, 0x9c, 0x9e, 0x9f, 0xe9, 0xff,
    ]);
    expect(await decoded(bytes)).toEqual({ encoding: 'windows-1252', text: `${high}éÿ` });
  });

  test('letters cut in two by a chunk', async () => {
    const text = 'trip_id,area\nT1,Île aux Crabes € 🐟\n';
    for (const size of [1, 2, 3, 5]) {
      expect(await decoded(Buffer.from(text), size)).toEqual({ encoding: 'utf-8', text });
      expect(await decoded(Buffer.from(`\uFEFF${text}`), size)).toEqual({
        encoding: 'utf-8',
        text,
      });
      const wide = Buffer.from(`\uFEFF${text}`, 'utf16le');
      expect(await decoded(wide, size)).toEqual({ encoding: 'utf-16le', text });
      expect(await decoded(wide.swap16(), size)).toEqual({ encoding: 'utf-16be', text });
    }
  });

  test('a file cut off within a letter is still UTF-8', async () => {
    const { encoding } = await decoded(Buffer.from('Île aux é').subarray(0, -1));
    expect(encoding).toBe('utf-8');
  });

  test('forms that UTF-8 forbids (RFC 3629): overlong, surrogates, past the last letter', async () => {
    for (const bytes of [
      [0xc0, 0xaf],
      [0xe0, 0x80, 0xaf],
      [0xed, 0xa0, 0x80],
      [0xf4, 0x90, 0x80, 0x80],
      [0xff],
    ]) {
      const { badBytes, encoding } = await sniffEncoding(
        inChunks(Buffer.from([0x61, ...bytes]), 99),
      );
      expect(encoding, String(bytes)).toBe('windows-1252');
      expect(badBytes).toBe(0);
    }
  });
});

describe('lines', () => {
  test('CRLF cut by a chunk is one line end', async () => {
    for (const size of [1, 2, 3, 100]) {
      const counts = noCounts();
      const chunks = async function* () {
        const text = 'a\r\nb\nc\rd\r\n';
        for (let at = 0; at < text.length; at += size) yield text.slice(at, at + size);
      };
      const lines: string[] = [];
      for await (const batch of splitLines(chunks(), 'x.csv', counts)) lines.push(...batch);
      expect(lines).toEqual(['a', 'b', 'c', 'd']);
      expect(counts).toMatchObject({ crlf: 2, lf: 1, cr: 1 });
    }
  });
});

describe('quotes', () => {
  test.each([
    ['a,"b",c', false, true],
    ['a,"b ""x""",c', false, true],
    ['a,"b', true, true],
    ['a,"b""', true, true],
    ['"",""', false, true],
    ['a,6" bait', false, false],
    ['a, "b"', false, false],
    ['a,"b"c', false, false],
  ])('%s', (line, open, regular) => {
    expect(quoteState(line, ',', false)).toMatchObject({ open, regular });
  });

  test('a line that ends a quoted cell', () => {
    expect(quoteState('rest of it",b', ',', true)).toMatchObject({ open: false, regular: true });
    expect(quoteState('no end', ',', true)).toMatchObject({ open: true });
    expect(quoteState('end"x,b', ',', true)).toMatchObject({ regular: false });
  });

  test('quotes out of place are read in the one way that fits the header', () => {
    expect(splitIrregular('a,6" bait,c', ',', 3)).toEqual(['a', '6" bait', 'c']);
    expect(splitIrregular('a, "b, c",d', ',', 3)).toEqual(['a', 'b, c', 'd']);
    expect(splitIrregular('a,"he said "go"",c', ',', 3)).toEqual(['a', 'he said "go"', 'c']);
    expect(splitIrregular('"7/0" circle,"x"', ',', 2)).toEqual(['"7/0" circle', 'x']);
    expect(splitIrregular('a,"b"c,d', ',', 9)).toBeNull();
  });
});

describe('records', () => {
  const shape = (width: number) => ({
    delimiter: ',',
    width,
    split: (text: string) => splitRecord(text, ','),
    isRow: (cells: readonly string[]) => /^T\d/.test(cells[0] ?? ''),
  });

  function records(text: string, width = 3) {
    const assembler = new RecordAssembler(shape(width), 1);
    const assembled = [...assembler.take(text.split('\n')), ...assembler.finish()];
    return splitRecords(assembled, ',').map(({ line, lastLine, cells, quotes }) => ({
      lines: lastLine === line ? `${line}` : `${line}-${lastLine}`,
      cells,
      quotes,
    }));
  }

  test('a quoted cell over several lines is one record', () => {
    expect(records('T1,a,"one\ntwo, ""three"""\nT2,b,c')).toEqual([
      { lines: '1-2', cells: ['T1', 'a', 'one\ntwo, "three"'], quotes: 'sound' },
      { lines: '3', cells: ['T2', 'b', 'c'], quotes: 'sound' },
    ]);
  });

  test('an unclosed quote ends at the next sound row, also at a shorter one', () => {
    expect(records('T1,a,"one\nmore\nT2,b,c\nT3,"d","e"')).toEqual([
      { lines: '1-2', cells: ['T1,a,"one\nmore'], quotes: 'broken' },
      { lines: '3', cells: ['T2', 'b', 'c'], quotes: 'sound' },
      { lines: '4', cells: ['T3', 'd', 'e'], quotes: 'sound' },
    ]);
    expect(records('T1,a,"one\nT2,b\nT3,"d').map(({ lines, quotes }) => [lines, quotes])).toEqual([
      ['1', 'broken'],
      ['2', 'sound'],
      ['3', 'broken'],
    ]);
  });

  test('no line is lost, whatever the quotes', () => {
    const pieces = ['T1,a,b', 'T2,"a', '"', 'x",y', 'T3,"a",b', '""', ',"', 'T4,b', ''];
    for (let seed = 0; seed < 2000; seed++) {
      const lines = Array.from(
        { length: 6 },
        (_, at) => pieces[(seed * 7 + at * at * (seed % 11)) % pieces.length] ?? '',
      );
      const assembler = new RecordAssembler(shape(3), 1);
      const spans = [...assembler.take(lines), ...assembler.finish()];
      const covered = spans.flatMap(({ line, lastLine }) =>
        Array.from({ length: lastLine - line + 1 }, (_, i) => line + i),
      );
      const filled = lines.flatMap((line, at) => (line === '' ? [] : [at + 1]));
      expect(covered).toEqual([...covered].sort((a, b) => a - b));
      expect(new Set(covered).size).toBe(covered.length);
      for (const line of filled) expect(covered, lines.join('\n')).toContain(line);
    }
  });
});
