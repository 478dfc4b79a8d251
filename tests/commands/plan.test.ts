import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { formatCount } from '../../src/base/format-number.ts';
import { describeInBrowser, faultsOf, LOOKS } from '../helpers/browser.ts';
import { runCommand } from '../helpers/run-command.ts';

const base = mkdtempSync(join(tmpdir(), 'plan-'));
afterAll(() => rmSync(base, { recursive: true, force: true }));
let folders = 0;

function logFolder(files: Readonly<Record<string, string>>): string {
  folders += 1;
  const folder = mkdtempSync(join(base, `log${folders}-`));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return folder;
}

/** Thirty trips, every third day, 2 to 4 bites on each of four lines, two in three hooked. */
const DAYS = Array.from({ length: 30 }, (_, at) => at);
const dateOf = (day: number) => new Date(Date.UTC(2026, 0, 1 + 3 * day)).toISOString().slice(0, 10);
const POSITIONS = ['port-short', 'starboard-short', 'port-long', 'starboard-long'];
const TRIPS = ['trip_id,date', ...DAYS.map((day) => `T${day},${dateOf(day)}`)].join('\n');
const biteRows = (levelAt: (day: number, position: string) => string) =>
  DAYS.flatMap((day) =>
    POSITIONS.flatMap((position, place) =>
      Array.from({ length: 2 + ((day + place) % 3) }, (_, at) => {
        const outcome = (day * 7 + place * 5 + at * 3) % 9 < 6 ? 'released' : 'missed';
        return `T${day},${position},${levelAt(day, position)},${outcome}`;
      }),
    ),
  );
const bites = (levelAt: (day: number, position: string) => string) =>
  ['trip_id,position,line_type,outcome', ...biteRows(levelAt)].join('\n');
const log = logFolder({ 'trips.csv': TRIPS, 'bites.csv': bites(() => 'mono') });
const plan = ['plan', log, '--factor', 'line_type', '--between', 'braid,mono'];
const out = join(base, 'out');
const scheduleOf = (folder: string) => readFileSync(join(folder, 'schedule.csv'), 'utf8');
const sheetOf = (folder: string) => readFileSync(join(folder, 'plan.html'), 'utf8');

beforeAll(async () => {
  const made = await runCommand(...plan, '--trips', '14', '--out', out);
  expect(made).toMatchObject({ exitCode: 0, err: '' });
});

describe('plan', () => {
  test('one JSON document with every figure that the text prints', async () => {
    const { out: json, err, exitCode } = await runCommand(...plan, '--trips', '14', '--json');
    expect({ err, exitCode }).toEqual({ err: '', exitCode: 0 });
    const document = JSON.parse(json);
    expect(document.schema).toBe('linehours/plan@1');
    expect(document).toMatchObject({
      factor: 'line_type',
      levels: ['braid', 'mono'],
      measure: 'hookup_rate',
      design: 'sides',
      difference: 0.05,
      power: 0.8,
      new_levels: ['braid'],
      base: { from: 'log' },
      pace: { trips: 30, days: 88, trips_with_both: 0 },
      design_effect: { from: 'sides', strata: 30 },
      planned: { trips: 14 },
      schedule: { seed: 1 },
      refused: null,
      written: [],
    });
    expect(document.curve.map((point: { trips: number }) => point.trips)).toEqual(
      Array.from({ length: 40 }, (_, at) => 5 * (at + 1)),
    );
    expect(document.schedule.trips).toHaveLength(14);
    const { out: text } = await runCommand(...plan, '--trips', '14');
    expect(text).toContain(`About ${formatCount(document.needed.trips)} trips`);
    expect(text).toContain(document.sentence.split('. ')[0]);
    for (const note of document.notes) expect(text).toContain(note);
  });

  test('says that a level is new, and how it may have been meant', async () => {
    const given = ['plan', log, '--factor', 'line_type', '--between', 'braid,monoo', '--json'];
    const { out: json } = await runCommand(...given);
    const { warnings, notes } = JSON.parse(json);
    expect(warnings).toContainEqual({
      code: 'new-level',
      text: 'This log has no line_type "monoo". Did you mean mono?',
    });
    expect(notes[1]).toMatch(/^The log has no line type braid and monoo yet/);
  });

  test('writes the schedule and the sheet; the same seed the same bytes, another seed others', async () => {
    const again = join(base, 'again');
    const other = join(base, 'other');
    await runCommand(...plan, '--trips', '14', '--out', again);
    await runCommand(...plan, '--trips', '14', '--seed', '2', '--out', other);
    expect(scheduleOf(again)).toBe(scheduleOf(out));
    expect(sheetOf(again)).toBe(sheetOf(out));
    expect(scheduleOf(other)).not.toBe(scheduleOf(out));
    const [header, first] = scheduleOf(out).split('\r\n');
    expect(header).toBe('trip_number,block,position,side,reach,line_type,date,trip_id');
    expect(first).toMatch(/^1,1,port-short,port,short,(?:braid|mono),,$/);
    expect(scheduleOf(out).trimEnd().split('\r\n')).toHaveLength(1 + 14 * 4);
  });

  test('the sheet is whole by itself: its own style by its hash, no script, a box a line', () => {
    const html = sheetOf(out);
    const style = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? '';
    const hash = createHash('sha256').update(style, 'utf8').digest('base64');
    expect(html).toContain(`default-src 'none'; style-src 'sha256-${hash}'`);
    expect(html).not.toMatch(/<script|\sstyle=|https?:/);
    expect(html.match(/<i aria-hidden="true"><\/i>/g)).toHaveLength(14 * 4);
    expect(html).toContain('local rules for gear');
    expect(html).toContain('breaking strength');
  });

  test('a schedule with dates in it is never written over', async () => {
    const kept = join(base, 'kept');
    cpSync(out, kept, { recursive: true });
    await runCommand(...plan, '--seed', '5', '--trips', '14', '--out', kept);
    const filled = scheduleOf(kept).replace(/,,\r\n/, ',2026-05-01,\r\n');
    writeFileSync(join(kept, 'schedule.csv'), filled);
    const { exitCode, err } = await runCommand(...plan, '--out', kept);
    expect(exitCode).toBe(2);
    expect(err).toMatch(/has the dates of 1 trip filled in, .* Name another folder/);
    expect(scheduleOf(kept)).toBe(filled);
  });

  test('names of levels are safe in the sheet and in the CSV', async () => {
    const hostile = '=cmd|x <img src=x onerror=alert(1)>';
    const folder = join(base, 'hostile');
    await runCommand(
      'plan',
      log,
      '--factor',
      'bait',
      '--between',
      `mullet,${hostile}`,
      '--out',
      folder,
    );
    expect(sheetOf(folder)).not.toContain('<img');
    expect(sheetOf(folder)).toContain('&lt;img');
    expect(scheduleOf(folder)).toContain(`,'${hostile},`);
  });
});

describe('too little, or a wrong call', () => {
  test('an empty log is refused with what to log first, exit code 1', async () => {
    const empty = logFolder({ 'trips.csv': 'trip_id,date\n', 'bites.csv': 'trip_id,outcome\n' });
    const given = ['plan', empty, '--factor', 'bait', '--between', 'a,b'];
    const { exitCode, out: text } = await runCommand(...given);
    expect(exitCode).toBe(1);
    expect(text).toMatch(/^There is no trip to plan from\. Log a few ordinary trips first/);
    const json = JSON.parse((await runCommand(...given, '--json')).out);
    expect(json).toMatchObject({ schema: 'linehours/plan@1', refused: text.trim(), written: [] });
  });

  test.each([
    [['--factor', 'moon', '--between', 'new,full'], /Nobody can choose the moon beforehand/],
    [['--factor', 'reach', '--between', 'long,short'], /needs no plan/],
    [['--factor', 'line_type', '--between', 'braid'], /--between "braid" must name two/],
    [['--factor', 'line_type', '--between', 'a,b', '--trips', '3'], /--trips "3" must be/],
    [['--factor', 'line_type', '--between', 'a,b', '--difference', '5'], /Did you mean 0\.05\?/],
    [['--factor', 'line_type', '--between', 'a,b', '--power', '80'], /Did you mean 0\.8\?/],
    [['--factor', 'line_type', '--between', 'a,b', '--only', 'side=port'], /a plan needs both/],
    [['--factor', 'line_type', '--between', 'a,b', '--only', 'line_type=mono'], /shares that out/],
  ])('%j', async (given, message) => {
    const { exitCode, err } = await runCommand('plan', log, ...given);
    expect(exitCode).toBe(2);
    expect(err).toMatch(message);
  });

  test('a difference for which there is no room', async () => {
    const { exitCode, out: text } = await runCommand(...plan, '--difference', '0.9');
    expect(exitCode).toBe(1);
    expect(text).toMatch(/A difference of 90 points cannot be/);
  });
});

describe('compare --planned', () => {
  const lines = () =>
    scheduleOf(out)
      .trimEnd()
      .split('\r\n')
      .slice(1)
      .map((row) => row.split(','));
  const levelAt = (day: number, position: string) =>
    lines().find(([trip, , at]) => Number(trip) === day + 1 && at === position)?.[5] ?? 'mono';
  const filledSchedule = () => {
    const path = join(base, 'filled.csv');
    const rows = lines().map((row) => {
      const trip = Number(row[0]);
      return (trip <= 12 ? row.with(6, dateOf(trip - 1)) : row).join(',');
    });
    const header = scheduleOf(out).split('\r\n')[0];
    writeFileSync(path, [header, ...rows, ''].join('\r\n'));
    return path;
  };
  const compare = (folder: string, ...more: string[]) =>
    runCommand('compare', folder, '--factor', 'line_type', '--planned', filledSchedule(), ...more);

  test('where all was fished as planned both analyses are one, and the lens is the same day', async () => {
    const folder = logFolder({ 'trips.csv': TRIPS, 'bites.csv': bites(levelAt) });
    const { out: json, exitCode } = await compare(folder, '--json');
    expect(exitCode).toBe(0);
    const document = JSON.parse(json);
    expect(document).toMatchObject({ schema: 'linehours/compare@1', primary: 'same_day' });
    expect(document.planned).toMatchObject({
      trips_planned: 14,
      trips_made: 12,
      trips_open: 2,
      departures: [],
      as_fished: { difference: document.lenses.same_day.difference },
    });
    const { out: text } = await compare(folder);
    expect(text).toMatch(/as planned \*/);
    expect(text).toContain('The difference is taken within each trip that fished both');
    expect(text).toContain(
      '12 of the 14 trips of the schedule are in the log; 2 have no date yet.',
    );
    expect(text).toContain('What was planned was fished, as far as the log says.');
  });

  test('what was fished otherwise is named', async () => {
    const other = (day: number, position: string) => {
      const planned = levelAt(day, position);
      if (day !== 4 || position !== 'port-long') return planned;
      return planned === 'braid' ? 'mono' : 'braid';
    };
    const folder = logFolder({ 'trips.csv': TRIPS, 'bites.csv': bites(other) });
    const { out: text } = await compare(folder);
    expect(text).toMatch(/On 1 trip something else was fished than planned:/);
    expect(text).toMatch(/ {3}5 {2}2026-01-13 {2}T4 +port-long +(?:braid +mono|mono +braid) +\d/);
  });

  test('the wrong factor, other levels, another file', async () => {
    const path = filledSchedule();
    const wrong = await runCommand('compare', log, '--factor', 'bait', '--planned', path);
    expect(wrong).toMatchObject({
      exitCode: 2,
      err: expect.stringMatching(/say --factor line_type/),
    });
    const levels = await compare(log, '--between', 'braid,wire');
    expect(levels).toMatchObject({
      exitCode: 2,
      err: expect.stringMatching(/is of braid and mono/),
    });
    const none = await runCommand('compare', log, '--factor', 'bait', '--planned', 'nowhere.csv');
    expect(none).toMatchObject({ exitCode: 2, err: expect.stringMatching(/There is no schedule/) });
  });

  test('a schedule without dates has nothing to say yet, exit code 1', async () => {
    const given = ['--factor', 'line_type', '--planned', join(out, 'schedule.csv')];
    const { exitCode, out: text } = await runCommand('compare', log, ...given);
    expect(exitCode).toBe(1);
    expect(text).toMatch(/^OPEN {2}The plan has nothing to say yet/);
    expect(text).toContain(
      '0 of the 14 trips of the schedule are in the log; 14 have no date yet.',
    );
  });
});

describeInBrowser('the sheet, from disk with the network off', (browser) => {
  test.each(LOOKS)(
    'at $width px, $scheme',
    async (look) => {
      const address = pathToFileURL(join(out, 'plan.html')).href;
      expect(await faultsOf(browser(), address, look)).toEqual([]);
    },
    60_000,
  );
});
