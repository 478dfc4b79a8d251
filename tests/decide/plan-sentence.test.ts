import { describe, expect, test } from 'vitest';
import { type ComparisonPlan, planComparison } from '../../src/decide/plan-answer.ts';
import { planNotes, planSentence, scheduleSentence } from '../../src/decide/plan-sentence.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { makeLog } from '../helpers/make-log.ts';

// Four trips in a week, six bites on each side, two in three hooked.
const log = tidySeason(
  makeLog({
    trips: [1, 3, 5, 7].map((day) => ({ trip_id: `T${day}`, date: `2026-03-0${day}` })),
    bites: [1, 3, 5, 7].flatMap((day) =>
      ['port-long', 'starboard-long'].flatMap((position, side) => [
        { trip_id: `T${day}`, position, outcome: 'lost' as const, count: 4 - (day % 3) + side },
        { trip_id: `T${day}`, position, outcome: 'missed' as const, count: 2 + (day % 3) - side },
      ]),
    ),
  }),
);
const made = planComparison(log, {
  factor: 'line_type',
  levels: ['braid', 'mono'],
  measure: 'hookup_rate',
  difference: null,
  power: 0.8,
  level: 0.95,
  trips: null,
  seed: 1,
  only: {},
  from: null,
  to: null,
});
if (made.kind === 'not-estimable') throw new Error(made.reason);
const plan: ComparisonPlan = made;
const say = (changes: Partial<ComparisonPlan>) => planSentence({ ...plan, ...changes });
const plain = (text: string) => text.replaceAll('\u202f', ' ');

describe('how many trips, aloud', () => {
  test('the sentence names trips, what they bring, the time, the difference and the chance', () => {
    expect(plain(say({ needed: 48 }))).toBe(
      'About 48 trips (580 bites, 12 weeks at this log’s pace) would tell a difference of 5 points in ' +
        'the share of bites hooked on braid against on mono, if there is one, with a chance of 80 %.',
    );
  });

  test('one week, many years, and no number at all', () => {
    expect(say({ needed: 4 })).toMatch(/^About 4 trips \(48 bites, 1 week at/);
    expect(say({ needed: 4160 })).toMatch(/^About 4,160 trips \(50,000 bites, 20 years at/);
    expect(say({ needed: null })).toMatch(/^No number of trips that a boat can make would tell/);
  });

  test('one point, half a point, a part of a rate', () => {
    const target = (changes: Partial<ComparisonPlan['target']>) =>
      plain(say({ target: { ...plan.target, ...changes } }));
    expect(target({ difference: 0.01 })).toContain('a difference of 1 point in');
    expect(target({ difference: 0.005 })).toContain('a difference of 0.50 points in');
    expect(target({ difference: 0.125 })).toContain('a difference of 12.5 points in');
    expect(target({ difference: 0.3, measure: 'bites_per_line_hour' })).toContain(
      'a difference of 30 % in bites per line-hour on braid',
    );
  });

  test('what the schedule tells, unless it is just what is needed', () => {
    const planned = { trips: 20, power: 0.312 };
    const said = (changes: Partial<ComparisonPlan>) =>
      plain(scheduleSentence({ ...plan, needed: 48, planned, ...changes }) ?? 'nothing');
    expect(said({ detectable: 0.081 })).toBe(
      'The 20 trips of the schedule would tell a difference of 5 points with a chance of 31 %. ' +
        'The smallest difference they tell with a chance of 80 % is 8.1 points.',
    );
    expect(said({ detectable: null })).toContain('not even the largest possible difference');
    expect(said({ planned: { trips: 200, power: 0.9991 } })).toContain('a chance of over 99 %');
    expect(said({ needed: 20 })).toBe('nothing');
  });

  test('where the log has both, compare counts on top of it, and that is said', () => {
    const [first] = planNotes({ ...plan, basis: { ...plan.basis, newLevels: [] } });
    expect(first).toMatch(
      /^These trips count from nothing: .* compare says how many more it takes/,
    );
  });

  test('the notes say what all this rests on', () => {
    expect(planNotes(plan).map(plain)).toEqual([
      'These trips count from nothing: what was fished before was not drawn by lot, so it is not among them.',
      'The log has no line type braid and mono yet, so the rate and its spread are those of the whole log.',
      expect.stringMatching(/too few such trips .* \(design effect \d\.\d\d\)\.$/),
      'All this rests on 4 trips: a rough guide. Plan again later.',
      'The log spans 7 days, so the weeks are a guess.',
      ...(plan.needed !== null && plan.needed > 200
        ? [expect.stringMatching(/^The schedule stops at 200 trips, short of the/)]
        : []),
    ]);
  });
});
