import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { makeFolder } from '../../src/base/make-folder.ts';

const scratch = mkdtempSync(join(tmpdir(), 'linehours-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

describe('makeFolder', () => {
  test('makes what is missing above, and leaves a folder that is there', async () => {
    const deep = join(scratch, 'a/b/c');
    await makeFolder(deep);
    await makeFolder(deep);
    expect(existsSync(deep)).toBe(true);
  });

  test('fails where a file is in the way', async () => {
    writeFileSync(join(scratch, 'file'), '');
    await expect(makeFolder(join(scratch, 'file'))).rejects.toThrow('EEXIST');
    await expect(makeFolder(join(scratch, 'file/below'))).rejects.toThrow('EEXIST');
  });

  test.skipIf(!existsSync('/proc/self'))('fails where no folder can be made', async () => {
    await expect(makeFolder('/proc/none/below')).rejects.toThrow('ENOENT');
  });
});
