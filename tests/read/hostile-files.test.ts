import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { UserError } from '../../src/base/problem.ts';
import { readSeason } from '../../src/read/read-season.ts';

const home = mkdtempSync(join(tmpdir(), 'linehours-hostile-'));
const log = join(home, 'log');
afterAll(() => rmSync(home, { recursive: true }));

const TRIPS = 'trip_id,date\nT1,2024-03-05\n';
const BITES = 'trip_id,outcome\nT1,missed\n';

beforeEach(() => {
  rmSync(log, { recursive: true, force: true });
  mkdirSync(log);
  write('trips.csv', TRIPS);
  write('bites.csv', BITES);
});

function write(name: string, content: string | Buffer): void {
  rmSync(join(log, name), { force: true, recursive: true });
  writeFileSync(join(log, name), content);
}

async function refusal(): Promise<UserError> {
  const error = await readSeason(log).catch((reason: unknown) => reason);
  expect(error).toBeInstanceOf(UserError);
  return error as UserError;
}

describe('files that are not what they seem', () => {
  test('a folder that is not there', async () => {
    rmSync(log, { recursive: true });
    const { message, exitCode } = await refusal();
    expect(message).toBe(
      `There is no folder ${log}. Name the folder that holds trips.csv and bites.csv.`,
    );
    expect(exitCode).toBe(3);
  });

  test('a file where the folder should be', async () => {
    rmSync(log, { recursive: true });
    writeFileSync(log, 'x');
    expect((await refusal()).message).toContain('is a file');
  });

  test('a folder named trips.csv', async () => {
    rmSync(join(log, 'trips.csv'));
    mkdirSync(join(log, 'trips.csv'));
    const { message } = await refusal();
    expect(message).toBe('trips.csv is a folder. Put the CSV file itself into the log folder.');
  });

  test('a pipe named bites.csv is not waited on', async () => {
    rmSync(join(log, 'bites.csv'));
    execFileSync('mkfifo', [join(log, 'bites.csv')]);
    expect((await refusal()).message).toContain('bites.csv is no plain file');
  });

  test('a link out of the log folder is not followed', async () => {
    writeFileSync(join(home, 'elsewhere.csv'), BITES);
    rmSync(join(log, 'bites.csv'));
    symlinkSync(join(home, 'elsewhere.csv'), join(log, 'bites.csv'));
    expect((await refusal()).message).toContain('bites.csv is a link that leads out');
  });

  test('a link within the log folder is', async () => {
    rmSync(join(log, 'bites.csv'));
    mkdirSync(join(log, 'old'));
    writeFileSync(join(log, 'old', 'b.csv'), BITES);
    symlinkSync(join(log, 'old', 'b.csv'), join(log, 'bites.csv'));
    expect((await readSeason(log)).bites).toHaveLength(1);
  });

  test('a link to nothing', async () => {
    symlinkSync(join(home, 'nowhere.csv'), join(log, 'soaks.csv'));
    expect((await refusal()).message).toContain('soaks.csv is a link to a file that is not there');
  });

  test('the log folder itself may be a link', async () => {
    const link = join(home, 'link');
    symlinkSync(log, link);
    expect((await readSeason(link)).bites).toHaveLength(1);
  });
});

describe('files out of all proportion', () => {
  test('a cell of 5 million letters costs its own cell only', async () => {
    write(
      'bites.csv',
      `trip_id,outcome,bait,notes\nT1,missed,${'x'.repeat(5_000_000)},ok\nT1,lost,squid,\n`,
    );
    const { bites, account } = await readSeason(log);
    expect(bites.map((bite) => bite.bait)).toEqual([null, 'squid']);
    const [problem] = account.problems;
    expect(problem).toMatchObject({ code: 'cell-too-long', line: 2, column: 'bait' });
    expect(problem?.received.length).toBeLessThan(200);
  });

  test('a quoted cell of 5 million letters over many lines', async () => {
    const note = `${'y'.repeat(99)}\n`.repeat(1500);
    write('bites.csv', `trip_id,outcome,notes\nT1,missed,"${note}"\nT1,lost,\n`);
    const { bites } = await readSeason(log);
    expect(bites.map((bite) => bite.outcome)).toEqual(['missed', 'lost']);
    expect(bites[0]?.notes?.length).toBe(20_000);
  });

  test('a header of 200,000 columns', async () => {
    const names = Array.from({ length: 200_000 }, (_, i) => `c${i}`).join(',');
    write('bites.csv', `trip_id,outcome,${names}\nT1,missed\n`);
    expect((await refusal()).message).toBe(
      'bites.csv has 200002 columns; a log has at most 1000. Export only the table itself.',
    );
  });

  test('a row of 200,000 cells under a sound header', async () => {
    write('bites.csv', `${BITES}T1,lost${',z'.repeat(200_000)}\nT1,kept\n`);
    const { bites, account } = await readSeason(log);
    expect(bites.map((bite) => bite.outcome)).toEqual(['missed', 'kept']);
    expect(account.setAside[0]?.cells).toHaveLength(200_002);
  });

  test('a line that never ends', async () => {
    write('bites.csv', Buffer.alloc(17 * 1024 * 1024, 'a'));
    expect((await refusal()).message).toContain('over 16 million characters');
  });

  test('quotes upon quotes', async () => {
    write(
      'bites.csv',
      `trip_id,outcome,notes\nT1,missed,${'"'.repeat(100_001)}\nT1,lost,"${'""'.repeat(5000)}"\nT1,kept,\n`,
    );
    const { bites, account } = await readSeason(log);
    expect(bites.map((bite) => bite.outcome)).toEqual(['lost', 'kept']);
    expect(account.setAside).toMatchObject([{ line: 2, code: 'quote-not-closed' }]);
  });

  test('twenty thousand open quotes', async () => {
    write('bites.csv', `trip_id,outcome,notes\n${'T1,missed,"x\n'.repeat(20_000)}T1,kept,\n`);
    const { bites, account } = await readSeason(log);
    expect(bites).toHaveLength(1);
    expect(account.setAside).toHaveLength(20_000);
    expect(account.problems).toHaveLength(200);
    expect(account.problemCounts).toMatchObject([{ code: 'quote-not-closed', count: 20_000 }]);
  });

  test('a settings file that swells', async () => {
    const bomb = ['a: &a [x,x,x,x,x,x,x,x,x]'];
    for (const [name, before] of ['ba', 'cb', 'dc', 'ed', 'fe', 'gf'].map((pair) => [...pair])) {
      bomb.push(`${name}: &${name} [${Array(9).fill(`*${before}`).join(',')}]`);
    }
    write('season.yaml', bomb.join('\n'));
    expect((await refusal()).exitCode).toBe(2);
  });
});
