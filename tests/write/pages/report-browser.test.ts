import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readSeason } from '../../../src/read/read-season.ts';
import { tidySeason } from '../../../src/tidy/tidy-season.ts';
import type { TextFile } from '../../../src/write/new-files.ts';
import { reportPages } from '../../../src/write/pages/report-pages.ts';
import { writeFolder } from '../../../src/write/write-folder.ts';
import { describeInBrowser, faultsOf, LOOKS } from '../../helpers/browser.ts';
import { reportFaults } from '../../helpers/page-checks.ts';

const base = mkdtempSync(join(tmpdir(), 'linehours-report-'));
const folder = join(base, 'season');
let files: readonly TextFile[] = [];

beforeAll(async () => {
  const log = await readSeason(join(import.meta.dirname, '../../../data-samples/port-vellamy'), {});
  const filter = { only: {}, from: null, to: null };
  files = await reportPages(tidySeason(log), { filter, level: 0.95, seed: 1 });
  await writeFolder(folder, files);
}, 180_000);
afterAll(() => rmSync(base, { recursive: true, force: true }));

test('the demo season’s report is whole: links, words, weight', () => {
  expect(reportFaults(files)).toEqual([]);
});

describeInBrowser('the demo season’s pages, from disk with the network off', (browser) => {
  describe.each(LOOKS)('at $width px, $scheme', (look) => {
    test('show nothing clipped, overlapping, out of reach or amiss', async () => {
      const faults: string[] = [];
      for (const { name } of files.filter((file) => file.name.endsWith('.html'))) {
        const address = pathToFileURL(join(folder, name)).href;
        const found = await faultsOf(browser(), address, look);
        faults.push(...found.map((fault) => `${name}: ${fault}`));
      }
      expect(faults).toEqual([]);
    }, 180_000);
  });
});
