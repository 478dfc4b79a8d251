import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { drawBoat } from '../../src/draw/draw-boat.tsx';
import { renderPicture } from '../../src/draw/render-picture.ts';
import { type DataTable, tableView } from '../../src/write/data-table.tsx';
import { EntrySection } from '../../src/write/entry.tsx';
import { pageHtml } from '../../src/write/page-shell.tsx';
import { describeInBrowser, faultsOf, LOOKS } from '../helpers/browser.ts';
import { BOAT_EXAMPLES, CHART_EXAMPLES, HOSTILE } from '../helpers/chart-examples.ts';

const folder = mkdtempSync(join(tmpdir(), 'linehours-gallery-'));
const path = join(folder, 'gallery.html');

const TABLE: DataTable<readonly string[]> = {
  id: 'wide-table',
  caption: 'Awkward words in many columns, in the order they came.',
  columns: Array.from({ length: 9 }, (_, c) => ({
    head: `column ${c}, bites`,
    kind: c < 2 ? 'text' : 'number',
    cell: (row) => row[c] ?? '0',
    csv: [],
  })),
  rows: [
    [HOSTILE, 'x'.repeat(5000)],
    ['ملاح', '漢字', '62\u202f% (54–69)'],
  ],
  thin: (row) => row.length > 2,
};

async function galleryHtml(): Promise<string> {
  const charts = await Promise.all(
    CHART_EXAMPLES.map(({ id, title, draw }) =>
      renderPicture({ id, title, description: `${title}.` }, draw),
    ),
  );
  const boats = BOAT_EXAMPLES.map(({ id, positions }) =>
    drawBoat({ id, title: id, description: HOSTILE }, positions),
  );
  const pages = [
    'Season',
    'Line and hook',
    'Bait',
    'Spread',
    'Log health',
    'Methods',
    'Gallery',
  ].map((title) => ({ title, file: `${title.toLowerCase().replaceAll(' ', '-')}.html` }));
  const frame = { file: 'gallery.html', season: HOSTILE, dates: '3–28 April 2025', pages };
  return pageHtml(
    frame,
    [...charts, ...boats].map((picture) => (
      <EntrySection
        key={picture.words.id}
        entry={{
          id: `entry-${picture.words.id}`,
          question: picture.words.title,
          answer:
            'Goggle-eye hooks most: 68\u202f% of bites (62–74), blue runner 61\u202f% (55–67).',
          asides: [HOSTILE],
          pictures: [{ picture, caption: 'Bars are 95\u202f% intervals.' }],
          ...(picture === charts[0] ? { table: { view: tableView(TABLE), csv: 'x.csv' } } : {}),
          how: { text: 'Share of bites hooked, with trips as clusters.', anchor: 'share' },
        }}
      />
    )),
  );
}

beforeAll(async () => {
  writeFileSync(path, await galleryHtml());
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describeInBrowser('every picture on a page', (browser) => {
  test.each(LOOKS)('at $width px, $scheme: nothing clipped, hidden or amiss', async (look) => {
    expect(await faultsOf(browser(), pathToFileURL(path).href, look)).toEqual([]);
  });
});
