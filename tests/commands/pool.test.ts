import { existsSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';
import { fleetFiles, fleetTrips, logFolder } from '../share/fleet-log.ts';

const SAMPLES = resolve(import.meta.dirname, '../../data-samples/packages');
const [ONE, OTHER] = [join(SAMPLES, 'linnet-quay'), join(SAMPLES, 'sable-roads')];
const outFolder = () => join(mkdtempSync(join(tmpdir(), 'pool-')), 'pool');

describe('pool', () => {
  test('one JSON document: packages, figures, what they say together', async () => {
    const out = outFolder();
    const {
      exitCode,
      err,
      out: text,
    } = await runCommand('pool', ONE, OTHER, '--out', out, '--json');
    expect({ exitCode, err }).toEqual({ exitCode: 0, err: '' });
    const document = JSON.parse(text);
    expect(document.schema).toBe('linehours/pool@1');
    expect(document.packages).toMatchObject([
      { package: 'linnet-quay', trips: 50, vessels: 1, consent: true, licence: 'CC-BY-4.0' },
      { package: 'sable-roads', trips: 52 },
    ]);
    const hookup = document.pooled[0];
    expect(hookup.measure).toBe('hookup_rate');
    expect(hookup.studies).toMatchObject([
      { numerator: 440, denominator: 500, estimate: 440 / 500 },
      { numerator: 513, denominator: 630, estimate: 513 / 630 },
    ]);
    expect(hookup.random.lower).toBeLessThan(hookup.hartung_knapp.estimate);
    expect(hookup.heterogeneity.df).toBe(1);
    expect(hookup.prediction).toBeNull();
    expect(document.written.sort()).toEqual(
      readdirSync(out)
        .filter((name) => !name.startsWith('.'))
        .sort(),
    );
  });

  test('the page holds every figure of the document, complete by itself', async () => {
    const out = outFolder();
    const { out: text } = await runCommand('pool', ONE, OTHER, '--out', out);
    const page = readFileSync(join(out, 'pool.html'), 'utf8');
    expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
    for (const name of readdirSync(out).filter((file) => file.endsWith('.csv'))) {
      expect(page).toContain(`href="${name}"`);
    }
    expect(text).toMatch(/440 of 500 bites/);
    expect(text).toMatch(/together, boats may differ/);
    expect(Buffer.byteLength(page)).toBeLessThan(400_000);
  });

  test('the same bytes each time', async () => {
    const [a, b] = [outFolder(), outFolder()];
    await runCommand('pool', ONE, OTHER, '--out', a);
    await runCommand('pool', ONE, OTHER, '--out', b);
    for (const name of readdirSync(a)) {
      expect(readFileSync(join(b, name), 'utf8')).toBe(readFileSync(join(a, name), 'utf8'));
    }
  });

  test('trips one by one may be pooled with sums of other boats', async () => {
    const made = outFolder();
    const log = logFolder(fleetFiles(fleetTrips()));
    await runCommand('share', log, '--tier', 'trips', '--k', '4', '--out', made);
    const { exitCode, out } = await runCommand('pool', made, ONE, '--out', outFolder(), '--json');
    expect(exitCode).toBe(0);
    const document = JSON.parse(out);
    expect(document.packages[0]).toMatchObject({ tier: 'trips', vessels: 3 });
    expect(document.warnings.map((w: { text: string }) => w.text).join()).toMatch(
      /no licence was given/,
    );
  });

  test.each([
    [[ONE], 2, /two packages or more/],
    [[ONE, ONE], 2, /linnet-quay is named twice/],
    [[ONE, join(SAMPLES, 'nowhere')], 3, /There is no package at/],
  ])('%s', async (paths, code, message) => {
    const out = outFolder();
    const { exitCode, err } = await runCommand('pool', ...paths, '--out', out);
    expect([exitCode, err]).toEqual([code, expect.stringMatching(message)]);
    expect(existsSync(out)).toBe(false);
  });
});
