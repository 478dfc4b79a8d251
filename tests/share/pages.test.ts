import { cpSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { beforeAll, expect, test } from 'vitest';
import { describeInBrowser, faultsOf, LOOKS } from '../helpers/browser.ts';
import { runCommand } from '../helpers/run-command.ts';

const SAMPLES = resolve(import.meta.dirname, '../../data-samples/packages');
const scratch = mkdtempSync(join(tmpdir(), 'pages-'));

describeInBrowser('the pages of packages', (browser) => {
  beforeAll(async () => {
    // The name of a folder is the reader's own, and may be anything.
    const hostile = join(scratch, `<b onclick='x'>"sable" & ${'long '.repeat(12)}`);
    cpSync(join(SAMPLES, 'sable-roads'), hostile, { recursive: true });
    const packages = [join(SAMPLES, 'linnet-quay'), hostile];
    const { exitCode } = await runCommand('pool', ...packages, '--out', join(scratch, 'pool'));
    expect(exitCode).toBe(0);
  });

  const pages = [
    ['pool.html', join(scratch, 'pool', 'pool.html')],
    ['disclosure.html', join(SAMPLES, 'sable-roads', 'disclosure.html')],
  ] as const;
  const looks = pages.flatMap(([name, path]) => LOOKS.map((look) => ({ name, path, ...look })));
  test.each(looks)(
    '$name at $width, $scheme',
    async ({ path, ...look }) => {
      expect(await faultsOf(browser(), pathToFileURL(path).href, look)).toEqual([]);
    },
    180_000,
  );
});
