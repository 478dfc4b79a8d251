import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { UserError } from '../../src/base/problem.ts';
import { readSeason } from '../../src/read/read-season.ts';
import { OUTCOMES } from '../../src/read/rows.ts';
import type { SeasonLog } from '../../src/read/season-log.ts';

// Each folder of tests/logs is a case named after what it shows: the files of a log, and in
// expected.json what must come of them, written down by hand from the contract and never from a run.
const LOGS = join(import.meta.dirname, '../logs');

interface Expected {
  readonly shows: string;
  /** The log cannot be read: exit code, and what the one sentence must contain. */
  readonly error?: { readonly exitCode: number; readonly says: readonly string[] };
  /** Bites by outcome, counts added up. */
  readonly outcomes?: Readonly<Record<string, number>>;
  readonly trips_used?: number;
  /** Soak minutes by the wall clock, or by the hours logged. */
  readonly soak_minutes?: number;
  /** Every problem, as `effect code file:line column`. */
  readonly problems?: readonly string[];
  /** What the text or remedy of a rule must contain. */
  readonly says?: Readonly<Record<string, readonly string[]>>;
  readonly files?: Readonly<Record<string, object>>;
  readonly rows?: Readonly<Record<'trips' | 'soaks' | 'bites' | 'baitBuys', readonly object[]>>;
}

const names = readdirSync(LOGS, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => entry.name)
  .sort();

describe('logs as captains keep them', () => {
  test('there are at least 60 cases', () => {
    expect(names.length).toBeGreaterThanOrEqual(60);
  });

  for (const name of names) {
    const folder = join(LOGS, name);
    const expected: Expected = JSON.parse(readFileSync(join(folder, 'expected.json'), 'utf8'));
    test(`${name}: ${expected.shows}`, async () => {
      if (expected.error !== undefined) await expectError(folder, expected.error);
      else expectLog(await readSeason(folder), expected);
    });
  }
});

async function expectError(folder: string, error: NonNullable<Expected['error']>): Promise<void> {
  const thrown = await readSeason(folder).then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(thrown).toBeInstanceOf(UserError);
  const { exitCode, message } = thrown as UserError;
  expect(exitCode).toBe(error.exitCode);
  for (const words of error.says) expect(message).toContain(words);
}

function expectLog(log: SeasonLog, expected: Expected): void {
  const { problems, files } = log.account;
  if (expected.problems !== undefined) {
    const found = problems.map(
      ({ effect, code, file, line, column }) =>
        `${effect} ${code} ${file}:${line ?? '-'} ${column ?? '-'}`,
    );
    expect(found.sort()).toEqual([...expected.problems].sort());
  }
  if (expected.outcomes !== undefined) expect(outcomesOf(log)).toEqual(expected.outcomes);
  if (expected.trips_used !== undefined) expect(log.trips).toHaveLength(expected.trips_used);
  if (expected.soak_minutes !== undefined) expect(soakMinutes(log)).toBe(expected.soak_minutes);
  for (const [file, account] of Object.entries(expected.files ?? {})) {
    expect(files.find((entry) => entry.file === file)).toMatchObject(account);
  }
  for (const [code, words] of Object.entries(expected.says ?? {})) {
    const texts = problems.filter((problem) => problem.code === code);
    const said = texts.map((problem) => `${problem.text} ${problem.remedy}`).join('\n');
    for (const word of words) expect(said).toContain(word);
  }
  for (const [table, rows] of Object.entries(expected.rows ?? {})) {
    const found = log[table as 'trips' | 'soaks' | 'bites' | 'baitBuys'] ?? [];
    rows.forEach((row, index) => {
      expect(found[index], `${table} ${index}`).toMatchObject(nearly(row));
    });
  }
}

/** Figures converted between units may differ in their last digit. */
function nearly(row: object): object {
  return Object.fromEntries(
    Object.entries(row).map(([column, value]) => [
      column,
      typeof value === 'number' ? expect.closeTo(value, 9) : value,
    ]),
  );
}

function outcomesOf(log: SeasonLog): Record<string, number> {
  return Object.fromEntries(
    OUTCOMES.map((outcome) => [
      outcome,
      log.bites.reduce((sum, bite) => sum + (bite.outcome === outcome ? bite.count : 0), 0),
    ]),
  );
}

function soakMinutes(log: SeasonLog): number {
  return (log.soaks ?? []).reduce((sum, { time_in, time_out, hours }) => {
    const isTimed = time_in !== null && time_out !== null;
    return sum + (isTimed ? (time_out - time_in + 1440) % 1440 : (hours ?? 0) * 60);
  }, 0);
}
