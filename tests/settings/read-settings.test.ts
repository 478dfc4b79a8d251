import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { UserError } from '../../src/base/problem.ts';
import { parseSettings, readSettings } from '../../src/settings/read-settings.ts';
import { DEFAULT_SETTINGS } from '../../src/settings/settings.ts';
import { knownSettingKeys } from '../../src/settings/settings-schema.ts';
import { MEASURE_NAMES } from '../../src/tally/measures.ts';

const folder = mkdtempSync(join(tmpdir(), 'linehours-settings-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The one sentence that a settings text is refused with. */
function refusal(text: string): string {
  try {
    parseSettings(text, 'season.yaml');
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    expect((error as UserError).exitCode).toBe(2);
    return (error as UserError).message;
  }
  throw new Error('The settings were taken.');
}

describe('settings that hold', () => {
  test('everything has a default', () => {
    for (const text of ['', '# only a remark\n', 'name:\nbaits:\nunits:\ncosts:\n', '---\n']) {
      expect(parseSettings(text, 'season.yaml')).toEqual(DEFAULT_SETTINGS);
    }
  });

  test('every setting at once', () => {
    const settings = parseSettings(
      `name: 2024 season
vessel: Quillandra
time_zone: Indian/Mauritius
date_order: dmy
positions:
  - port long
  - Stbd Flat Line
  - pitch bait
  - {name: Kite, side: centre, reach: long}
standing_spread: [PORT LONG, kite]
baits:
  mullet: [mulet, finger mullet]
  squid: calamari
  scad:
species:
  sailfish: {code: sfa, spellings: [sails], kept: no}
  wahoo: [hoo]
line_types: {mono: [monofilament, nylon], braid: []}
headers:
  bites: {Haken: hook_size}
fight_clears: side
practical_margin: {hookup_rate: 0.05}
costs:
  spool: {mono: 12.5, braid: 40}
  lost_fish: 30
currency: MUR
units: {wind: mph, depth: fa, temperature: f, length: in, weight: lb}
share: {grid_deg: 5, min_vessels: 4, min_trips: 6, period: quarter}
`,
      'season.yaml',
    );
    expect(settings).toMatchObject({
      name: '2024 season',
      date_order: 'dmy',
      positions: [
        { name: 'port long', side: 'port', reach: 'long' },
        { name: 'Stbd Flat Line', side: 'starboard', reach: 'flat' },
        { name: 'pitch bait', side: 'centre', reach: 'pitch' },
        { name: 'Kite', side: 'centre', reach: 'long' },
      ],
      standing_spread: ['port long', 'Kite'],
      species: {
        sailfish: { code: 'SFA', spellings: ['sails'], kept: false },
        wahoo: { code: null, spellings: ['hoo'], kept: null },
      },
      fight_clears: 'side',
      practical_margin: { hookup_rate: 0.05 },
      costs: { spool: { mono: 12.5, braid: 40 }, lost_fish: 30, bait_short: null, bait_left: null },
      units: { wind: 'mph', depth: 'fa', temperature: 'f', length: 'in', weight: 'lb' },
      share: { grid_deg: 5, min_vessels: 4, min_trips: 6, period: 'quarter' },
    });
    expect(settings.baits).toEqual({
      mullet: ['mulet', 'finger mullet'],
      squid: ['calamari'],
      scad: [],
    });
    expect(settings.headers).toEqual({ 'bites.csv': { Haken: 'hook_size' } });
    expect(settings.header_places).toEqual({
      'bites.csv': { Haken: 'season.yaml, line 20, column 11' },
    });
  });

  test('a bare list of words will do', () => {
    const { baits, species } = parseSettings(
      'baits: [mullet, squid]\nspecies: [wahoo]',
      'season.yaml',
    );
    expect(baits).toEqual({ mullet: [], squid: [] });
    expect(species).toEqual({ wahoo: { code: null, spellings: [], kept: null } });
  });

  test('a margin may be set for each measure and nothing else', () => {
    expect(knownSettingKeys(['practical_margin'])).toEqual(MEASURE_NAMES);
  });

  test('words of the reader can never be mistaken for built-in keys', () => {
    const { baits, headers, costs, species } = parseSettings('baits: {mullet: []}', 'season.yaml');
    for (const record of [baits, headers, costs.spool, species]) {
      expect('toString' in record && Object.hasOwn(record, 'toString')).toBe(false);
    }
    expect(Object.getPrototypeOf(baits)).toBeNull();
  });
});

describe('settings that are refused, in one sentence with the way on', () => {
  test.each([
    [
      'date_ordr: dmy',
      'season.yaml, line 1, column 1: "date_ordr" is no setting. Did you mean date_order?',
    ],
    [
      'name: x\nunits:\n  wnd: kn',
      'season.yaml, line 3, column 3: "wnd" is no setting. Did you mean wind?',
    ],
    [
      'share:\n  zzzzzz: 1',
      'season.yaml, line 2, column 3: "zzzzzz" is no setting. Known here: grid_deg, min_vessels, min_trips, period.',
    ],
    [
      'date_order: dym',
      'season.yaml, line 1, column 1: date_order is "dym"; it must be ymd, dmy or mdy.',
    ],
    [
      'time_zone: Indian/Mauritus',
      'season.yaml, line 1, column 1: time_zone is "Indian/Mauritus"; it must be the name of a time zone (did you mean Indian/Mauritius?).',
    ],
    [
      'time_zone: "+04:00"',
      'season.yaml, line 1, column 1: time_zone is "+04:00"; it must be the name of a time zone, such as Indian/Mauritius or UTC.',
    ],
    [
      'costs:\n  lost_fish: -3',
      'season.yaml, line 2, column 3: costs.lost_fish is "-3"; it must be an amount of 0 or more.',
    ],
    [
      'costs:\n  spool: {mono: .inf}',
      'season.yaml, line 2, column 11: costs.spool.mono is "Infinity"; it must be an amount of money.',
    ],
    [
      'practical_margin: {hookup_rate: 5}',
      'season.yaml, line 1, column 20: practical_margin.hookup_rate is "5"; it must be a share below 1, such as 0.05.',
    ],
    [
      'positions: [port-long, kite]',
      'season.yaml, line 1, column 24: the name "kite" does not tell the side of the position; write it as {name: kite, side: port, reach: long}.',
    ],
    [
      'positions: [port-long, Port-Long]',
      'season.yaml, line 1, column 24: the position "Port-Long" is listed twice.',
    ],
    [
      'standing_spread: [port-lng]',
      'season.yaml, line 1, column 19: "port-lng" is no position of the spread. Did you mean port-long?',
    ],
    [
      'baits: {mullet: [mulet], ballyhoo: [mulet]}',
      'season.yaml, line 1, column 26: "mulet" stands under both "mullet" and "ballyhoo".',
    ],
    [
      'species: {sailfish: {code: SAIL}}',
      'season.yaml, line 1, column 22: species.sailfish.code is "SAIL"; it must be a three-letter species code.',
    ],
    [
      'headers: {bitez: {a: b}}',
      'season.yaml, line 1, column 11: "bitez" is no file of a log. Did you mean bites.csv?',
    ],
    [
      '- a\n- b',
      'season.yaml, line 1, column 1: the file is a list; write each setting as "key: value", without a dash.',
    ],
    [
      'headers: [mullet]',
      'season.yaml, line 1, column 1: headers is a list; it must be files (trips.csv, soaks.csv, bites.csv, spools.csv, bait-buys.csv) with their headers.',
    ],
    [
      'baits:\n  constructor: []',
      'season.yaml, line 2, column 3: "constructor" cannot be used as a name; choose another.',
    ],
    [
      '__proto__: {baits: 1}',
      'season.yaml, line 1, column 1: "__proto__" cannot be used as a name; choose another.',
    ],
    [
      '# a remark\njust words',
      'season.yaml, line 2, column 1: the file is "just words"; it must be settings, one per line, such as time_zone: Indian/Mauritius.',
    ],
  ])('%s', (text, sentence) => {
    expect(refusal(text)).toBe(sentence);
  });

  test('what is no YAML, with line and column', () => {
    expect(refusal('name: x\n\tvessel: y')).toMatch(
      /^season\.yaml, line 2, column 1: the file is not sound YAML/,
    );
    expect(refusal('name: a\nname: b')).toMatch(/^season\.yaml, line 2/);
  });
});

describe('the file the settings stand in', () => {
  test('season.yaml, season.yml, or none', async () => {
    expect(await readSettings(folder)).toEqual(DEFAULT_SETTINGS);
    writeFileSync(join(folder, 'season.yml'), 'name: from yml');
    expect((await readSettings(folder)).name).toBe('from yml');
    writeFileSync(join(folder, 'season.yaml'), '\uFEFFname: from yaml');
    expect((await readSettings(folder)).name).toBe('from yaml');
  });

  test('another file by name, which must be there and must be a file', async () => {
    const other = join(folder, 'winter.yaml');
    writeFileSync(other, 'name: winter');
    expect((await readSettings(folder, other)).name).toBe('winter');
    await expect(readSettings(folder, join(folder, 'none.yaml'))).rejects.toThrow(
      'There is no settings file',
    );
    await expect(readSettings(folder, folder)).rejects.toThrow('is not a file');
  });

  test('a file far too large for settings', async () => {
    const huge = join(folder, 'huge.yaml');
    writeFileSync(huge, `name: ${'x'.repeat(1_100_000)}`);
    await expect(readSettings(folder, huge)).rejects.toThrow('too large for a settings file');
  });
});
