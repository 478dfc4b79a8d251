import { beforeAll, describe, expect, test } from 'vitest';
import { tidySeason } from '../../../src/tidy/tidy-season.ts';
import type { TextFile } from '../../../src/write/new-files.ts';
import type { ReportOptions } from '../../../src/write/pages/report-context.ts';
import { reportPages } from '../../../src/write/pages/report-pages.ts';
import { HOSTILE } from '../../helpers/chart-examples.ts';
import { type LogParts, makeLog } from '../../helpers/make-log.ts';
import { answerOf, reportFaults, visibleText } from '../../helpers/page-checks.ts';

const OPTIONS: ReportOptions = {
  filter: { only: {}, from: null, to: null },
  level: 0.95,
  seed: 1,
};
const PAGES = ['index.html', 'gear.html', 'bait.html', 'spread.html', 'log.html', 'methods.html'];

function report(parts: LogParts, options: Partial<ReportOptions> = {}): Promise<TextFile[]> {
  return reportPages(tidySeason(makeLog(parts)), { ...OPTIONS, ...options });
}

const day = (at: number) =>
  `2026-0${1 + Math.floor(at / 28)}-${String(1 + (at % 28)).padStart(2, '0')}`;
const trips = (count: number) =>
  Array.from({ length: count }, (_, at) => ({
    trip_id: `t${at}`,
    date: day(at),
    hours_fished: 6,
    lines_fished: 4,
  }));

type Bite = NonNullable<LogParts['bites']>[number];

/** `perTrip` bites a trip, of which the first `hooked` are released. */
function bites(count: number, perTrip: number, hooked: number, cells: Partial<Bite> = {}): Bite[] {
  return trips(count).flatMap(({ trip_id }) =>
    Array.from({ length: perTrip }, (_, at): Bite => {
      const outcome = at < hooked ? 'released' : 'missed';
      return { trip_id, outcome, bait: 'sardine', position: 'port-short', ...cells };
    }),
  );
}

const SEASONS: Readonly<Record<string, LogParts>> = {
  'no trip': { trips: [] },
  'one trip without a bite': { trips: trips(1) },
  'ten trips without a bite': { trips: trips(10), soaks: [] },
  'one trip with one bite': { trips: trips(1), bites: bites(1, 1, 1) },
  'all missed': { trips: trips(12), bites: bites(12, 4, 0) },
  'all hooked': { trips: trips(12), bites: bites(12, 4, 4) },
  'nothing recorded but outcomes': {
    trips: trips(12).map(({ trip_id, date }) => ({ trip_id, date })),
    bites: bites(12, 4, 2, { bait: null, position: null }),
  },
  'awkward names': {
    settings: { name: HOSTILE },
    trips: trips(8),
    bites: [
      ...bites(8, 3, 2, { bait: HOSTILE, position: HOSTILE, species: HOSTILE, line_type: HOSTILE }),
      ...bites(8, 3, 1, {
        bait: '__proto__',
        position: 'constructor',
        line_type: 'x'.repeat(5000),
      }),
      ...bites(8, 3, 1, { bait: 'ملاح', position: '漢字', line_type: '=1+1', hook_size: '7/0' }),
    ],
  },
  'two hundred baits on a hundred positions': {
    trips: trips(20),
    bites: trips(20).flatMap(({ trip_id }, t) =>
      Array.from({ length: 100 }, (_, at): Bite => {
        const bait = `bait number ${(7 * at + t) % 200}`;
        const position = `position ${(3 * at + t) % 100}`;
        return {
          trip_id,
          outcome: at % 3 === 0 ? 'missed' : 'kept',
          bait,
          position,
          line_type: `line ${at % 50}`,
        };
      }),
    ),
  },
};

describe.each(Object.entries(SEASONS))('%s', (_name, parts) => {
  let files: TextFile[] = [];
  beforeAll(async () => {
    files = await report(parts);
  });

  test('gives every page, in words, with every link and file in place', () => {
    expect(files.map(({ name }) => name)).toEqual(expect.arrayContaining(PAGES));
    expect(reportFaults(files)).toEqual([]);
  });

  test('has an answer to every question', () => {
    for (const { text } of files.filter(({ name }) => name.endsWith('.html'))) {
      for (const [, answer = ''] of text.matchAll(/<p class="answer">(.*?)<\/p>/gs)) {
        expect(visibleText(answer)).toMatch(/^ ?\S.*[.!?…] ?$/);
      }
    }
  });
});

test('a report comes out the same again, byte by byte', async () => {
  const parts = { trips: trips(12), bites: bites(12, 4, 3) };
  expect(await report(parts)).toEqual(await report(parts));
});

describe('the sentences', () => {
  test('of a log with nothing in it say so', async () => {
    const files = await report(SEASONS['no trip'] ?? { trips: [] });
    expect(answerOf(files, 'index.html', 'season')).toBe('There is no trip in this log yet.');
    expect(answerOf(files, 'index.html', 'months')).toBe('There is no trip in this log yet.');
    expect(answerOf(files, 'spread.html', 'boat')).toBe(
      'The log does not say on which position a line fished or a bite came.',
    );
    expect(answerOf(files, 'index.html', 'trust')).toBe('No row was read.');
  });

  test('of one bite are in the singular, and too little is not ranked', async () => {
    const files = await report(SEASONS['one trip with one bite'] ?? { trips: [] });
    expect(answerOf(files, 'index.html', 'season')).toMatch(/^1 trip, 1 bite: of 100 bites 100 /);
    expect(answerOf(files, 'bait.html', 'bait-hooked')).toBe(
      'No bait has enough behind it to judge yet: it takes 10 bites over 5 trips.',
    );
  });

  test('name the largest and the smallest of what rests on enough, and nothing else', async () => {
    const files = await report({
      trips: trips(12),
      bites: [
        ...bites(12, 4, 3, { bait: 'sardine' }),
        ...bites(12, 4, 1, { bait: 'squid' }),
        ...bites(2, 2, 2, { bait: 'lucky lure' }),
      ],
    });
    const answer = answerOf(files, 'bait.html', 'bait-hooked').replaceAll('\u202f', ' ');
    expect(answer).toMatch(
      /^The share of bites hooked was largest with sardine, 75 % \(\S+\) , and smallest with squid, 25 % \(\S+\) \. Their intervals lie apart\.$/,
    );
  });

  test('say when one level alone rests on enough', async () => {
    const files = await report({ trips: trips(12), bites: bites(12, 4, 3, { hook_size: '7/0' }) });
    expect(answerOf(files, 'gear.html', 'hook-size')).toMatch(
      /^7\/0 is the only one there is: the share of bites hooked was 75 % /,
    );
  });

  test('say when all levels are alike', async () => {
    const files = await report({
      trips: trips(12),
      bites: [...bites(12, 4, 2, { bait: 'sardine' }), ...bites(12, 2, 1, { bait: 'squid' })],
    });
    expect(answerOf(files, 'bait.html', 'bait-hooked').replaceAll('\u202f', ' ')).toBe(
      'The share of bites hooked was the same wherever it rests on enough: 50 %.',
    );
  });

  test('name what was never fished together', async () => {
    const files = await report({
      trips: trips(12),
      bites: [
        ...bites(12, 4, 3, { line_type: 'mono', position: 'port-short' }),
        ...bites(12, 4, 3, { line_type: 'mono', position: 'port-long' }),
        ...bites(12, 4, 2, { line_type: 'braid', position: 'port-long' }),
      ],
    });
    expect(answerOf(files, 'gear.html', 'line-type-by-reach')).toBe(
      'Braid has no bite on the short lines: there the line type cannot be told from the reach.',
    );
  });

  test('two positions with equally many bites share the first place', async () => {
    const files = await report({
      trips: trips(12),
      bites: [
        ...bites(12, 2, 1, { position: 'port-long' }),
        ...bites(12, 2, 1, { position: 'pitch' }),
      ],
    });
    expect(answerOf(files, 'spread.html', 'boat')).toMatch(
      /^Most bites came on port-long and pitch: 24 each of 48\./,
    );
  });
});

test('the head says which part of the log a report is about', async () => {
  const files = await report(
    { trips: trips(12), bites: bites(12, 4, 3) },
    { filter: { only: { bait: ['sardine'] }, from: '2026-01-03', to: '2026-01-08' } },
  );
  expect(visibleText(files[0]?.text ?? '')).toContain('3–8 January 2026, only bait sardine');
  expect(answerOf(files, 'index.html', 'season')).toMatch(/^6 trips, 24 bites: /);
});
