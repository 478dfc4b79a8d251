import { describe, expect, test } from 'vitest';
import type { Settings } from '../../../src/settings/settings.ts';
import { tidySeason } from '../../../src/tidy/tidy-season.ts';
import type { TextFile } from '../../../src/write/new-files.ts';
import { reportPages } from '../../../src/write/pages/report-pages.ts';
import { makeLog } from '../../helpers/make-log.ts';
import { answerOf, reportFaults, visibleText } from '../../helpers/page-checks.ts';

// Line wear, bait costs and the dock sheet of small made-up logs: what a reader finds there.

const ALL = { only: {}, from: null, to: null };

/** Ten days; each line type named has a rod, four fish a day, and loses more as it ages. */
function log(lineTypes: readonly string[], settings: Partial<Settings> = {}) {
  const days = Array.from({ length: 10 }, (_, at) => at);
  const date = (day: number) => `2026-01-${String(day + 1).padStart(2, '0')}`;
  return makeLog({
    settings,
    trips: days.map((day) => ({ trip_id: `T${day}`, date: date(day) })),
    spools: lineTypes.map((line_type, at) => ({ rod: `R${at}`, date: date(0), line_type })),
    soaks: days.flatMap((day) =>
      lineTypes.map((_, at) => ({
        trip_id: `T${day}`,
        position: at % 2 === 0 ? 'port-long' : 'port-short',
        rod: `R${at}`,
        bait: at % 2 === 0 ? 'scad' : 'mullet',
        hours: 4,
        baits_used: 3,
      })),
    ),
    bites: days.flatMap((day) =>
      lineTypes.flatMap((_, at) =>
        [0, 1, 2, 3].map((fish) => ({
          trip_id: `T${day}`,
          position: at % 2 === 0 ? 'port-long' : 'port-short',
          rod: `R${at}`,
          bait: at % 2 === 0 ? 'scad' : 'mullet',
          ...(fish < day / 4 - 0.5
            ? { outcome: 'lost' as const, lost_to: 'line_broke' as const }
            : { outcome: 'released' as const }),
        })),
      ),
    ),
  });
}

async function report(...parts: Parameters<typeof log>): Promise<TextFile[]> {
  const season = tidySeason(log(...parts));
  return reportPages(season, { filter: ALL, level: 0.95, seed: 1 });
}

function page(files: readonly TextFile[], name: string): string {
  return visibleText(files.find((file) => file.name === name)?.text ?? '');
}

const COSTS = { spool: { mono: 30 }, lost_fish: 60, bait_short: 9, bait_left: 1 };

describe('pages about money', () => {
  test('with prices: the age, the reels, the load, and both costs', async () => {
    const files = await report(['mono'], { costs: COSTS, currency: 'EUR' });
    expect(reportFaults(files)).toEqual([]);
    expect(answerOf(files, 'wear.html', 'respool')).toMatch(/^Respool mono after about \d+ fights/);
    expect(answerOf(files, 'wear.html', 'reels')).toBe('Due: R0.');
    expect(answerOf(files, 'wear.html', 'line-cost')).toContain('EUR');
    expect(answerOf(files, 'bait.html', 'load')).toMatch(
      /^For the next trip load \d+ baits: \d+ scad/,
    );
    expect(page(files, 'wear.html')).toContain('common practice, no source');
    expect(page(files, 'wear.html')).toContain('nothing about breaking strength');
  });

  test('without prices: the physical answers and the numbers to add', async () => {
    const files = await report(['mono']);
    expect(reportFaults(files)).toEqual([]);
    expect(answerOf(files, 'wear.html', 'respool')).toContain('Mono breaks more often as it ages');
    expect(page(files, 'wear.html')).toContain('costs: lost_fish');
    expect(answerOf(files, 'bait.html', 'load')).toContain(
      'To have enough of each on 8 of 10 trips',
    );
    expect(page(files, 'bait.html')).toContain('costs: bait_short');
    expect(page(files, 'dock.html')).toContain('Enough on 8 of 10 trips');
  });

  test('the dock sheet says what to load, where, what to respool, with its cautions', async () => {
    const sheet = page(await report(['mono', 'braid'], { costs: COSTS }), 'dock.html');
    for (const words of ['Load for the next trip', 'Run where', 'Testing today', 'Respool']) {
      expect(sheet).toContain(words);
    }
    expect(sheet).toContain('follow the local rules');
    expect(sheet).toContain('any line that feels rough or nicked goes');
  });

  test('more line types than a picture holds, and names no page should run', async () => {
    const strange = ['mono', 'braid', '<script>alert(1)</script>', '=cmd()', 'a'.repeat(400)];
    const files = await report(strange, { costs: COSTS });
    expect(reportFaults(files)).toEqual([]);
    const pages = files.filter(({ name }) => name.endsWith('.html'));
    expect(pages.every(({ text }) => !text.includes('<script'))).toBe(true);
    expect(page(files, 'wear.html')).toContain('2 more line types are in the table');
  });

  test('a report cut down to a bait says why wear cannot be', async () => {
    const season = tidySeason(log(['mono']));
    const filter = { ...ALL, only: { reach: ['long'] } };
    const files = await reportPages(season, { filter, level: 0.95, seed: 1 });
    expect(reportFaults(files)).toEqual([]);
    expect(page(files, 'wear.html')).toContain('cannot be cut down to one reach');
    expect(answerOf(files, 'bait.html', 'load')).toContain('cannot be cut down to one reach');
  });
});
