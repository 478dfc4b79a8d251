import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';

const root = resolve(import.meta.dirname, '../..');
const committed = join(root, 'reports/port-vellamy');
const scratch = mkdtempSync(join(tmpdir(), 'linehours-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

const filesOf = (folder: string) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => statSync(join(folder, name)).isFile())
    .sort();

describe('the committed pages of the demo season', () => {
  test('regression: are what this code writes today (npm start renews them)', async () => {
    const fresh = join(scratch, 'pages');
    const log = join(root, 'data-samples/port-vellamy');
    expect((await runCommand('report', log, '--out', fresh)).exitCode).toBe(0);
    expect(filesOf(committed)).toEqual(filesOf(fresh));
    const stale = filesOf(fresh).filter(
      (name) =>
        readFileSync(join(fresh, name), 'utf8') !== readFileSync(join(committed, name), 'utf8'),
    );
    expect(stale).toEqual([]);
  });

  test('weigh under 2 MB', () => {
    const bytes = filesOf(join(root, 'reports')).map(
      (name) => statSync(join(root, 'reports', name)).size,
    );
    expect(bytes.reduce((sum, size) => sum + size, 0)).toBeLessThan(2_000_000);
  });
});

describe('a report', () => {
  test('is the same, byte for byte, when it is written again', async () => {
    const log = join(root, 'tests/seasons/ten-trips');
    const [one, two] = [join(scratch, 'one'), join(scratch, 'two')];
    for (const out of [one, two]) await runCommand('report', log, '--out', out);
    for (const name of filesOf(one)) {
      expect(readFileSync(join(two, name), 'utf8'), name).toBe(
        readFileSync(join(one, name), 'utf8'),
      );
    }
  });

  test('leaves the log as it was', async () => {
    const log = join(root, 'tests/seasons/ten-trips');
    const look = () =>
      filesOf(log).map((name) => [
        name,
        readFileSync(join(log, name), 'utf8'),
        statSync(join(log, name)).mtimeMs,
      ]);
    const before = look();
    await runCommand('report', log, '--out', join(scratch, 'untouched'));
    await runCommand('check', log, '--out', scratch);
    expect(look()).toEqual(before);
  });
});
