import { beforeAll, describe, expect, test } from 'vitest';
import { type TidySeason, tidySeason } from '../../../src/tidy/tidy-season.ts';
import type { TextFile } from '../../../src/write/new-files.ts';
import { conditionsPage } from '../../../src/write/pages/conditions-page.tsx';
import { releasePage } from '../../../src/write/pages/release-page.tsx';
import { timePage } from '../../../src/write/pages/time-page.tsx';
import { makeLog } from '../../helpers/make-log.ts';
import { demoSeason, onePage } from '../../helpers/one-page.ts';
import { answerOf, visibleText } from '../../helpers/page-checks.ts';

const PAGES = {
  'time.html': timePage,
  'release.html': releasePage,
  'conditions.html': conditionsPage,
};

const answers = (files: readonly TextFile[]) =>
  [...(files[0]?.text ?? '').matchAll(/<p class="answer">(.*?)<\/p>/gs)].map(([, text = '']) =>
    visibleText(text).trim(),
  );
const captions = (files: readonly TextFile[]) =>
  [...(files[0]?.text ?? '').matchAll(/<caption[^>]*>(.*?)<\/caption>/gs)].map(
    ([, text = '']) => text,
  );

describe('the demo season', () => {
  let season: TidySeason;
  const files: Record<string, TextFile[]> = {};
  beforeAll(async () => {
    season = await demoSeason();
    for (const [name, page] of Object.entries(PAGES))
      files[name] = await onePage(name, page, season);
  }, 180_000);

  test('says when they bite, how long fights are and where the hours go', () => {
    const of = (id: string) => answerOf(files['time.html'] ?? [], 'time.html', id);
    expect(of('hours')).toMatch(
      /^Bites came fastest in the hour from \d\d:00, .* per 10 line-hours/,
    );
    expect(of('light')).toMatch(/^Bites came fastest (at dawn|at dusk|by day|at night)/);
    expect(of('fight-line')).toMatch(/^Half of the fish were at the boat within .* on mono/);
    expect(of('fight-species')).toMatch(/for black marlin/);
    expect(of('minutes')).toMatch(/^An average trip had 6\u202f?\s?h .* between two soaks\.$/);
    expect(of('fishing-hour')).toMatch(/per hour of fishing/);
  });

  test('says where fish were hooked, with the cautions that belong there', () => {
    const page = files['release.html'] ?? [];
    expect(answerOf(page, 'release.html', 'hooked-by-hook')).toMatch(/were hooked deep or foul/);
    expect(answerOf(page, 'release.html', 'hooked-by-drop-back')).toMatch(/after drop-backs of/);
    const text = visibleText(page[0]?.text ?? '');
    expect(text).toContain('Released is not survived');
    expect(text).toContain('local regulations in force');
  });

  test('looks at eight conditions and says that it did', () => {
    const page = files['conditions.html'] ?? [];
    expect(answers(page)).toHaveLength(9);
    expect(answerOf(page, 'conditions.html', 'conditions')).toMatch(/^8 conditions were looked at/);
    expect(answerOf(page, 'conditions.html', 'by-moon')).toMatch(/ around the \w+( \w+)? moon, /);
  });

  test('captions stand once on a page, and every table has its file', () => {
    for (const page of Object.values(files)) {
      expect(new Set(captions(page)).size).toBe(captions(page).length);
      expect(page.length - 1).toBe(captions(page).length);
      for (const { name } of page.slice(1)) expect(page[0]?.text).toContain(`href="${name}"`);
    }
  });
});

describe.each([
  ['no trip', { trips: [] }],
  ['a trip without a bite', { trips: [{ trip_id: 'a', date: '2026-03-01' }] }],
  [
    'outcomes alone',
    {
      trips: [{ trip_id: 'a', date: '2026-03-01' }],
      bites: [{ trip_id: 'a', outcome: 'released' as const }],
    },
  ],
])('a log with %s', (_name, parts) => {
  test('has a sentence for every question', async () => {
    for (const [name, page] of Object.entries(PAGES)) {
      const files = await onePage(name, page, tidySeason(makeLog(parts)));
      for (const answer of answers(files)) expect(answer).toMatch(/^\S.*[.]$/);
      expect(visibleText(files[0]?.text ?? '')).not.toMatch(/NaN|undefined|Infinity/);
    }
  });
});

test('columns that are not recorded are asked for by name', async () => {
  const season = tidySeason(
    makeLog({
      trips: [{ trip_id: 'a', date: '2026-03-01' }],
      bites: [{ trip_id: 'a', outcome: 'released' }],
    }),
  );
  const [time, release, conditions] = await Promise.all(
    Object.entries(PAGES).map(([name, page]) => onePage(name, page, season)),
  );
  expect(answerOf(time ?? [], 'time.html', 'fight-line')).toContain('log fight_min in bites.csv');
  expect(answerOf(time ?? [], 'time.html', 'minutes')).toContain('soaks.csv');
  expect(answerOf(release ?? [], 'release.html', 'hooked-by-hook')).toContain('log hooked_in');
  expect(answerOf(conditions ?? [], 'conditions.html', 'by-current')).toBe(
    'The log does not say the current: log current_kn in trips.csv.',
  );
});
