import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { type DataTable, tableCsv, tableView } from '../../src/write/data-table.tsx';
import { EntrySection, ProseSection } from '../../src/write/entry.tsx';
import { type PageFrame, pageHtml } from '../../src/write/page-shell.tsx';
import { HOSTILE } from '../helpers/chart-examples.ts';

const FRAME: PageFrame = {
  file: 'bait.html',
  season: `${HOSTILE}\u0000${'n'.repeat(5000)}`,
  dates: '3–28 April 2025',
  pages: [
    { file: 'index.html', title: 'Season' },
    { file: 'bait.html', title: 'Bait' },
  ],
};

interface BaitRow {
  readonly bait: string;
  readonly bites: number;
}

const TABLE: DataTable<BaitRow> = {
  id: 'baits',
  caption: 'Bites by bait, most first.',
  columns: [
    {
      head: 'bait',
      kind: 'text',
      cell: (row) => row.bait,
      csv: [{ head: 'bait', value: (row) => row.bait }],
    },
    {
      head: 'bites',
      kind: 'number',
      cell: (row) => String(row.bites),
      csv: [
        { head: 'bites', value: (row) => row.bites },
        { head: 'share', value: (row) => row.bites / 7 },
      ],
    },
  ],
  rows: [
    { bait: HOSTILE, bites: 4 },
    { bait: '=1+1', bites: 3 },
  ],
  thin: (row) => row.bites < 4,
};

const PAGE = pageHtml(
  FRAME,
  <>
    <EntrySection
      entry={{
        id: 'which',
        question: HOSTILE,
        answer: HOSTILE,
        asides: [HOSTILE],
        table: { view: tableView(TABLE), csv: 'baits.csv' },
        how: { text: HOSTILE, anchor: 'share' },
      }}
    />
    <ProseSection id="more" heading="More">
      <p>{HOSTILE}</p>
    </ProseSection>
  </>,
);

describe('the policy of a page', () => {
  const [, policy = ''] = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(PAGE) ?? [];

  test('allows its own style sheet by hash, and nothing else', () => {
    const [, style = ''] = /<style>(.*?)<\/style>/s.exec(PAGE) ?? [];
    const hash = createHash('sha256').update(style, 'utf8').digest('base64');
    expect(policy.replaceAll('&#39;', "'").split('; ')).toEqual([
      "default-src 'none'",
      `style-src 'sha256-${hash}'`,
      'img-src data:',
      "base-uri 'none'",
      "form-action 'none'",
    ]);
  });

  test('comes before anything that it governs', () => {
    const at = PAGE.indexOf('Content-Security-Policy');
    expect(PAGE.indexOf('<link')).toBeGreaterThan(at);
    expect(PAGE.indexOf('<style')).toBeGreaterThan(at);
    expect(PAGE.indexOf('<body')).toBeGreaterThan(at);
  });
});

describe('what a log holds cannot become markup', () => {
  test('no script, no image, no handler, no style of its own', () => {
    expect(PAGE).not.toMatch(/<(script|img|iframe|object|embed|form|base)\b/i);
    expect(PAGE).not.toMatch(/<[^>]*\s(on\w+|style)\s*=/i);
    expect(PAGE).not.toContain('\u0000');
    expect(PAGE.match(/<style/g)).toHaveLength(1);
  });

  test('every word of it is there to read', () => {
    expect(PAGE.match(/&lt;script>alert/g)?.length).toBeGreaterThanOrEqual(6);
    expect(PAGE).toContain(`${'n'.repeat(5000)}</bdi>`);
  });
});

describe('the way about', () => {
  test('names the language, the page and the season', () => {
    expect(PAGE).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(PAGE).toContain('<title>Bait · &lt;script');
    expect(PAGE).toContain('<h1>Bait</h1>');
    expect(PAGE).toContain('3–28 April 2025');
  });

  test('links to the pages that exist and marks this one', () => {
    expect([...PAGE.matchAll(/<nav.*?<\/nav>/gs)].join().match(/<a /g)).toHaveLength(2);
    expect(PAGE).toContain('<a href="bait.html" aria-current="page">Bait</a>');
    expect(PAGE).toContain('<a href="index.html">Season</a>');
    expect(PAGE).toContain('<a class="skip" href="#content">');
  });

  test('a report of one page has no navigation', () => {
    const alone = pageHtml({ ...FRAME, pages: FRAME.pages.slice(1) }, <p>Only this.</p>);
    expect(alone).not.toContain('<nav');
  });

  test('every page carries the cautions', () => {
    for (const words of ['fish in the sea', 'fishery authority', 'safety of the crew']) {
      expect(PAGE).toContain(words);
    }
  });
});

describe('a table', () => {
  test('names its columns, its rows and its order', () => {
    expect(PAGE).toContain('<caption id="baits-caption">Bites by bait, most first.</caption>');
    expect(PAGE.match(/<th scope="col"/g)).toHaveLength(2);
    expect(PAGE.match(/<th scope="row"/g)).toHaveLength(2);
    expect(PAGE.match(/<tr class="thin"/g)).toHaveLength(1);
  });

  test('is the same in the CSV file beside the page, with raw numbers', () => {
    const [header, first, second] = tableCsv(TABLE).split('\r\n');
    expect(header).toBe('bait,bites,share');
    expect(first?.endsWith(`,4,${4 / 7}`)).toBe(true);
    expect(second).toBe(`'=1+1,3,${3 / 7}`);
  });
});

test('the same content gives the same bytes', () => {
  const once = pageHtml(FRAME, <p>Same.</p>);
  expect(pageHtml(FRAME, <p>Same.</p>)).toBe(once);
});
