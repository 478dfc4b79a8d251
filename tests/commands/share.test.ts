import { existsSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';
import { packageFaults } from '../share/data-package-rules.ts';
import { fleetFiles, fleetTrips, logFolder } from '../share/fleet-log.ts';
import { filesOf, rowsOf } from '../share/package-reader.ts';

const fleet = fleetTrips();
const log = logFolder(fleetFiles(fleet));
const outFolder = () => join(mkdtempSync(join(tmpdir(), 'share-')), 'package');

async function share(folder: string, ...words: readonly string[]) {
  const out = outFolder();
  return { ...(await runCommand('share', folder, '--out', out, ...words)), out };
}

describe('share', () => {
  test('the package follows the standard, and its tables their own schemas', async () => {
    const first = await share(log, '--licence', 'cc-by-4.0');
    expect(packageFaults(filesOf(first.out))).toEqual([]);
    const descriptor = JSON.parse(filesOf(first.out)['datapackage.json'] ?? '');
    expect(descriptor.licenses).toMatchObject([{ name: 'CC-BY-4.0' }]);
    const [oneByOne, noisy] = [
      await share(logFolder(fleetFiles(fleet)), '--tier', 'trips', '--k', '4'),
      await share(logFolder(fleetFiles(fleet)), '--noise', '0.5'),
    ];
    for (const { out, exitCode } of [oneByOne, noisy]) {
      expect(exitCode).toBe(0);
      expect(packageFaults(filesOf(out))).toEqual([]);
    }
  });

  test('one tier after the other, cut another way through the same trips, is refused', async () => {
    const folder = logFolder(fleetFiles(fleet));
    expect((await share(folder)).exitCode).toBe(0);
    const refused = await runCommand(
      'share',
      folder,
      '--out',
      outFolder(),
      '--tier',
      'trips',
      '--k',
      '4',
    );
    expect(refused.exitCode).toBe(1);
    expect(refused.out).toMatch(/Subtracted from package 1/);
  });

  test('one JSON document lists what was written and what was not', async () => {
    const folder = outFolder();
    const json = await runCommand('share', log, '--out', folder, '--json');
    expect(json.exitCode).toBe(0);
    expect(existsSync(join(folder, 'disclosure.html'))).toBe(true);
    const document = JSON.parse(json.out);
    expect(document).toMatchObject({
      schema: 'linehours/share@1',
      refused: null,
      tier: 'cells',
      rows: 4,
      trips: 49,
      vessels: 3,
      thresholds: { min_vessels: 3, min_trips: 3 },
      totals: 3,
      totals_withheld: 2,
      species_without_code: ['zqfish'],
    });
    // March and April: two squares, told to the owner alone.
    expect(document.left_out.squares).toMatchObject([
      { period: '2025-03', trips: 2, vessels: 2 },
      { period: '2025-04', trips: 1, vessels: 1 },
    ]);
    expect(document.written.sort()).toEqual(
      Object.keys(filesOf(folder))
        .filter((name) => !name.startsWith('.'))
        .sort(),
    );
  });

  test('a trip added to a month that has left is refused with the month and the way on', async () => {
    const grown = logFolder(fleetFiles(fleet.slice(0, -1)));
    expect((await share(grown)).exitCode).toBe(0);
    const [extra] = fleet;
    const late = { ...extra, id: 'ZQTRIP-late', date: '2025-01-28' } as (typeof fleet)[number];
    for (const [name, text] of Object.entries(fleetFiles([...fleet.slice(0, -1), late]))) {
      writeFileSync(join(grown, name), text);
    }
    const refused = await runCommand('share', grown, '--out', outFolder());
    expect(refused.exitCode).toBe(1);
    expect(refused.out).toMatch(
      /from package 1, .*1 group of too few trips or vessels in 2025-01/s,
    );
    expect(refused.out).toMatch(/--from, --to/);
    // February to April have not changed, and may still leave.
    const rest = await share(grown, '--from', '2025-02-01');
    expect(rest.exitCode).toBe(0);
  });

  test('a corrected trip is a difference as well; another cut of the same trips is refused', async () => {
    const folder = logFolder(fleetFiles(fleet));
    expect((await share(folder)).exitCode).toBe(0);
    const corrected = fleet.map((trip, at) =>
      at === 2 ? { ...trip, hours: trip.hours + 1 } : trip,
    );
    writeFileSync(join(folder, 'soaks.csv'), fleetFiles(corrected)['soaks.csv'] ?? '');
    expect((await share(folder)).exitCode).toBe(1);
    writeFileSync(join(folder, 'soaks.csv'), fleetFiles(fleet)['soaks.csv'] ?? '');
    // One boat left out: the difference would be that boat.
    const two = await share(folder, '--only', 'vessel=Zqvessel Aaldorn,Zqvessel Beornic');
    expect(two.exitCode).toBe(1);
  });

  test('the scan stops with exit code 4, names the word, says the way on, and leaves nothing', async () => {
    const folder = logFolder(fleetFiles(fleet));
    const terms = 'https://example.org/beornic/terms';
    const stopped = await share(folder, '--licence', terms);
    expect(stopped.exitCode).toBe(4);
    expect(stopped.err).toMatch(
      /"beornic" in datapackage\.json line \d+: a part of vessel in trips\.csv/,
    );
    expect(stopped.err).toMatch(/--allow "beornic"/);
    expect(existsSync(stopped.out)).toBe(false);
    expect(existsSync(join(folder, '.linehours-private'))).toBe(false);
    expect((await share(folder, '--licence', terms, '--allow', 'Beornic')).exitCode).toBe(0);
  });

  test('notes of months, codes and words of the package itself stop nothing', async () => {
    const notes =
      'March was better than May; 3 SFA released, 1 WAH kept; effort good, cell by cell';
    const noted = fleet.map((trip) => ({ ...trip, notes }));
    const folder = logFolder(fleetFiles(noted));
    const { out, exitCode } = await share(folder);
    expect(exitCode).toBe(0);
    expect(Object.values(filesOf(out)).join('\n')).not.toMatch(/better|\bMarch\b/);
  });

  test('a boat called like a code: the false alarm names it, and the owner may clear it', async () => {
    const folder = logFolder(fleetFiles(fleet.map((trip) => ({ ...trip, notes: '' }))));
    const named = fleet.map((trip) => ({
      ...trip,
      vessel: trip.vessel.replace('Zqvessel Aaldorn', 'WAH'),
    }));
    writeFileSync(join(folder, 'trips.csv'), fleetFiles(named)['trips.csv'] ?? '');
    const stopped = await share(folder);
    expect(stopped.exitCode).toBe(4);
    expect(stopped.err).toMatch(/"WAH" in catch\.csv line \d+: vessel in trips\.csv/);
    expect((await share(folder, '--allow', 'wah')).exitCode).toBe(0);
  });

  test('noise changes counts, is stated, and takes totals and rates with it', async () => {
    const folder = logFolder(fleetFiles(fleet));
    const { out } = await share(folder, '--noise', '0.5', '--clip', '10');
    const files = filesOf(out);
    expect(Object.keys(files).sort()).toEqual([
      ...['.linehours-wrote-this', 'catch.csv', 'datapackage.json', 'disclosure.html'],
      ...['disclosure.json', 'effort.csv'],
    ]);
    expect(JSON.parse(files['datapackage.json'] ?? '').linehours.noise).toEqual({
      mechanism: 'two-sided geometric',
      epsilon: 0.5,
      clip: 10,
    });
    for (const row of rowsOf(out, 'effort')) {
      const { bites, missed, hooked, kept, released, lost } = row;
      expect(Number(missed) + Number(hooked)).toBe(bites);
      expect(Number(kept) + Number(released) + Number(lost)).toBe(hooked);
    }
    const again = await share(folder, '--noise', '0.5', '--clip', '10');
    expect(filesOf(again.out)).toEqual(files);
  });

  test('trips one by one: pseudonyms, classes of k, and no order of time', async () => {
    const folder = logFolder(fleetFiles(fleet));
    const { out } = await share(folder, '--tier', 'trips', '--k', '4');
    const rows = rowsOf(out, 'trips');
    const alike = new Map<string, number>();
    for (const row of rows) {
      const { year, month, week, cell_deg, quadrant, corner_lat, corner_lon, wind } = row;
      const key = [year, month, week, cell_deg, quadrant, corner_lat, corner_lon, wind].join();
      alike.set(key, (alike.get(key) ?? 0) + 1);
    }
    expect(Math.min(...alike.values())).toBeGreaterThanOrEqual(4);
    const record = JSON.parse(filesOf(out)['disclosure.json'] ?? '');
    expect(record.anonymity.k).toBe(Math.min(...alike.values()));
    expect(record.anonymity.l).toBeGreaterThanOrEqual(2);
    const names = rows.map((row) => String(row.trip));
    expect(names).toEqual([...names].sort());
    expect(new Set(rows.map((row) => row.vessel)).size).toBe(3);
  });

  test('below k nothing leaves', async () => {
    const refused = await share(logFolder(fleetFiles(fleet)), '--tier', 'trips', '--k', '40');
    expect(refused.exitCode).toBe(1);
    expect(existsSync(refused.out)).toBe(false);
  });

  test.each([
    [['--licence', 'mine'], /--licence "mine" is not known/],
    [['--gear', 'LHQ'], /--gear does not know "LHQ". Did you mean/],
    [['--k', '1', '--tier', 'trips'], /--k "1" must be a whole number of 2 or more/],
    [['--noise', '0'], /--noise "0" must be above 0/],
    [['--clip', '5'], /--clip goes with --noise/],
    [['--noise', '1', '--tier', 'trips'], /--noise is for sums/],
    [['--only', 'bait=zqbait'], /--only bait: share takes whole trips/],
  ])('%s is refused with the way on', async (words, message) => {
    const { exitCode, err, out } = await share(log, ...words);
    expect(exitCode).toBe(2);
    expect(err).toMatch(message);
    expect(existsSync(out)).toBe(false);
  });

  test('without --out, and with logs that hold nothing to place, it says what is missing', async () => {
    const nowhere = await runCommand('share', log);
    expect([nowhere.exitCode, nowhere.err]).toEqual([2, expect.stringMatching(/--out DIR/)]);
    const bare = logFolder({
      'trips.csv': 'trip_id,date,vessel\nA,2025-01-02,x\nB,2025-01-03,y\nC,2025-01-04,z\n',
      'bites.csv': 'trip_id,outcome\n',
    });
    const refused = await share(bare);
    expect(refused.exitCode).toBe(1);
    expect(existsSync(refused.out)).toBe(false);
    const empty = logFolder({ 'trips.csv': 'trip_id,date\n', 'bites.csv': 'trip_id,outcome\n' });
    expect((await share(empty)).exitCode).toBe(1);
  });
});
