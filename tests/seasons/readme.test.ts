import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';

const root = resolve(import.meta.dirname, '../..');
const readme = readFileSync(join(root, 'README.md'), 'utf8');
const consoles = [...readme.matchAll(/```console\n\$ linehours (.+)\n([\s\S]*?)```/g)].map(
  ([, call = '', printed = '']) => ({ call, lines: printed.trimEnd().split('\n') }),
);

/** Narrow and no-break spaces, which an editor may turn into common ones. */
const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');

describe('the README', () => {
  test.each(consoles)('linehours $call prints what it says', async ({ call, lines }) => {
    const words = call.split(' ').map((word) => word.replace(/^data-samples/, join(root, '$&')));
    // What they write beside their text goes nowhere near the project.
    const out = /^(check|pool)/.test(call)
      ? ['--out', mkdtempSync(join(tmpdir(), 'linehours-'))]
      : [];
    const said = await runCommand(...words, ...out);
    expect(said.exitCode).toBeLessThanOrEqual(1);
    for (const line of lines) expect(plain(said.out)).toContain(plain(line));
  });

  test('links to files that exist', () => {
    const links = [...readme.matchAll(/\]\(([^)#]+)\)/g)].map(([, path = '']) => path);
    expect(links.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });
});
