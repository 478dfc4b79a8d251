import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { readSeason } from '../../src/read/read-season.ts';
import type { SeasonLog } from '../../src/read/season-log.ts';
import { setAsideTable } from '../../src/read/set-aside-table.ts';
import { csvText } from '../../src/write/csv.ts';

const LOGS = join(import.meta.dirname, '../logs');
const home = mkdtempSync(join(tmpdir(), 'linehours-set-aside-'));
afterAll(() => rmSync(home, { recursive: true }));

/** Cases that can be read and set rows aside. */
const cases = readdirSync(LOGS).filter((name) => {
  if (name.includes('.') || name.startsWith('set-aside')) return false;
  const expected = readFileSync(join(LOGS, name, 'expected.json'), 'utf8');
  return expected.includes('"set-aside ');
});

function copyOf(name: string): string {
  const folder = join(home, name);
  cpSync(join(LOGS, name), folder, { recursive: true });
  return folder;
}

function writeSetAside(folder: string, log: SeasonLog, mend = (cell: string) => cell): void {
  const { columns, rows } = setAsideTable(log.account);
  writeFileSync(
    join(folder, 'set-aside.csv'),
    csvText(
      columns,
      rows.map((row) => row.map(mend)),
    ),
  );
}

/** Rows read, used and set aside of every file. */
function balance(log: SeasonLog) {
  return log.account.files.map(({ file, rowsRead, rowsUsed, rowsSetAside }) => ({
    file,
    rowsRead,
    rowsUsed,
    rowsSetAside,
  }));
}

describe('set-aside.csv dropped back into its log', () => {
  test('there are cases to try', () => expect(cases.length).toBeGreaterThan(20));

  test.each(cases)('unmended, it changes nothing: %s', async (name) => {
    const folder = copyOf(name);
    const before = await readSeason(folder);
    writeSetAside(folder, before);
    const after = await readSeason(folder);
    expect(balance(after)).toEqual(balance(before));
    expect(setAsideTable(after.account)).toEqual(setAsideTable(before.account));
  });

  test('mended, its rows are used and nothing is set aside', async () => {
    const folder = copyOf('outcomes-unclear');
    const before = await readSeason(folder);
    expect(before.account.setAside).toHaveLength(4);
    const { columns, rows } = setAsideTable(before.account);
    const outcome = columns.indexOf('outcome');
    const mended = rows.map((row) => row.map((cell, at) => (at === outcome ? 'released' : cell)));
    writeFileSync(join(folder, 'set-aside.csv'), csvText(columns, mended));
    const after = await readSeason(folder);
    expect(after.account.setAside).toEqual([]);
    expect(after.bites.map((bite) => bite.outcome).sort()).toEqual([
      'missed',
      'released',
      'released',
      'released',
      'released',
    ]);
  });

  test('a file with headers that set-aside.csv uses itself keeps them apart', async () => {
    const folder = join(home, 'own-headers');
    cpSync(join(LOGS, 'clean-log'), folder, { recursive: true });
    writeFileSync(
      join(folder, 'spools.csv'),
      'rod,date,line_type,reason,Code,\nR1,soon,mono,worn,7,x\n',
    );
    const before = await readSeason(folder);
    const { columns, rows } = setAsideTable(before.account);
    expect(columns).toEqual([
      'file',
      'line',
      'column',
      'code',
      'reason',
      'remedy',
      'rod',
      'date',
      'line_type',
      'spools.csv: reason',
      'spools.csv: Code',
      'cell 6',
    ]);
    expect(rows[0]?.slice(6)).toEqual(['R1', 'soon', 'mono', 'worn', '7', 'x']);
    writeSetAside(folder, before, (cell) => (cell === 'soon' ? '2024-03-01' : cell));
    const [spool] = (await readSeason(folder)).spools ?? [];
    expect(spool).toMatchObject({ date: '2024-03-01', reason: 'worn', line: 2 });
  });

  test('cells that a spreadsheet would run come back as they were', async () => {
    const folder = join(home, 'guarded');
    cpSync(join(LOGS, 'clean-log'), folder, { recursive: true });
    const baits = ['=1+1', "'=1+1", '@x', '-5', '+mullet', "''-x", '\u0009tab'];
    const bites = baits.map((bait, at) => `T1,what,0${at}:10,"${bait}"\n`).join('');
    writeFileSync(join(folder, 'bites.csv'), `trip_id,outcome,time,bait\n${bites}`);
    writeSetAside(folder, await readSeason(folder), (cell) => (cell === 'what' ? 'missed' : cell));
    const after = await readSeason(folder);
    expect(after.account.setAside).toEqual([]);
    expect(after.bites.map((bite) => bite.bait)).toEqual(baits.map((bait) => bait.trim()));
  });
});
