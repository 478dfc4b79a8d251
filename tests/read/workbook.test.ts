import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { UserError } from '../../src/base/problem.ts';
import { readSeason } from '../../src/read/read-season.ts';
import type { SeasonLog } from '../../src/read/season-log.ts';
import { zipStored } from '../../src/read/zip-stored.ts';
import { type StoredCell, sheetXml, workbookFile, workbookOf } from './workbook-file.ts';

const home = mkdtempSync(join(tmpdir(), 'linehours-workbook-'));
const log = join(home, 'log');
afterAll(() => rmSync(home, { recursive: true }));
beforeEach(() => {
  rmSync(log, { recursive: true, force: true });
  mkdirSync(log);
});

const write = (name: string, content: string | Buffer) => writeFileSync(join(log, name), content);
const TRIPS: StoredCell[][] = [
  ['trip_id', 'date'],
  ['T1', '2024-03-05'],
];
const BITES: StoredCell[][] = [
  ['trip_id', 'outcome'],
  ['T1', 'missed'],
];

async function refusal(): Promise<UserError> {
  const error = await readSeason(log).catch((reason: unknown) => reason);
  expect(error).toBeInstanceOf(UserError);
  expect((error as UserError).exitCode).toBe(3);
  return error as UserError;
}

/** All that was read, without the account of how. */
function rowsOf({ trips, soaks, bites, spools, baitBuys }: SeasonLog) {
  return { trips, soaks, bites, spools, baitBuys };
}

// 5 March 2024 is serial day 45356: 45292 is 1 January 2024 (45292 = 365 × 124 + 31 leap days + 1,
// the leap day that 1900 never had among them), and 64 days lie between.
const DAY = 45356;
const clock = (hours: number, minutes: number): StoredCell => ({
  serial: (hours * 60 + minutes) / 1440,
  style: 'time',
});
const WORKBOOK = {
  trips: [
    ['trip_id', 'date', 'lines_in', 'lines_out', 'lines_fished', 'vessel', 'wind_kn', 'notes'],
    [
      7,
      { serial: DAY, style: 'date' },
      clock(6, 14),
      clock(12, 12),
      5,
      'Quillandra',
      12.2,
      'a, "b"',
    ],
    [],
    [
      '007',
      { serial: DAY + 1, style: 'date' },
      { serial: DAY + 1 + 439 / 1440, style: 'moment' },
      clock(14, 0),
      4,
      'Quillandra',
      { formula: 'SUM(A1)', value: '9' },
      null,
    ],
    [
      'T3',
      { serial: DAY + 2.3, style: 'moment' },
      clock(0, 0),
      clock(1, 0),
      4,
      null,
      0.1 + 0.2,
      null,
    ],
  ],
  Bites: [
    ['trip_id', 'time', 'outcome', 'species', 'hook_size', 'hook_model'],
    ['007', clock(7, 19), 'released', 'sailfish', '5/0', true],
    [7, clock(7, 0), 'missed', null, '7/0', '=1+1'],
  ],
  lunch: [
    ['who', 'what'],
    ['mate', 'rice'],
  ],
} satisfies Record<string, StoredCell[][]>;
const CSV_TRIPS = `trip_id,date,lines_in,lines_out,lines_fished,vessel,wind_kn,notes
7,2024-03-05,06:14,12:12,5,Quillandra,12.2,"a, ""b"""
,,,,,,,
007,2024-03-06,07:19,14:00,4,Quillandra,9,
T3,2024-03-07,00:00,01:00,4,,0.3,
`;
const CSV_BITES = `trip_id,time,outcome,species,hook_size,hook_model
007,07:19,released,sailfish,5/0,yes
7,07:00,missed,,7/0,=1+1
`;

describe('a workbook reads like its twin in CSV', () => {
  test('one workbook with a sheet for each table', async () => {
    write('Season 2024.xlsx', workbookFile(WORKBOOK));
    const read = await readSeason(log);
    rmSync(join(log, 'Season 2024.xlsx'));
    write('trips.csv', CSV_TRIPS);
    write('bites.csv', CSV_BITES);
    const twin = await readSeason(log);
    expect(rowsOf(read)).toEqual(rowsOf(twin));
    expect(read.trips.map((trip) => trip.trip_id)).toEqual(['7', '007', 'T3']);
    expect(read.account.files).toMatchObject([
      {
        file: 'trips.csv',
        path: 'Season 2024.xlsx, sheet trips',
        encoding: 'workbook',
        rowsRead: 3,
        rowsUsed: 3,
        blankLines: 1,
      },
      { file: 'bites.csv', path: 'Season 2024.xlsx, sheet Bites', rowsRead: 2, rowsUsed: 2 },
    ]);
    expect(read.account.problems).toContainEqual(
      expect.objectContaining({
        code: 'sheet-not-read',
        file: 'Season 2024.xlsx',
        received: 'lunch',
      }),
    );
  });

  test('a file for each table, whatever its one sheet is called', async () => {
    write('trips.xlsx', workbookFile({ Sheet1: WORKBOOK.trips }));
    write('Bites.XLSX', workbookFile({ Sheet1: WORKBOOK.Bites, Sheet2: [] }));
    const read = await readSeason(log);
    rmSync(log, { recursive: true });
    mkdirSync(log);
    write('trips.csv', CSV_TRIPS);
    write('bites.csv', CSV_BITES);
    expect(rowsOf(read)).toEqual(rowsOf(await readSeason(log)));
  });

  test('a row set aside is named by its row in the sheet', async () => {
    const trips = [['Season of the Quillandra'], [], ...TRIPS, [], ['T2', '2024-02-31']];
    write('log.xlsx', workbookFile({ trips, bites: BITES }));
    const { account } = await readSeason(log);
    const aside = account.setAside.map(({ file, line, column }) => [file, line, column]);
    expect(aside).toContainEqual(['trips.csv', 6, 'date']);
  });

  test('a CSV file and a workbook may share the tables between them', async () => {
    write('trips.csv', 'trip_id,date\nT1,2024-03-05\n');
    write('more.xlsx', workbookFile({ bites: BITES }));
    expect((await readSeason(log)).bites).toHaveLength(1);
  });
});

describe('workbooks that are refused, with the way on', () => {
  test('two candidates for one table', async () => {
    write('trips.csv', 'trip_id,date\nT1,2024-03-05\n');
    write('log.xlsx', workbookFile({ trips: TRIPS, bites: BITES }));
    expect((await refusal()).message).toBe(
      'Both trips.csv and log.xlsx, sheet trips could be trips.csv. Keep one of them in the folder.',
    );
  });

  test('no sheet is named like a table', async () => {
    write('log.xlsx', workbookFile({ Alpha: TRIPS, Beta: BITES }));
    const { message } = await refusal();
    expect(message).toContain('log.xlsx has no sheet named trips: its sheets are "Alpha", "Beta".');
    expect(message).toContain('CSV UTF-8');
  });

  test('a folder named trips.xlsx', async () => {
    mkdirSync(join(log, 'trips.xlsx'));
    write('bites.csv', 'trip_id,outcome\nT1,missed\n');
    expect((await refusal()).message).toContain('trips.xlsx is a folder');
  });

  test('sizes that would fill the memory, as the directory states them', async () => {
    const bomb = workbookFile({ trips: TRIPS, bites: BITES });
    bomb.writeUInt32LE(4_000_000_000, bomb.indexOf('PK\u0001\u0002', 0, 'latin1') + 24);
    write('log.xlsx', bomb);
    expect((await refusal()).message).toContain('log.xlsx would unpack to 4000 MB');
  });

  test('an entry that grows beyond its stated size is given up there', async () => {
    const content = deflateRawSync(Buffer.alloc(50_000_000));
    const book = zipStored([{ name: 'xl/workbook.xml', content }]);
    book.writeUInt16LE(8, book.lastIndexOf('PK\u0001\u0002', book.length, 'latin1') + 10);
    write('log.xlsx', book);
    expect((await refusal()).message).toContain('log.xlsx cannot be read as a workbook');
  });

  test('a lock on one entry, and a file locked as a whole', async () => {
    const book = workbookFile({ trips: TRIPS, bites: BITES });
    book.writeUInt16LE(1, book.indexOf('PK\u0001\u0002', 0, 'latin1') + 8);
    write('log.xlsx', book);
    expect((await refusal()).message).toContain('log.xlsx is locked by a password');
    write('log.xlsx', Buffer.from('d0cf11e0a1b11ae1'.padEnd(2000, '0'), 'hex'));
    expect((await refusal()).message).toContain('log.xlsx is locked by a password');
  });

  test('broken files: empty, cut short, no archive, no workbook inside, strange XML', async () => {
    const whole = workbookFile({ trips: TRIPS, bites: BITES });
    const strange = workbookOf(['trips'], ['<worksheet><sheetData><row><c r="1"></row>']);
    for (const bytes of [
      Buffer.alloc(0),
      whole.subarray(0, whole.length / 2),
      Buffer.from('trip_id,date\nT1,2024-03-05\n'),
      strange,
    ]) {
      write('log.xlsx', bytes);
      const { message } = await refusal();
      expect(message).toContain('log.xlsx cannot be read as a workbook');
      expect(message).toContain('CSV UTF-8');
    }
  });

  test('a byte changed anywhere ends in a log or in one sentence', async () => {
    const whole = workbookFile({ trips: TRIPS, bites: BITES });
    for (let at = 0; at < whole.length; at += 97) {
      const bytes = Buffer.from(whole);
      bytes[at] = (bytes[at] ?? 0) ^ 0xff;
      write('log.xlsx', bytes);
      const result = await readSeason(log).catch((reason: unknown) => reason);
      if (result instanceof Error) expect(result).toBeInstanceOf(UserError);
    }
  });

  test.each([
    ['rows', '<row r="1000000000"><c r="A1000000000"><v>1</v></c></row>'],
    ['columns', '<row r="1000000"><c r="XFD1000000"><v>1</v></c></row>'],
    ['columns by a name no column has', '<row r="1"><c r="totalB1"><v>1</v></c></row>'],
    ['columns in single quotes', "<row r='1'><c r = 'ZZZZZZ1'><v>1</v></c></row>"],
    ['columns in odd tags', '<row r="1"><c x=">" r="ZZZZZZ1"><v>1</v></c></row>'],
  ])('a sheet of a few bytes that claims thousands of millions of %s or cells', async (_, rows) => {
    write('log.xlsx', workbookOf(['trips'], [sheetXml(rows)]));
    expect((await refusal()).message).toContain('log.xlsx holds more cells than can be read');
  });
});

describe('a whole log in CSV beside a workbook', () => {
  test('is read, whatever the workbook is; the workbook is named as not read', async () => {
    write('trips.csv', 'trip_id,date\nT1,2024-03-05\n');
    write('bites.csv', 'trip_id,outcome\nT1,missed\n');
    write('menu.xlsx', 'no workbook');
    write('~$menu.xlsx', 'a lock file');
    const { account, bites } = await readSeason(log);
    expect(bites).toHaveLength(1);
    const codes = account.problems.map(({ code, file }) => `${code} ${file}`);
    expect(codes).toEqual(['workbook-not-read menu.xlsx']);
    expect(readFileSync(join(log, 'menu.xlsx'), 'utf8')).toBe('no workbook');
  });
});
