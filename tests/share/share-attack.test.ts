import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { foldedWords, foldText } from '../../src/share/scan-fold.ts';
import { templateText } from '../../src/share/scan-template.ts';
import { runCommand } from '../helpers/run-command.ts';
import { CANARIES, type FleetTrip, fleetFiles, fleetTrips, logFolder } from './fleet-log.ts';
import { filesOf, rowsOf } from './package-reader.ts';

const outFolder = () => join(mkdtempSync(join(tmpdir(), 'share-')), 'package');

async function share(folder: string, ...words: readonly string[]) {
  const out = outFolder();
  const result = await runCommand('share', folder, '--out', out, ...words);
  return { ...result, out, printed: result.out };
}

const fleet = fleetTrips();
const fleetLog = logFolder(fleetFiles(fleet));
const shared = await share(fleetLog);
const aloneLog = logFolder(fleetFiles(fleet.filter((trip) => trip.vessel === CANARIES.vessels[0])));
const alone = await share(aloneLog, '--consent');
const oneByOne = await share(logFolder(fleetFiles(fleet)), '--tier', 'trips', '--k', '4');

/** Every string an owner would not want to see, in forms a reader could find it in. */
function secrets(trips: readonly FleetTrip[]): string[] {
  const words = Object.values(CANARIES)
    .flat()
    .flatMap((text) => text.split(/[^\p{L}\p{N}]+/u));
  const telling = words.filter((word) => word.startsWith('Zq') || word.length > 5);
  return [
    ...new Set(telling),
    'Zqfolder',
    ...trips.flatMap(({ id, date, lat, lon }) => [
      id,
      date,
      date.split('-').reverse().join('/'),
      Math.abs(lat).toFixed(2),
      lon.toFixed(2),
    ]),
  ];
}

describe('what leaves', () => {
  test.each([
    ['three vessels', shared],
    ['one vessel', alone],
    ['trips one by one', oneByOne],
  ])(
    '%s: no name, note, id, exact day or place in any byte or file name',
    (_, { out, exitCode }) => {
      expect(exitCode).toBe(0);
      const text = foldText(Object.entries(filesOf(out)).flat().join('\n'));
      const found = secrets(fleet).filter((secret) => text.includes(foldText(secret)));
      expect(found).toEqual([]);
      expect(text).not.toMatch(/(?<!\d)\d{1,2}:\d{2}(?!\d)/);
    },
  );

  test('every word of a package is one of its own words, a code or a pseudonym', () => {
    for (const { out } of [shared, alone, oneByOne]) {
      const choices = { gridDeg: 1, period: 'month', consent: false, gear: 'LHP' } as const;
      const template = templateText({
        ...choices,
        thresholds: { minVessels: 3, minTrips: 3 },
        licence: null,
        noise: null,
      });
      const own = new Set(foldedWords(template.text));
      const { '.linehours-wrote-this': _marker, ...files } = filesOf(out);
      const strange = Object.values(files)
        .flatMap(foldedWords)
        .filter((word) => !own.has(word) && !/^\d+$/.test(word))
        .filter((word) => !/^[0-9a-f]{24}$|^[0-9a-f]{64}$/.test(word));
      const codes = ['sfa', 'wah', 'mzz', 'f0', 'f4', 'f6', 'se'];
      expect([...new Set(strange)].filter((word) => !codes.includes(word))).toEqual([]);
    }
  });

  test('every row meets the thresholds, and its figures are the log’s own', () => {
    const rows = rowsOf(shared.out, 'effort');
    expect(rows.length).toBeGreaterThan(3);
    for (const row of rows) {
      const inRow = fleet.filter((trip) => {
        const size = Number(row.cell_deg);
        const corner = (degrees: number) => Math.floor(Math.abs(degrees) / size) * size;
        return (
          Number(trip.date.slice(5, 7)) === row.month &&
          corner(trip.lat) === row.corner_lat &&
          corner(trip.lon) === row.corner_lon
        );
      });
      const outcomes = inRow.flatMap((trip) => trip.bites.map(([, outcome]) => outcome));
      const count = (outcome: string) => outcomes.filter((one) => one === outcome).length;
      expect(row).toMatchObject({
        trips: inRow.length,
        vessels: new Set(inRow.map((trip) => trip.vessel)).size,
        bites: outcomes.length,
        missed: count('missed'),
        kept: count('kept'),
        released: count('released'),
        lost: count('lost'),
      });
      expect(row.line_hours).toBeCloseTo(
        inRow.reduce((sum, trip) => sum + trip.hours, 0),
        1,
      );
      expect(row.trips).toBeGreaterThanOrEqual(3);
      expect(row.vessels).toBeGreaterThanOrEqual(3);
    }
    // January and the April square are 1°; the boat alone in February took its square to 5°.
    expect(rows.map((row) => [row.month, row.cell_deg])).toEqual([
      [1, 1],
      [2, 5],
      [3, 1],
      [4, 1],
    ]);
  });

  test('fish by species and fate add up to the rows, zeros included', () => {
    const fish = rowsOf(shared.out, 'catch');
    const rows = rowsOf(shared.out, 'effort');
    const codes = ['MZZ', 'SFA', 'WAH'];
    expect(fish.map((row) => row.species)).toEqual(rows.flatMap(() => codes));
    for (const row of rows) {
      const own = fish.filter((one) => one.month === row.month);
      for (const fate of ['kept', 'released', 'lost'] as const) {
        expect(own.reduce((sum, one) => sum + Number(one[fate]), 0)).toBe(row[fate]);
      }
    }
    const wahoo = fleet
      .flatMap((trip) => trip.bites)
      .filter(([s, o]) => s === 'wahoo' && o === 'kept');
    const shown = fish
      .filter((row) => row.species === 'WAH')
      .reduce((n, row) => n + Number(row.kept), 0);
    // Three trips of March and April stand in no row.
    const hidden = fleet.slice(-3).flatMap((trip) => trip.bites);
    const hiddenWahoo = hidden.filter(([s, o]) => s === 'wahoo' && o === 'kept').length;
    expect(shown).toBe(wahoo.length - hiddenWahoo);
  });

  test('totals that would show the few left out are withheld; those given add up', () => {
    const totals = rowsOf(shared.out, 'totals');
    expect(totals.map((row) => row.total)).toEqual(['2025-01', '2025-02', 'all']);
    const rows = rowsOf(shared.out, 'effort');
    expect(totals[0]?.bites).toBe(rows[0]?.bites);
    // The whole less everything shown: two trips of March and one of April, by three vessels.
    const all = totals[2];
    const shown = rows.reduce((sum, row) => sum + Number(row.trips), 0);
    expect(Number(all?.trips) - shown).toBe(3);
    expect(all?.trips).toBe(fleet.length);
    expect(all?.bites).toBe(fleet.reduce((sum, trip) => sum + trip.bites.length, 0));
  });

  test('how many trips are left out is a sum too: told only where the totals show it anyway', async () => {
    // January leaves out one trip of each boat in squares of their own, a group that may be shown;
    // March leaves out two trips of two boats, which five left out less those three would show.
    const far = [-2.5, -22.5, -32.5].flatMap((lat, n) =>
      fleet.slice(0, 1).map((trip): FleetTrip => {
        const vessel = CANARIES.vessels[n] ?? '';
        return { ...trip, id: `${CANARIES.tripPrefix}-9${n}`, vessel, lat, lon: 62.5, hours: 5 };
      }),
    );
    const log = logFolder(fleetFiles([...fleet.slice(0, -1), ...far]));
    const shown = await share(log, '--json');
    const record = JSON.parse(filesOf(shown.out)['disclosure.json'] ?? '');
    const given = rowsOf(shown.out, 'totals').map((row) => row.total);
    expect(given).toEqual(['2025-01', '2025-02', '2025-04']);
    expect(record.left_out.trips).toBeNull();
    expect(record.left_out.text).toMatch(/how many is not told/);
    expect(filesOf(shown.out)['disclosure.html']).not.toMatch(/5 trips are not/);
    // The owner is told.
    expect(JSON.parse(shown.printed).left_out.trips).toBe(5);
  });

  test('the disclosure report and the terminal say what was left out; only the owner is told where', () => {
    const record = JSON.parse(filesOf(shared.out)['disclosure.json'] ?? '');
    expect(record).toMatchObject({
      merged_rows: 1,
      left_out: { trips: 3 },
      totals: { given: 3, withheld: 2 },
      smallest_group_by_subtraction: 3,
      scan: { found: 0 },
    });
  });
});

describe('one vessel', () => {
  test('cannot reach the threshold, is told so, and leaves nothing without consent', async () => {
    const folder = logFolder(fleetFiles(fleet.filter((t) => t.vessel === CANARIES.vessels[1])));
    const refused = await share(folder);
    expect(refused.exitCode).toBe(1);
    expect(existsSync(refused.out)).toBe(false);
    expect(existsSync(join(folder, '.linehours-private'))).toBe(false);
  });

  test('consent is recorded in the package', () => {
    const descriptor = JSON.parse(filesOf(alone.out)['datapackage.json'] ?? '');
    expect(descriptor.linehours.consent).toMatchObject({ given: true });
    expect(descriptor.linehours.consent.text).toMatch(/owner of that vessel agreed/);
    expect(descriptor.linehours.thresholds).toMatchObject({ min_vessels: 1, min_trips: 3 });
    expect(rowsOf(alone.out, 'effort').every((row) => Number(row.trips) >= 3)).toBe(true);
  });

  test('one owner cannot consent for three boats', async () => {
    const refused = await share(fleetLog, '--consent');
    expect(refused.exitCode).toBe(2);
    expect(refused.err).toMatch(/one owner for one boat; these trips are of 3/);
  });
});

describe('the owner’s folder', () => {
  test('holds key and ledger that nobody else can read, and nothing else is written to the log', () => {
    const folder = join(fleetLog, '.linehours-private');
    expect(statSync(folder).mode & 0o777).toBe(0o700);
    for (const name of ['key', 'ledger.json']) {
      expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600);
    }
    expect(Object.keys(filesOf(folder)).sort()).toEqual(['.gitignore', 'key', 'ledger.json']);
    const ledger = readFileSync(join(folder, 'ledger.json'), 'utf8');
    expect(ledger).not.toContain(CANARIES.tripPrefix);
  });

  test('same log, same key: the same bytes, and the same release', async () => {
    const again = await share(fleetLog);
    expect(filesOf(again.out)).toEqual(filesOf(shared.out));
  });

  test('a key without its ledger stops: what left before cannot be held against what would leave', async () => {
    const folder = logFolder(fleetFiles(fleet));
    await share(folder);
    rmSync(join(folder, '.linehours-private', 'ledger.json'));
    const stopped = await share(folder);
    expect(stopped.exitCode).toBe(2);
    expect(stopped.err).toMatch(/has a key but its ledger is gone.*move the folder elsewhere/);
    expect(existsSync(stopped.out)).toBe(false);
  });

  test('a damaged key stops before anything is written', async () => {
    const folder = logFolder(fleetFiles(fleet));
    await share(folder);
    writeFileSync(join(folder, '.linehours-private', 'key'), 'not hex\n');
    const stopped = await share(folder);
    expect(stopped.exitCode).toBe(2);
    expect(stopped.err).toMatch(/key in .* is damaged/);
    expect(existsSync(stopped.out)).toBe(false);
  });

  test('a package that cannot be written is no release', async () => {
    const folder = logFolder(fleetFiles(fleet));
    const stopped = await runCommand('share', folder, '--out', join(folder, 'trips.csv'));
    expect(stopped.exitCode).toBe(2);
    expect(existsSync(join(folder, '.linehours-private'))).toBe(false);
  });
});
