import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';

// One rod filled twice; the line breaks late in each life. Counts by hand: 24 fights, 6 breaks.
const SPOOLS = 'rod,date,line_type,cost\nA,2026-01-01,mono,20\nA,2026-01-07,mono,20\n';
const TRIPS = ['trip_id,date', ...days().map((day) => `T${day},2026-01-0${day}`)].join('\n');
const BITES = ['trip_id,rod,outcome,lost_to', ...days().flatMap(bitesOf)].join('\n');

function days(): number[] {
  return [1, 2, 3, 4, 5, 6, 7, 8, 9];
}

/** Four fish a day on each of the first six days; old line loses some. */
function bitesOf(day: number): string[] {
  const broken: Readonly<Record<number, number>> = { 4: 1, 5: 2, 6: 3 };
  return Array.from({ length: day > 6 ? 0 : 4 }, (_, at) =>
    at < (broken[day] ?? 0) ? `T${day},A,lost,line_broke` : `T${day},A,released,`,
  );
}

function logFolder(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'wear-'));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

const LOG = { 'trips.csv': TRIPS, 'bites.csv': BITES, 'spools.csv': SPOOLS };
const priced = logFolder({ ...LOG, 'season.yaml': 'costs:\n  lost_fish: 50\ncurrency: EUR\n' });
const bare = logFolder({ ...LOG, 'spools.csv': 'rod,date,line_type\nA,2026-01-01,mono\n' });

describe('wear', () => {
  test('one JSON document with the contract’s fields', async () => {
    const { out, err, exitCode } = await runCommand('wear', priced, '--json');
    expect({ err, exitCode }).toEqual({ err: '', exitCode: 0 });
    const document = JSON.parse(out);
    expect(document.schema).toBe('linehours/wear@1');
    expect(document.log).toMatchObject({ trips: 9, bites: 24 });
    const [mono] = document.lines;
    expect(mono).toMatchObject({ line_type: 'mono', spools: 1, fights: 24, breaks: 6 });
    expect(mono.breaks_per_100_fights.estimate).toBeCloseTo(25, 12);
    expect(mono.power_law.beta.lower).toBeGreaterThan(1);
    expect(mono.power_law.unit).toBe('fights');
    expect(mono.respool_age).toMatchObject({ unit: 'fights' });
    expect(mono.cost_per_season.actual.estimate).toBeCloseTo(20 + 6 * 50, 8);
    expect(mono.reason).toBeNull();
    expect(document.first_break.map((one: { unit: string }) => one.unit)).toEqual([
      'fights',
      'trips',
      'line_hours',
    ]);
    expect(document.first_break[0].curve[0]).toEqual([0, 1, 1, 1]);
    expect(document.log_rank).toMatchObject({ chi_square: null, reason: expect.any(String) });
    expect(document.rods[0]).toMatchObject({ rod: 'A', age: { trips: 0, fights: 0 }, due: false });
  });

  test('text: the age, the reels, the cautions; the same bytes each time', async () => {
    const { out } = await runCommand('wear', priced);
    expect(out).toContain('Respool mono after about');
    expect(out).toContain('common practice, no source');
    expect(out).toContain('nothing about breaking strength');
    expect((await runCommand('wear', priced)).out).toBe(out);
  });

  test('without prices: the physical answer and the two numbers to add', async () => {
    const { out, exitCode } = await runCommand('wear', bare);
    expect(exitCode).toBe(0);
    expect(out).toContain('Mono breaks more often as it ages');
    expect(out).toContain('costs: spool: mono');
    expect(out).toContain('costs: lost_fish');
    expect(out).toContain('so many fillings');
    const [mono] = JSON.parse((await runCommand('wear', bare, '--json')).out).lines;
    expect(mono.respool_age).toBeNull();
    expect(mono.cost_per_season).toMatchObject({ actual: null, best: null });
    expect(mono.reason).toContain('season.yaml');
  });

  test('without spools.csv: says what to log and leaves with 1', async () => {
    const folder = logFolder({ 'trips.csv': TRIPS, 'bites.csv': BITES });
    const { out, exitCode } = await runCommand('wear', folder);
    expect(exitCode).toBe(1);
    expect(out).toContain('spools.csv');
    const document = JSON.parse((await runCommand('wear', folder, '--json')).out);
    expect(document).toMatchObject({ lines: [], first_break: [], log_rank: null });
    expect(document.refused).toContain('spools.csv');
  });

  test('an empty log is answered, not crashed on', async () => {
    const folder = logFolder({ 'trips.csv': 'trip_id,date\n', 'bites.csv': 'trip_id,outcome\n' });
    expect((await runCommand('wear', folder)).exitCode).toBe(1);
  });

  test('--only by what does not belong to a spool is a wrong call', async () => {
    const { err, exitCode } = await runCommand('wear', priced, '--only', 'bait=scad');
    expect(exitCode).toBe(2);
    expect(err).toContain('--only takes line_type, line_class_lb and rod');
    expect((await runCommand('wear', priced, '--only', 'rod=A')).exitCode).toBe(0);
  });

  test('hostile names are printed harmless', async () => {
    const spools = 'rod,date,line_type\n"\u001b[31mA",2026-01-01,"mo\u0007no"\n';
    const bites = BITES.replaceAll(',A,', ',"\u001b[31mA",');
    const { out } = await runCommand(
      'wear',
      logFolder({ ...LOG, 'spools.csv': spools, 'bites.csv': bites }),
    );
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that is what must not be there
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
  });
});
