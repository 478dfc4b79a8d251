import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';

const scratch = mkdtempSync(join(tmpdir(), 'linehours-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));
const tenTrips = `${import.meta.dirname}/ten-trips`;

let made = 0;
/** A log folder with these files; trips and bites are empty tables unless given. */
function logWith(files: Readonly<Record<string, string>>): string {
  made += 1;
  const folder = join(scratch, `log-${made}`);
  mkdirSync(folder);
  const whole = { 'trips.csv': 'trip_id,date\n', 'bites.csv': 'trip_id,outcome\n', ...files };
  for (const [name, text] of Object.entries(whole)) writeFileSync(join(folder, name), text);
  return folder;
}

describe('a call that cannot be served', () => {
  const bad: readonly (readonly [string, readonly string[], number, RegExp])[] = [
    ['unknown factor', ['rates', tenTrips, '--by', 'hook'], 2, /"hook".*It takes: bait/],
    ['near miss', ['rates', tenTrips, '--by', 'hook_siz'], 2, /Did you mean hook_size\?/],
    ['unknown measure', ['rates', tenTrips, '--measure', 'hookup'], 2, /"hookup"/],
    ['unknown level', ['rates', tenTrips, '--only', 'bait=eel'], 2, /no such level.*mullet, scad/],
    ['level in percent', ['rates', tenTrips, '--level', '95'], 2, /Did you mean 0.95\?/],
    ['a date that is none', ['rates', tenTrips, '--from', '2026-02-30'], 2, /"2026-02-30"/],
    ['dates swapped', ['rates', tenTrips, '--from', '2026-03-01', '--to', '2026-01-01'], 2, /swap/],
    ['a seed of words', ['rates', tenTrips, '--seed', 'lucky'], 2, /whole number/],
    ['four factors', ['rates', tenTrips, '--by', 'bait,rod,reach,side'], 2, /up to 3/],
    ['no such command', ['rate', tenTrips], 2, /unknown command 'rate'/],
    ['no such option', ['rates', tenTrips, '--loud'], 2, /unknown option '--loud'/],
    ['no folder', ['rates', join(scratch, 'nowhere')], 3, /nowhere/],
    [
      'a level not fished',
      ['compare', tenTrips, '--factor', 'bait', '--between', 'mullet,eel'],
      2,
      /eel/,
    ],
    ['one level only', ['compare', tenTrips, '--factor', 'vessel'], 2, /Two levels/],
  ];
  test.each(bad)('%s: one clear sentence and exit code', async (_, words, code, says) => {
    const { exitCode, out, err } = await runCommand(...words);
    expect(exitCode).toBe(code);
    expect(err).toMatch(says);
    expect(out).toBe('');
  });

  test('a missing file or column is named, with what was found', async () => {
    const folder = logWith({ 'bites.csv': 'trip_id,result_of_bite\n' });
    const { exitCode, err } = await runCommand('rates', folder);
    expect(exitCode).toBe(3);
    expect(err).toMatch(/bites\.csv.*outcome/);
  });

  test('an unknown setting is named with the nearest one', async () => {
    const folder = logWith({ 'season.yaml': 'tme_zone: UTC\n' });
    const { exitCode, err } = await runCommand('check', folder);
    expect(exitCode).toBe(2);
    expect(err).toMatch(/tme_zone.*time_zone/s);
  });

  test('species: bites cannot be divided by it, which is said and is exit 1', async () => {
    const words = ['rates', tenTrips, '--by', 'species', '--measure', 'hookup_rate', '--json'];
    const { exitCode, out } = await runCommand(...words);
    expect(exitCode).toBe(1);
    const [row] = JSON.parse(out).estimates;
    expect(row).toMatchObject({ estimate: null, lower: null, upper: null });
    expect(row.notes[0]).toMatch(/no sure species/);
  });
});

describe('an answer that was asked for and cannot be given is exit 1', () => {
  const demo = join(import.meta.dirname, '../../data-samples/port-vellamy');
  const baits = ['compare', tenTrips, '--factor', 'bait', '--between', 'mullet,scad'];

  test.each<[string, readonly string[], number]>([
    [
      'rates: one of two measures',
      ['rates', tenTrips, '--by', 'species', '--measure', 'caught_rate,hookup_rate'],
      1,
    ],
    ['rates: both given', ['rates', tenTrips, '--measure', 'caught_rate,hookup_rate'], 0],
    ['rates: nothing in the log', ['rates', logWith({})], 1],
    ['rates: what there is, none named', ['rates', tenTrips], 0],
    ['index: one level', ['index', demo, '--by', 'vessel'], 1],
    ['index: by month', ['index', demo], 0],
    ['wear: age explains no line type', ['wear', demo, '--only', 'line_type=braid'], 1],
    ['wear: one of two', ['wear', demo], 0],
    ['compare: a table within what is tied', [...baits, '--within', 'reach'], 1],
    [
      'compare: within one level only',
      ['compare', demo, '--factor', 'line_type', '--within', 'vessel'],
      1,
    ],
    ['compare: within reach', ['compare', demo, '--factor', 'line_type', '--within', 'reach'], 0],
    ['stock: no bait recorded', ['stock', logWith({})], 1],
    [
      'plan: no bites to plan from',
      ['plan', logWith({}), '--factor', 'bait', '--between', 'a,b'],
      1,
    ],
  ])('%s', async (_, words, code) => {
    const { exitCode, out, err } = await runCommand(...words, '--quiet');
    expect(exitCode, err).toBe(code);
    expect(out).not.toBe('');
  });

  test('an index of one level is 1 without limits', async () => {
    const { out } = await runCommand('index', demo, '--by', 'vessel', '--quiet');
    expect(out).toContain('1.0, no interval');
    expect(out).toContain('1 by definition');
  });

  test('a table within that cannot be given says why', async () => {
    const words = ['compare', demo, '--factor', 'line_type', '--quiet'];
    const one = await runCommand(...words, '--within', 'vessel');
    expect(one.out).toContain(
      'Whether the answer differs by vessel cannot be told. It has one level here, or is itself what is compared.',
    );
    const json = await runCommand(...words, '--within', 'vessel', '--json');
    expect(JSON.parse(json.out).within).toMatchObject([
      { by: 'vessel', levels: [], refused: expect.any(String) },
    ]);
  });
});

describe('logs at the edge', () => {
  const trip = 'trip_id,date,lines_in,lines_out\nT1,2026-03-01,06:00,14:00\n';
  const soaks = 'trip_id,position,bait,time_in,time_out\nT1,port-long,mullet,07:00,09:00\n';
  const edges: Readonly<Record<string, Readonly<Record<string, string>>>> = {
    'no trips': {},
    'one trip, no bites': { 'trips.csv': trip, 'soaks.csv': soaks },
    'all missed': {
      'trips.csv': trip,
      'soaks.csv': soaks,
      'bites.csv':
        'trip_id,outcome,position,time\nT1,missed,port-long,07:30\nT1,missed,port-long,08:30\n',
    },
    'all hooked': {
      'trips.csv': trip,
      'bites.csv': 'trip_id,outcome,bait\nT1,kept,mullet\nT1,released,scad\n',
    },
  };
  test.each(Object.entries(edges))('%s: pages and words, no NaN', async (_, files) => {
    const folder = logWith(files);
    const out = join(scratch, `pages-${made}`);
    expect((await runCommand('report', folder, '--out', out)).exitCode).toBe(0);
    for (const name of readdirSync(out)) {
      const text = readFileSync(join(out, name), 'utf8');
      expect(text, name).not.toMatch(/\bNaN\b|Infinity|\bundefined\b|\bnull\b/);
    }
    const commands = [
      ['rates', folder],
      ['rates', folder, '--by', 'bait', '--json'],
      ['index', folder],
      ['wear', folder],
      ['stock', folder],
      ['check', folder, '--out', scratch],
    ];
    for (const words of commands) {
      const { out: said, exitCode } = await runCommand(...words);
      expect(exitCode, words.join(' ')).toBeLessThanOrEqual(1);
      expect(said, words.join(' ')).not.toMatch(/\bNaN\b|Infinity|\bundefined\b/);
    }
  });
});

describe('init', () => {
  test('makes a log that check reads without a complaint', async () => {
    const folder = join(scratch, 'fresh');
    expect((await runCommand('init', folder)).exitCode).toBe(0);
    const { exitCode, out } = await runCommand('check', folder, '--out', scratch);
    expect(exitCode).toBe(0);
    expect(out).toMatch(/0 rows read = 0 used \+ 0 set aside/);
  });
  test('writes over nothing', async () => {
    const folder = logWith({});
    const before = readFileSync(join(folder, 'trips.csv'), 'utf8');
    const { exitCode, err } = await runCommand('init', folder);
    expect(exitCode).toBe(2);
    expect(err).toMatch(/already holds .*trips\.csv/);
    expect(readFileSync(join(folder, 'trips.csv'), 'utf8')).toBe(before);
    expect(readdirSync(folder).sort()).toEqual(['bites.csv', 'trips.csv']);
  });
});
