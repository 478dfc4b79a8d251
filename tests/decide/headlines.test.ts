import { describe, expect, test } from 'vitest';
import {
  furtherHeadlines,
  type HeadlineOptions,
  headlines,
  mainComparison,
  mostFishedPair,
} from '../../src/decide/headlines.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { type TidySeason, tidySeason } from '../../src/tidy/tidy-season.ts';
import { type LogParts, makeLog } from '../helpers/make-log.ts';

const { by: _, ...PART } = WHOLE_LOG;
const OPTIONS: HeadlineOptions = { ...PART, level: 0.95, seed: 1 };

/**
 * Twenty days, each with braid on the port long and mono on the starboard long, four hours each and
 * ten bites each: eight hooked on braid, four on mono. Scad gets the bites of braid, mullet those of
 * mono; on the flat line squid gets three bites an hour, all missed, and its line is not recorded.
 */
function season(change: (parts: LogParts) => LogParts = (parts) => parts): TidySeason {
  const days = Array.from({ length: 20 }, (_, at) => ({ trip_id: `T${at + 1}`, at }));
  const lines = [
    {
      position: 'port-long',
      bait: 'scad',
      line_type: 'braid',
      hook_size: '7/0',
      hooked: 8,
      missed: 2,
    },
    {
      position: 'starboard-long',
      bait: 'mullet',
      line_type: 'mono',
      hook_size: '5/0',
      hooked: 4,
      missed: 6,
    },
    {
      position: 'flat-port',
      bait: 'squid',
      line_type: null,
      hook_size: '5/0',
      hooked: 0,
      missed: 12,
    },
  ];
  const parts: LogParts = {
    trips: days.map(({ trip_id, at }) => ({
      trip_id,
      date: `2026-03-${String(at + 1).padStart(2, '0')}`,
    })),
    soaks: days.flatMap(({ trip_id }) =>
      lines.map(({ hooked: _hooked, missed: _missed, ...soak }) => ({
        ...soak,
        trip_id,
        hours: 4,
      })),
    ),
    bites: days.flatMap(({ trip_id, at }) =>
      lines.flatMap(({ position, hooked, missed }) => {
        // Days differ a little, or there would be no spread to judge by.
        const swing = hooked === 0 ? 0 : (at % 3) - 1;
        return [
          { trip_id, position, outcome: 'released' as const, count: hooked + swing },
          { trip_id, position, outcome: 'missed' as const, count: missed - swing },
        ].filter(({ count }) => count > 0);
      }),
    ),
  };
  return tidySeason(makeLog(change(parts)));
}

describe('the five answers of a season', () => {
  const answers = headlines(season(), OPTIONS);
  const about = (name: string) => answers.find((one) => one.about === name) ?? expect.fail(name);

  test('come in one order, each a whole sentence', () => {
    expect(answers.map((one) => one.about)).toEqual(['Line', 'Hook', 'Bait', 'Respool', 'Load']);
    for (const { sentence } of [...answers, ...furtherHeadlines(season(), OPTIONS)])
      expect(sentence).toMatch(/^[A-Z].*\.$/);
  });

  test('bait is ranked by bites an hour: squid with 12 in 4 hours', () => {
    expect(about('Bait')).toMatchObject({ verdict: 'ranked' });
    expect(about('Bait').sentence).toContain('with squid: 30 per 10 line-hours');
    expect(about('Bait').sentence).toContain('of 3');
  });

  test('kinds that differ no more than luck makes: no chances, and the fastest as logged named', () => {
    // Ten bites a day on each but squid with eleven, which comes last in the order of the levels.
    const alike = season((parts) => ({
      ...parts,
      bites: (parts.bites ?? []).map((bite) =>
        bite.position === 'flat-port' ? { ...bite, count: 11 } : bite,
      ),
    }));
    const bait = headlines(alike, OPTIONS).find((one) => one.about === 'Bait');
    expect(bait?.sentence).toContain('with squid: 28 per 10 line-hours');
    expect(bait?.sentence).toContain(
      'the log shows no more difference between these 3 than luck makes',
    );
    expect(bait?.sentence).not.toContain('chance');
  });

  test('a bait that is ahead as logged on next to nothing is not called the fastest', () => {
    // Scad 200 bites in 80 hours, mullet 40, squid 10 in under 4: a little ahead, on next to nothing.
    const trips = Array.from({ length: 20 }, (_, at) => `T${at + 1}`);
    const lines = [
      { position: 'port-long', bait: 'scad', hours: 4, bites: 10, days: 20 },
      { position: 'starboard-long', bait: 'mullet', hours: 4, bites: 2, days: 20 },
      { position: 'flat-port', bait: 'squid', hours: 0.78, bites: 2, days: 5 },
    ];
    const each = <Row>(of: (trip_id: string, line: (typeof lines)[number]) => Row) =>
      lines.flatMap((line) => trips.slice(0, line.days).map((trip) => of(trip, line)));
    const log = season((parts) => ({
      ...parts,
      soaks: each((trip_id, { position, bait, hours }) => ({ trip_id, position, bait, hours })),
      bites: each((trip_id, { position, bites }) => ({
        trip_id,
        position,
        outcome: 'missed' as const,
        count: bites,
      })),
    }));
    const bait = headlines(log, OPTIONS).find((one) => one.about === 'Bait');
    expect(bait?.sentence).toContain(
      'With luck allowed for, bites come fastest with scad: as logged 25 per 10 line-hours',
    );
  });

  test('a line type that never met the other on one bait is tied to it', () => {
    expect(about('Line')).toMatchObject({ verdict: 'tied' });
    expect(about('Line').sentence).toContain('with the same bait');
  });

  test('no spool and no purchase: said, not guessed', () => {
    expect(about('Respool').verdict).toBe('thin');
  });
});

describe('what is compared', () => {
  test('the two levels with most bites, the later in the factor’s order as A', () => {
    // 5/0 has 440 bites and 7/0 200; line types not recorded do not count.
    expect(mostFishedPair(season(), OPTIONS, 'hook_size')).toEqual(['7/0', '5/0']);
    expect(mostFishedPair(season(), OPTIONS, 'line_type')).toEqual(['mono', 'braid']);
    expect(mostFishedPair(season(), OPTIONS, 'leader_lb')).toBeNull();
    expect(mainComparison(season(), OPTIONS, 'leader_lb')).toBeNull();
  });

  test('with one bait on all lines: 80 % against 40 %, clear', () => {
    const sameBait = season((parts) => ({
      ...parts,
      soaks: (parts.soaks ?? []).map((soak) => ({ ...soak, bait: 'scad' })),
    }));
    const [line] = headlines(sameBait, OPTIONS);
    expect(line).toMatchObject({ about: 'Line', verdict: 'clear' });
    expect(line?.sentence).toMatch(
      /^Fewer bites are hooked on mono than on braid: 40\D+%.* 80\D+%/,
    );
  });
});

describe('small and empty logs', () => {
  test.each([
    ['no trip at all', () => tidySeason(makeLog({ trips: [] }))],
    ['trips without a bite', () => season((parts) => ({ ...parts, bites: [] }))],
    [
      'one trip',
      () =>
        season((parts) => ({
          trips: parts.trips.slice(0, 1),
          soaks: (parts.soaks ?? []).filter((soak) => soak.trip_id === 'T1'),
          bites: (parts.bites ?? []).filter((bite) => bite.trip_id === 'T1'),
        })),
    ],
    ['bites without effort', () => season(({ trips, bites }) => ({ trips, bites: bites ?? [] }))],
  ])('%s: five answers in words, no winner named', (_name, make) => {
    const answers = headlines(make(), OPTIONS);
    expect(answers).toHaveLength(5);
    for (const { verdict, sentence } of answers) {
      // What to load is advice already where any bait was put out.
      expect(['thin', 'open', 'tied', 'advice']).toContain(verdict);
      expect(sentence).toMatch(/^[A-Z].*\.$/);
      expect(sentence).not.toMatch(/undefined|NaN|null/);
    }
  });
});
