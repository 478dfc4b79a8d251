import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';

// Twelve trips over two months; mullet 2 to 4 a trip on the long line, scad 3 on the short.
const DAYS = [...Array(6).keys()].flatMap((at) => [`2026-03-1${at}`, `2026-04-1${at}`]).sort();
const ID = (at: number) => `T${at + 1}`;
const TRIPS = ['trip_id,date', ...DAYS.map((date, at) => `${ID(at)},${date}`)].join('\n');
const SOAKS = [
  'trip_id,position,bait,baits_used,time_in,time_out',
  ...DAYS.flatMap((_, at) => [
    `${ID(at)},port-long,mullet,${2 + (at % 3)},07:00,11:00`,
    `${ID(at)},port-short,scad,3,07:00,11:00`,
  ]),
].join('\n');
const BITES = [
  'trip_id,position,time,outcome',
  ...DAYS.flatMap((_, at) => [
    `${ID(at)},port-long,08:00,released`,
    ...(at % 2 === 0 ? [`${ID(at)},port-short,08:00,missed`] : []),
  ]),
].join('\n');
const BUYS = [
  'date,bait,count,unit_cost,died,ran_out',
  ...DAYS.flatMap((date) => [`${date},mullet,6,3.00,1,no`, `${date},scad,5,1.50,0,no`]),
].join('\n');
const COSTS = 'costs:\n  bait_short: 9\n  bait_left: 1\ncurrency: EUR\n';
const LOG = { 'trips.csv': TRIPS, 'soaks.csv': SOAKS, 'bites.csv': BITES, 'bait-buys.csv': BUYS };

function logFolder(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'stock-'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

const priced = logFolder({ ...LOG, 'season.yaml': COSTS });

async function stock(...words: readonly string[]) {
  const { out, err, exitCode } = await runCommand('stock', priced, '--json', ...words);
  expect({ err, exitCode }).toEqual({ err: '', exitCode: 0 });
  return JSON.parse(out);
}

describe('stock', () => {
  test('one JSON document with the contract’s fields, by hand', async () => {
    const document = await stock();
    expect(document.schema).toBe('linehours/stock@1');
    const [mullet, scad] = document.baits;
    // Mullet: 12 trips of 2, 3, 4 put out and one dead each: 36 + 12 used, 12 bites in 48 hours.
    expect(mullet).toMatchObject({ bait: 'mullet', soaks: 12, bait_hours: 48, used: 48, died: 12 });
    expect(mullet.bites_per_bait_hour.estimate).toBeCloseTo(12 / 48, 12);
    expect(mullet.caught_per_100_baits.estimate).toBeCloseTo((100 * 12) / 48, 12);
    expect(mullet.cost_per_caught.estimate).toBeCloseTo((3 * 48) / 12, 12);
    expect(mullet.cost_per_caught_on_bought.estimate).toBeCloseTo((3 * 72) / 12, 12);
    expect(scad.cost_per_caught).toEqual({ estimate: null, lower: null, upper: null });
    expect(mullet.use_per_trip).toMatchObject({ mean: 4, trips: 12, trips_ran_out: 0 });
    expect(mullet.load).toMatchObject({ trips: 1, quantile: 0.9 });
    expect(mullet.load.baits).toBeGreaterThan(4);
    expect(mullet.load.expected_cost).toBeCloseTo(
      9 * mullet.load.expected_short + mullet.load.expected_left,
      10,
    );
    expect(document.total.baits).toBe(mullet.load.baits + scad.load.baits);
    expect(document.by_month.map((one: { month: number }) => one.month)).toEqual([3, 4]);
  });

  test('more trips, a month, a well, a purse, bait held', async () => {
    const once = await stock();
    const thrice = await stock('--trips', '3');
    expect(thrice.baits[0].load.baits).toBeGreaterThan(2 * once.baits[0].load.baits);
    const march = await stock('--month', 'March');
    expect(march.baits[0].use_per_trip.trips).toBe(6);
    expect((await stock('--month', '2026-03')).baits).toEqual(march.baits);
    const tank = await stock('--tank', '7');
    expect(tank.total.baits).toBe(7);
    const budget = await stock('--budget', '10');
    expect(budget.total.price).toBeLessThanOrEqual(10);
    const held = await stock('--held', 'mullet=2');
    expect(held.baits[0].load.buy).toBeLessThan(held.baits[0].load.baits);
    const without = await stock('--without', 'mullet');
    expect(without.baits[0].load).toBeNull();
    expect(without.total.baits).toBe(without.baits[1].load.baits);
  });

  test('text: a list to shop by, with its caution', async () => {
    const { out, exitCode } = await runCommand('stock', priced);
    expect(exitCode).toBe(0);
    expect(out).toMatch(/^For the next trip load \d+ baits: \d+ mullet and \d+ scad/);
    expect(out).toMatch(/to buy, about \d+ EUR/);
    expect(out).toContain('follow the local rules');
    expect((await runCommand('stock', priced)).out).toBe(out);
  });

  test('baits that luck alone parts: why both have the same chance of being the best', async () => {
    const why =
      'Best: the log shows no more difference between the baits in fish caught per line-hour';
    // Mullet: 12 caught in 48 hours; scad: 6 missed in 48, then 12 caught in their place.
    expect((await runCommand('stock', priced)).out).not.toContain(why);
    const alike = DAYS.map((_, at) => `${ID(at)},port-short,08:00,released`).join('\n');
    const { out } = await runCommand(
      'stock',
      logFolder({ ...LOG, 'bites.csv': `${BITES.replaceAll(/\n.*missed/g, '')}\n${alike}` }),
    );
    expect(out).toContain(why);
  });

  test('without the two costs: what is enough, and which numbers to add', async () => {
    const { out, exitCode } = await runCommand('stock', logFolder(LOG));
    expect(exitCode).toBe(0);
    expect(out).toContain('enough on 80 of 100 trips');
    expect(out).toContain('costs: bait_short');
    expect(out).toContain('costs: bait_left');
  });

  test('without soaks, without anything: says what to log and leaves with 1', async () => {
    const { 'soaks.csv': _, ...less } = LOG;
    const noSoaks = await runCommand('stock', logFolder(less));
    expect(noSoaks.exitCode).toBe(1);
    expect(noSoaks.out).toContain('soaks.csv');
    const empty = { 'trips.csv': 'trip_id,date\n', 'bites.csv': 'trip_id,outcome\n' };
    expect((await runCommand('stock', logFolder(empty))).exitCode).toBe(1);
    expect((await runCommand('stock', priced, '--month', '7')).exitCode).toBe(1);
  });

  test.each([
    ['--trips', '0', 'from 1 to 60'],
    ['--trips', 'two', 'must be a whole number'],
    ['--month', 'Smarch', 'is no month'],
    ['--tank', '-3', 'whole number'],
    ['--budget', 'lots', 'an amount'],
    ['--held', 'mullet', 'bait=count'],
    ['--held', 'mullett=3', 'Did you mean mullet?'],
    ['--without', 'herring', 'has no bait "herring"'],
    ['--only', 'reach=long', 'cannot be cut down'],
  ])('%s %s is a wrong call, told in words', async (option, value, words) => {
    const { err, exitCode } = await runCommand('stock', priced, option, value);
    expect(exitCode).toBe(2);
    expect(err).toContain(words);
  });
});
