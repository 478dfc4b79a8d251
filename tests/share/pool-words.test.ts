import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { poolRates } from '../../src/share/pool-rates.ts';
import { poolSentence, tellsNothing } from '../../src/share/pool-sentence.ts';
import type { Measure } from '../../src/tally/measures.ts';
import { runCommand } from '../helpers/run-command.ts';
import { logFolder } from './fleet-log.ts';

const SAMPLE = resolve(import.meta.dirname, '../../data-samples/packages/linnet-quay');

/** A boat that fished forty trips and had no bite. */
async function biteless(): Promise<string> {
  const trips = Array.from({ length: 40 }, (_, n) => {
    const day = String(1 + (n % 27)).padStart(2, '0');
    return `K${n},2025-0${1 + (n % 2)}-${day},-12.4,54.6,06:30,12:30,4`;
  });
  const log = logFolder({
    'trips.csv': ['trip_id,date,lat,lon,lines_in,lines_out,lines_fished', ...trips].join('\n'),
    'bites.csv': 'trip_id,outcome\n',
  });
  const out = join(mkdtempSync(join(tmpdir(), 'pool-')), 'biteless');
  const { exitCode } = await runCommand('share', log, '--out', out, '--consent');
  expect(exitCode).toBe(0);
  return out;
}

describe('two packages too far apart', () => {
  test('no figure is given that could be anything, in text, sentence or chart', async () => {
    const out = join(mkdtempSync(join(tmpdir(), 'pool-')), 'pool');
    const told = await runCommand('pool', SAMPLE, await biteless(), '--out', out);
    expect(told.exitCode).toBe(0);
    expect(told.out).toMatch(/together, boats may differ\s+could be anything/);
    expect(told.out).toMatch(/biteless\s+0 \(0–[\d.]+\)\s+0 in 960 line-hours/);
    expect(told.out).toMatch(/hookups per line-hour could be anything: they differ too much/);
    expect(told.out).not.toMatch(/10[⁰¹²³⁴-⁹]|\d{2},\d{3}\./);
    const page = readFileSync(join(out, 'pool.html'), 'utf8');
    expect(page).not.toMatch(/000,000/);
    // The limits themselves stay in the table for programs.
    const csv = readFileSync(join(out, 'pool-hookups-per-line-hour.csv'), 'utf8');
    expect(csv).toMatch(/"?together, boats may differ"?,random,[\d.]+,[\d.e-]+,[\d.e+]+/);
  });

  test('what only one package holds is not given twice as if it were pooled', async () => {
    const out = join(mkdtempSync(join(tmpdir(), 'pool-')), 'pool');
    const told = await runCommand('pool', SAMPLE, await biteless(), '--out', out);
    const [hookups = ''] = told.out.split('\n\n');
    expect(hookups).toMatch(/^the share of bites hooked/);
    expect(hookups).toMatch(/Only one package holds it/);
    expect(hookups).not.toMatch(/together/);
  });

  test('a wide but telling interval is given as it is', () => {
    const limits = (lower: number, upper: number) => ({ lower, upper });
    expect(tellsNothing(limits(0.05, 0.99), 'hookup_rate')).toBe(false);
    expect(tellsNothing(limits(0.001, 0.999), 'hookup_rate')).toBe(true);
    expect(tellsNothing(limits(0.01, 5), 'bites_per_line_hour')).toBe(false);
    expect(tellsNothing(limits(0.001, 5), 'bites_per_line_hour')).toBe(true);
    const rate = (numerator: number) => ({
      measure: 'bites_per_line_hour' as Measure,
      numerator,
      denominator: 100,
      trips: 10,
      designEffect: 1,
    });
    const [pooled] = poolRates(
      [40, 50, 60].map((n) => ({ label: String(n), rates: [rate(n)] })),
      0.95,
    );
    if (pooled === undefined) throw new Error('nothing pooled');
    expect(poolSentence(pooled)).toMatch(/bites per line-hour are 5\.0 per 10.line-hours \(/);
  });
});
