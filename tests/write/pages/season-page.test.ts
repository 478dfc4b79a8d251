import { describe, expect, test } from 'vitest';
import { tidySeason } from '../../../src/tidy/tidy-season.ts';
import { seasonPage } from '../../../src/write/pages/season-page.tsx';
import { makeLog } from '../../helpers/make-log.ts';
import { onePage } from '../../helpers/one-page.ts';
import { answerOf, visibleText } from '../../helpers/page-checks.ts';

/** Eight trips of six hours with four lines; two bites on each of the first so many. */
async function seasonOf(withBite: number) {
  const trips = Array.from({ length: 8 }, (_, at) => ({
    trip_id: `T${at}`,
    date: `2026-03-0${at + 1}`,
    hours_fished: 6,
    lines_fished: 4,
  }));
  const bites = trips
    .slice(0, withBite)
    .map(({ trip_id }) => ({ trip_id, outcome: 'released' as const, count: 2 }));
  return onePage('index.html', seasonPage, tidySeason(makeLog({ trips, bites })));
}

describe('trips are named for what they had', () => {
  test('all of them, and those with a bite, where they differ', async () => {
    const files = await seasonOf(5);
    expect(answerOf(files, 'index.html', 'season')).toMatch(
      /^8 trips, 5 of them with a bite, 10 bites: of 100 bites/,
    );
    const page = visibleText(files[0]?.text ?? '');
    expect(page).toMatch(/The whole log\..*? trips with a bite bites hooked caught line-hours/);
    expect(page).toMatch(/By month\..*? month trips with line-hours bites/);
  });

  test('one number where they are the same', async () => {
    expect(answerOf(await seasonOf(8), 'index.html', 'season')).toMatch(/^8 trips, 16 bites: of/);
  });

  test('the file beside it keeps its column name', async () => {
    const csv = (await seasonOf(5)).find(({ name }) => name === 'season.csv');
    expect(csv?.text).toMatch(/^trips,bites,/);
  });
});
