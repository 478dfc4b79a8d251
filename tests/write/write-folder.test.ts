import { execFileSync } from 'node:child_process';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { UserError } from '../../src/base/problem.ts';
import { writeWholeFile } from '../../src/write/write-file.ts';
import { MARKER, writeFolder } from '../../src/write/write-folder.ts';

let base = '';
let target = '';
const FIRST = [
  { name: 'index.html', text: 'first' },
  { name: 'data/rates.csv', text: 'a,b\r\n' },
];
const SECOND = [{ name: 'index.html', text: 'second' }];
const read = (name: string) => readFileSync(join(target, name), 'utf8');

beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'linehours-folder-'));
  target = join(base, 'reports', 'season');
  mkdirSync(join(base, 'reports'));
});
afterEach(() => rmSync(base, { recursive: true, force: true }));

async function refusal(work: Promise<void>): Promise<string> {
  const error = await work.then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(UserError);
  expect((error as UserError).exitCode).toBe(2);
  return (error as UserError).message;
}

describe('writing a folder', () => {
  test('makes it, and replaces it whole the next time', async () => {
    await writeFolder(target, FIRST);
    expect(read('data/rates.csv')).toBe('a,b\r\n');
    await writeFolder(target, SECOND);
    expect(read('index.html')).toBe('second');
    expect(readdirSync(target).sort()).toEqual([MARKER, 'index.html']);
    expect(readdirSync(join(base, 'reports'))).toEqual(['season']);
  });

  test('makes the folders above it', async () => {
    target = join(base, 'a', 'b', 'c');
    await writeFolder(target, FIRST);
    expect(read('index.html')).toBe('first');
  });

  test('an empty folder may be written into', async () => {
    mkdirSync(target);
    await writeFolder(target, FIRST);
    expect(read('index.html')).toBe('first');
  });

  test('follows a link to the folder and leaves the link', async () => {
    mkdirSync(join(base, 'elsewhere'));
    symlinkSync(join(base, 'elsewhere'), target);
    await writeFolder(target, FIRST);
    await writeFolder(target, SECOND);
    expect(lstatSync(target).isSymbolicLink()).toBe(true);
    expect(readFileSync(join(base, 'elsewhere', 'index.html'), 'utf8')).toBe('second');
  });
});

describe('what is not ours stays', () => {
  test('a folder that someone else filled', async () => {
    mkdirSync(target);
    writeFileSync(join(target, 'trips.csv'), 'precious');
    expect(await refusal(writeFolder(target, FIRST))).toBe(
      `${target} is not empty and was not written by linehours, so it is left as it is. ` +
        'Name another folder, or empty this one first.',
    );
    expect(readdirSync(target)).toEqual(['trips.csv']);
  });

  test('a file put into our folder since', async () => {
    await writeFolder(target, FIRST);
    writeFileSync(join(target, 'notes.txt'), 'mine');
    expect(await refusal(writeFolder(target, SECOND))).toContain('also holds notes.txt, which');
    expect(read('index.html')).toBe('first');
    expect(read('notes.txt')).toBe('mine');
  });

  test('a file where the folder should be', async () => {
    writeFileSync(target, 'a file');
    expect(await refusal(writeFolder(target, FIRST))).toContain('is a file; name a folder');
    expect(readFileSync(target, 'utf8')).toBe('a file');
  });

  test('a place that cannot be written', async () => {
    writeFileSync(join(base, 'wall'), '');
    target = join(base, 'wall', 'season');
    expect(await refusal(writeFolder(target, FIRST))).toMatch(/cannot be written: /);
  });
});

describe('a run that is killed', () => {
  test('while it writes leaves the old pages, and the next run clears up', async () => {
    await writeFolder(target, FIRST);
    // A process that has ended, so its number is free to stand for a killed run.
    const gone = execFileSync(process.execPath, ['-p', 'process.pid'], { encoding: 'utf8' }).trim();
    const half = join(base, 'reports', `.season.new-${gone}`);
    mkdirSync(half);
    writeFileSync(join(half, MARKER), '');
    expect(read('index.html')).toBe('first');
    await writeFolder(target, SECOND);
    expect(existsSync(half)).toBe(false);
    expect(read('index.html')).toBe('second');
  });

  test('between the two renames: the next run finds the old pages again', async () => {
    await writeFolder(target, FIRST);
    renameSync(target, join(base, 'reports', '.season.old'));
    await expect(
      writeFolder(target, [{ name: 'a\0b', text: 'a name no file can have' }]),
    ).rejects.toThrow('cannot be written');
    expect(read('index.html')).toBe('first');
  });

  test('a folder of like name that we did not write is left alone', async () => {
    const other = join(base, 'reports', '.season.new-99999999');
    mkdirSync(other);
    await writeFolder(target, FIRST);
    expect(existsSync(other)).toBe(true);
  });
});

describe('one file', () => {
  test('is replaced whole', async () => {
    const path = join(base, 'set-aside.csv');
    await writeWholeFile(path, 'one');
    await writeWholeFile(path, 'two');
    expect(readFileSync(path, 'utf8')).toBe('two');
    expect(readdirSync(base).sort()).toEqual(['reports', 'set-aside.csv']);
  });

  test('that cannot be written is a sentence, and leaves nothing behind', async () => {
    expect(await refusal(writeWholeFile(join(base, 'none', 'x.csv'), 'x'))).toContain(
      'x.csv cannot be written: ',
    );
    expect(await refusal(writeWholeFile(join(base, 'reports'), 'x'))).toContain(
      'cannot be written',
    );
    expect(readdirSync(base)).toEqual(['reports']);
  });
});
