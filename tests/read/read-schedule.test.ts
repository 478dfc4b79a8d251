import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { readSchedule } from '../../src/read/read-schedule.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../src/settings/settings.ts';

const folder = mkdtempSync(join(tmpdir(), 'schedule-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const FACTORS = ['line_type', 'hook_size', 'leader_lb', 'area'];
const HEAD = 'trip_number,block,position,side,reach,line_type,date,trip_id';
const ROWS = [
  '2,1,port-long,port,long,mono,,',
  '2,1,starboard-long,starboard,long,braid,,',
  '1,1,port-long,port,long,braid,,',
  '1,1,starboard-long,starboard,long,mono,2026-03-04,',
];

function read(text: string | Buffer, settings: Partial<Settings> = {}) {
  const path = join(folder, 'schedule.csv');
  writeFileSync(path, text);
  return readSchedule(path, { ...DEFAULT_SETTINGS, ...settings }, FACTORS);
}

const trips = [
  {
    tripNumber: 1,
    block: '1',
    date: '2026-03-04',
    tripId: null,
    lines: [
      { position: 'port-long', level: 'braid' },
      { position: 'starboard-long', level: 'mono' },
    ],
  },
  {
    tripNumber: 2,
    block: '1',
    date: null,
    tripId: null,
    lines: [
      { position: 'port-long', level: 'mono' },
      { position: 'starboard-long', level: 'braid' },
    ],
  },
];

describe('a schedule that comes back', () => {
  test('as plan wrote it; a date in one row holds for the trip', async () => {
    const text = `${[HEAD, ...ROWS].join('\r\n')}\r\n`;
    expect(await read(text)).toEqual({ factor: 'line_type', trips });
  });

  test('from a spreadsheet: UTF-16, semicolons, day first, other words, blank and empty rows', async () => {
    const rows = ROWS.map((row) =>
      row
        .replaceAll(',', ';')
        .replace('2026-03-04', '04/03/2026')
        .replace('mono', 'Nylon')
        .replace('port-long', 'Port Long'),
    );
    const text = ['sep=;', HEAD.replaceAll(',', ';').toUpperCase(), ...rows, ';;;;;;;', ''];
    const bytes = Buffer.from(`\ufeff${text.join('\n')}`, 'utf16le');
    const settings = { line_types: { mono: ['nylon'], braid: [] }, date_order: 'dmy' as const };
    expect(await read(bytes, settings)).toEqual({ factor: 'line_type', trips });
  });

  test('words for nothing are nothing, an apostrophe before a guarded cell is taken off', async () => {
    const text = `${HEAD}\n1,1,port-long,,,'=braid,n/a,-\n1,1,starboard-long,,,mono,,\n`;
    const {
      trips: [only],
    } = await read(text);
    expect(only).toMatchObject({ date: null, tripId: null, lines: [{ level: '=braid' }, {}] });
  });

  test('levels are read as the log reads them', async () => {
    const head = 'trip_number,block,position,hook_size,date,trip_id';
    const hooks = await read(`${head}\n1,1,port-long,7-0,,\n1,1,starboard-long,5/0,,\n`);
    expect(hooks.trips[0]?.lines.map(({ level }) => level)).toEqual(['7/0', '5/0']);
    const leaders = await read(
      `${head.replace('hook_size', 'leader_lb')}\n1,1,port-long,60.0,,\n1,1,starboard-long,80 lb,,\n`,
    );
    expect(leaders.trips[0]?.lines.map(({ level }) => level)).toEqual(['60', '80']);
  });

  test('whole trips have no position', async () => {
    const text = 'trip_number,block,area,date,trip_id\n1,1,Kettle Drop,,PV-004\n';
    const {
      factor,
      trips: [only],
    } = await read(text);
    expect(factor).toBe('area');
    expect(only).toMatchObject({
      tripId: 'PV-004',
      lines: [{ position: null, level: 'Kettle Drop' }],
    });
  });
});

describe('what cannot be read is named with its line', () => {
  const bad = (text: string, settings: Partial<Settings> = {}) =>
    read(text, settings).then(
      () => 'read',
      (error: Error) => error.message,
    );

  test('another file, no file, an empty file', async () => {
    expect(await bad('trip_id,date\nT1,2026-03-01\n')).toMatch(
      /no schedule that plan wrote.*trip_number/,
    );
    expect(await bad('trip_number,block,date,trip_id\n')).toMatch(
      /lacks one column out of line_type/,
    );
    expect(await bad('')).toMatch(/no schedule/);
    const none = readSchedule(join(folder, 'none.csv'), DEFAULT_SETTINGS, FACTORS);
    await expect(none).rejects.toThrow(/There is no schedule .*none\.csv/);
    await expect(readSchedule(folder, DEFAULT_SETTINGS, FACTORS)).rejects.toThrow(/is no schedule/);
  });

  test('a number, a level, a date, a trip told twice, a line told twice', async () => {
    expect(await bad(`${HEAD}\nfour,1,port-long,,,braid,,\n`)).toMatch(
      /line 2: trip_number "four"/,
    );
    expect(await bad(`${HEAD}\n4,1,port-long,,,,,\n`)).toMatch(/line 2: line_type is empty/);
    expect(await bad(`${HEAD}\n4,1,port-long,,,braid,soon,\n`)).toMatch(
      /line 2: date "soon" is no date/,
    );
    const two = `${HEAD}\n4,1,port-long,,,braid,2026-03-01,\n4,1,starboard-long,,,mono,2026-03-02,\n`;
    expect(await bad(two)).toMatch(/line 3: trip 4 has two of date, 2026-03-01 and 2026-03-02/);
    const twice = `${HEAD}\n4,1,port-long,,,braid,,\n4,1,port-long,,,mono,,\n`;
    expect(await bad(twice)).toMatch(/line 3: trip 4 has port-long twice/);
  });

  test('dates that may be read both ways ask for their order', async () => {
    const text = `${HEAD}\n4,1,port-long,,,braid,03/04/2026,\n`;
    expect(await bad(text)).toMatch(/date_order/);
    expect(await bad(text, { date_order: 'mdy' })).toBe('read');
  });

  test('quotes out of place', async () => {
    expect(await bad(`${HEAD}\n4,1,"port-long,,,braid,,\n`)).toMatch(/cannot be split into cells/);
  });
});
