import { describe, expect, test } from 'vitest';
import type { IdentifyingText, IdentifyingValues } from '../../src/share/identifying-values.ts';
import { datesIn, timesIn } from '../../src/share/scan-clock.ts';
import { scanPackage } from '../../src/share/scan-package.ts';
import { positionsIn } from '../../src/share/scan-positions.ts';

const positions = [{ lat: -12.102, lon: 54.645 }];
const at = { positions };
const found = (text: string, decimalComma = true) => positionsIn(text, at, decimalComma);

describe('exact coordinates in any usual form', () => {
  // 12.102° = 12° 06.12' = 12° 06' 07.2"; 54.645° = 54° 38.7' = 54° 38' 42".
  test.each([
    ['decimal degrees', 'at -12.102, 54.645'],
    ['three decimals, one of the two alone', 'lon 54.645'],
    ['two decimals with a sign', 'lat -12.10'],
    ['two decimals, both', '12.10 and 54.65'],
    ['a decimal comma', 'S 12,102 E 54,645'],
    ['a letter of the compass', '12.102S'],
    ['degrees and minutes', "12°06.1'S 54°38.7'E"],
    ['degrees and minutes, spaced', 'S 12 06.12'],
    ['degrees, minutes and seconds', `12°06'07"S`],
    ['the same with primes', '54° 38′ 42″ E'],
    ['as instruments send it', '$GPGGA,0241,1206.12,S,05438.70,E'],
    ['six digits and a letter', '120607S'],
    ['ISO 6709', '-12.102+054.645/'],
    ['an address', 'geo:-12.1020,54.6450'],
    ['ten-millionths of a degree', 'lat=-121020000'],
    ['millionths of a degree', '54645000'],
  ])('%s', (_, text) => {
    expect(found(text)).not.toEqual([]);
  });

  test.each([
    ['a grid corner', 'SE,12,54,5212054'],
    ['hours to a tenth', '12.1,54.6'],
    ['cells side by side in a CSV', '12,102,54,645'],
    ['two decimals of another kind', 'design effect 12.10'],
    ['another place', '-13.102, 55.645'],
    ['a checksum', '412102f54645'],
    ['a style sheet', 'padding:.38rem 1rem .38rem 0;font:106.25%/1.55'],
  ])('no alarm at %s', (_, text) => {
    expect(found(text, false)).toEqual([]);
  });
});

describe('days and clock times of the log', () => {
  const dates = { dates: new Set(['2025-03-04']) };
  test.each([
    ...[
      '2025-03-04',
      '2025/3/4',
      '04.03.2025',
      '3/4/2025',
      '04-03-25',
      '20250304',
      '20250304T0611Z',
    ],
    ...[
      '4 March 2025',
      '4th Mar. 2025',
      'March 4, 2025',
      '4-Mar-25',
      '4 mars 2025',
      '4 de marzo 2025',
    ],
  ])('%s', (text) => {
    const isKnown = datesIn(`on ${text}.`, dates).length > 0;
    // "4 de marzo" has a word between day and month, and is not looked for.
    expect(isKnown).toBe(!text.includes(' de '));
  });

  test('other days, months by themselves and cells of a table are no hit', () => {
    for (const text of ['2025-03-05', '2025-03', '2025,3,4', 'March 2025', '2025-Q1', '1.0.0']) {
      expect(datesIn(text, dates)).toEqual([]);
    }
  });

  const minutes = { minutes: new Set([6 * 60 + 11, 17 * 60 + 41]) };
  test.each([
    '06:11',
    '6:11',
    '6:11 am',
    '06h11',
    '0611',
    '17:41',
    '5:41 pm',
    '5.41 p.m.',
    '06:11:30',
  ])('%s', (text) => {
    expect(timesIn(`at ${text}.`, minutes)).not.toEqual([]);
  });

  test('other times, figures and checksums are no hit', () => {
    for (const text of ['06:12', '6.11', '611', '1741', 'sha256:0611aa', '06113', '2,0611.5']) {
      expect(timesIn(text, minutes)).toEqual([]);
    }
  });
});

describe('names, ids and words of notes', () => {
  const text = (value: string, kind: IdentifyingText['kind'] = 'name') => ({
    text: value,
    from: 'angler in bites.csv',
    kind,
  });
  const scan = (
    values: readonly IdentifyingText[],
    body: string,
    { name = 'rows.csv', template = '', codes = ['SFA'], allowed = [] as readonly string[] } = {},
  ) => {
    const all: IdentifyingValues = {
      texts: values,
      positions: [],
      dates: new Set(),
      minutes: new Set(),
      tooShort: 0,
    };
    const file = (content: string, as = 'own.csv') => ({ name: as, text: content, resource: null });
    const options = { template: file(template), codes, periods: ['2025-03', '2025-Q1'], allowed };
    return scanPackage([file(body, name)], all, options);
  };

  test.each([
    ['as it stands', 'Zé Ângelo', 'for Zé Ângelo'],
    ['accents put on another way', 'Zé Ângelo', 'for Ze\u0301 A\u0302ngelo'],
    ['capitals', 'Ørnulf Straße', 'ØRNULF STRASSE'],
    ['full width', 'Marrowind', 'Ｍａｒｒｏｗｉｎｄ'],
    ['marks between letters that nobody sees', 'Marrowind', 'Mar\u200brow\u00adind'],
    ['with other signs between the words', 'Teal Hesper', 'teal_hesper-2024'],
    ['run together', 'Teal Hesper', 'tealhesper.csv'],
    ['with a number after it', 'Quillandra', 'quillandra2024'],
    ['escaped for HTML', "O'Malley Ørn", 'O&#39;Malley &#xD8;rn'],
    ['escaped for JSON', 'Ørnulf', '"\\u00d8rnulf"'],
    ['escaped for an address', 'Ørnulf', 'x%C3%98x/%C3%98rnulf'],
    ['letters of another script', '李明', 'rod of 李明'],
    ['an id with signs', 'LQ-001', 'LQ 001'],
    ['a telephone number written otherwise', '0612345678', '06 12 34 56 78'],
    ['a drawing', '🐟🎣', 'by 🐟🎣'],
    ['right to left marks', 'דוד', '\u202bדוד\u202c'],
  ])('%s', (_, name, body) => {
    expect(scan([text(name)], `a\nb\n${body}`).hits).toMatchObject([{ found: name, line: 3 }]);
  });

  test('the name of a file is looked at like its text', () => {
    const { hits } = scan([text('Marrowind')], '', { name: 'marrowind.csv' });
    expect(hits).toMatchObject([{ line: null, found: 'Marrowind' }]);
  });

  test('no alarm at pieces of words, at checksums, at short numbers', () => {
    const names = [text('Ann'), text('Abe'), text('Dee'), text('ace')];
    expect(scan(names, 'annual announcements').hits).toEqual([]);
    expect(scan(names, `0ace4abe91dee5${'0f'.repeat(25)}`).hits).toEqual([]);
  });

  test('a word of every package tells nothing; a name among them is reported as such', () => {
    const values = [text('Effort'), text('kept', 'word')];
    const { hits, ownWords } = scan(values, 'effort kept', { template: 'effort kept' });
    expect(hits).toEqual([]);
    expect(ownWords.map((value) => value.text)).toEqual(['Effort']);
  });

  test('a code in a note is no alarm, a boat called like a code is', () => {
    expect(scan([text('SFA', 'word')], 'SFA,3').hits).toEqual([]);
    expect(scan([text('SFA')], 'SFA,3').hits).toHaveLength(1);
    expect(scan([text('SFA')], 'SFA,3', { allowed: ['sfa'] }).hits).toEqual([]);
  });

  test('a trip numbered like a month of the rows cannot be told from it, and is reported as such', () => {
    const numbered = [text('2025-03'), text('2025-03-001')];
    const { hits, ownWords } = scan(numbered, 'total\r\n2025-03,31\r\n2025-Q1,92');
    expect(hits).toEqual([]);
    expect(ownWords.map((value) => value.text)).toEqual(['2025-03']);
    expect(scan(numbered, 'trip 2025-03-001').hits).toHaveLength(1);
  });

  test('a note word that is the name of a month is named as such', () => {
    const { hits } = scan([text('March', 'word')], 'since March');
    expect(hits[0]?.what).toBe('a word of angler in bites.csv (also the name of a month)');
  });
});
