import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';

const home = mkdtempSync(join(tmpdir(), 'linehours-init-'));
afterAll(() => rmSync(home, { recursive: true }));

describe('init', () => {
  test('makes a folder, and never writes into it a second time', async () => {
    const folder = join(home, 'season');
    expect((await runCommand('init', folder)).exitCode).toBe(0);
    writeFileSync(join(folder, 'bites.csv'), 'mine');
    const again = await runCommand('init', folder);
    expect([again.exitCode, again.err]).toEqual([
      2,
      expect.stringMatching(/already holds .*bites/),
    ]);
    expect(readFileSync(join(folder, 'bites.csv'), 'utf8')).toBe('mine');
  });

  test('a table of the log under another ending is in the way too', async () => {
    const folder = mkdtempSync(join(home, 'other-'));
    writeFileSync(join(folder, 'Trips.XLSX'), 'mine');
    const { exitCode, err } = await runCommand('init', folder);
    expect([exitCode, err]).toEqual([2, expect.stringContaining('Trips.XLSX')]);
    expect(readdirSync(folder)).toEqual(['Trips.XLSX']);
  });

  test('a file of that name', async () => {
    const file = join(home, 'a-file');
    writeFileSync(file, 'mine');
    const { exitCode, err } = await runCommand('init', file);
    expect([exitCode, err]).toEqual([2, expect.stringContaining('is a file')]);
    expect(readFileSync(file, 'utf8')).toBe('mine');
  });
});
