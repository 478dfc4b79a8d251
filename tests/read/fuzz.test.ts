import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { UserError } from '../../src/base/problem.ts';
import { readSeason } from '../../src/read/read-season.ts';
import type { ReadAccount } from '../../src/read/season-log.ts';

/** Mutations a file: a fixed budget, larger where time is no matter. */
const MUTATIONS = process.env.CI === 'true' ? 400 : 40;

const BASE = join(import.meta.dirname, 'fuzz-base');
const folder = mkdtempSync(join(tmpdir(), 'linehours-fuzz-'));
cpSync(BASE, folder, { recursive: true });
afterAll(() => rmSync(folder, { recursive: true }));

/** Bytes that mean something to one layer or another of the reader. */
const TELLING = [
  '"',
  ',',
  ';',
  '\n',
  '\r',
  '\t',
  '|',
  '\0',
  "'",
  '=',
  '-',
  '/',
  ':',
  '.',
  '0',
  '9',
  ' ',
];
const PIECES = [
  '""',
  '",',
  '\n"',
  '\r\n\r\n',
  '\uFEFF',
  'sep=;\n',
  '1e309',
  '__proto__',
  'total',
  '-',
  'é',
];

describe('bytes changed at random in each file of a log', () => {
  for (const name of [
    'trips.csv',
    'soaks.csv',
    'bites.csv',
    'spools.csv',
    'bait-buys.csv',
    'tally.csv',
    'set-aside.csv',
    'season.yaml',
  ]) {
    test(`${name}: never a crash, and every row accounted for`, async () => {
      const sound = readFileSync(join(BASE, name));
      for (let seed = 1; seed <= MUTATIONS; seed++) {
        writeFileSync(join(folder, name), mutated(sound, seed));
        const outcome = await readSeason(folder).catch((error: unknown) => error);
        if (outcome instanceof UserError) expect(outcome.message).toMatch(/\S/);
        else if (outcome instanceof Error)
          throw new Error(`${name}, seed ${seed}`, { cause: outcome });
        else expectWhole((outcome as { account: ReadAccount }).account, `${name}, seed ${seed}`);
      }
      writeFileSync(join(folder, name), sound);
    });
  }
});

function expectWhole(account: ReadAccount, label: string): void {
  for (const { path, rowsRead, rowsUsed, rowsSetAside, file } of account.files) {
    expect(rowsRead, `${label}: ${path}`).toBe(rowsUsed + rowsSetAside);
    const kept = account.setAside.filter((row) => row.file === file);
    expect(kept.length, `${label}: ${path}`).toBe(rowsSetAside);
  }
}

/** The bytes after one to six changes drawn from the seed. */
function mutated(bytes: Buffer, seed: number): Buffer {
  const draw = drawer(seed);
  let changed = bytes;
  for (let times = 1 + draw(6); times > 0; times--) changed = oneChange(changed, draw);
  return changed;
}

function oneChange(bytes: Buffer, draw: (below: number) => number): Buffer {
  const at = draw(bytes.length + 1);
  const before = bytes.subarray(0, at);
  const after = bytes.subarray(at);
  switch (draw(7)) {
    case 0:
      return Buffer.concat([before, Buffer.from([draw(256)]), after.subarray(1)]);
    case 1:
      return Buffer.concat([before, after.subarray(draw(40))]);
    case 2:
      return Buffer.concat([before, Buffer.from(TELLING[draw(TELLING.length)] ?? ''), after]);
    case 3:
      return Buffer.concat([before, Buffer.from(PIECES[draw(PIECES.length)] ?? ''), after]);
    case 4:
      return Buffer.concat([before, after.subarray(0, draw(200)), after]);
    case 5:
      return before;
    default:
      return Buffer.concat([before, Buffer.from('x'.repeat(draw(3000))), after]);
  }
}

/** A small generator of whole numbers, the same for a seed on every machine. */
function drawer(seed: number): (below: number) => number {
  let state = seed * 2654435761;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 4294967296) * below);
  };
}
