import { describe, expect, test } from 'vitest';
import type { ComparisonQuestion } from '../../src/decide/answer-comparison.ts';
import { plannedComparison } from '../../src/decide/plan-compared.ts';
import { tripsMade } from '../../src/estimate/plan-trips-made.ts';
import type { ScheduledTrip } from '../../src/read/read-schedule.ts';
import { sameClusterDifference } from '../../src/stats/same-cluster-difference.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { type LogParts, makeLog } from '../helpers/make-log.ts';

type Bite = NonNullable<LogParts['bites']>[number];

const dates = ['2026-03-01', '2026-03-02', '2026-03-02', '2026-03-05', '2026-03-09'];
const trips = dates.map((date, at) => ({ trip_id: `QL-00${at + 1}`, date }));
const bites = (
  trip: number,
  position: string,
  line_type: string | null,
  counts: readonly [number, number],
) =>
  (['lost', 'missed'] as const)
    .map((outcome, at): Bite => {
      return { trip_id: `QL-00${trip}`, position, line_type, outcome, count: counts[at] ?? 0 };
    })
    .filter(({ count }) => (count ?? 0) > 0);

const scheduled = (
  tripNumber: number,
  toPort: string,
  when: Partial<Pick<ScheduledTrip, 'date' | 'tripId'>>,
): ScheduledTrip => ({
  tripNumber,
  block: '1',
  date: null,
  tripId: null,
  ...when,
  lines: [
    { position: 'port-long', level: toPort },
    { position: 'starboard-long', level: toPort === 'braid' ? 'mono' : 'braid' },
  ],
});

const question: ComparisonQuestion & { readonly levels: readonly [string, string] } = {
  factor: 'line_type',
  levels: ['braid', 'mono'],
  measure: 'hookup_rate',
  adjust: [],
  level: 0.95,
  only: {},
  from: null,
  to: null,
};

describe('finding the trips of a schedule', () => {
  const log = tidySeason(makeLog({ trips })).trips;
  const found = (schedule: readonly ScheduledTrip[]) => {
    const { made, missing, open } = tripsMade(schedule, log);
    return {
      made: made.map(({ scheduled: { tripNumber }, trip }) => [tripNumber, trip.trip_id]),
      missing: missing.map(({ reason }) => reason),
      open,
    };
  };

  test('by id however it is written, by date, two of one day in their order', () => {
    const schedule = [
      scheduled(1, 'braid', { tripId: 'ql 1' }),
      scheduled(2, 'braid', { date: '2026-03-02' }),
      scheduled(3, 'braid', { date: '2026-03-02' }),
      scheduled(4, 'braid', {}),
    ];
    expect(found(schedule)).toEqual({
      made: [
        [1, 'QL-001'],
        [2, 'QL-002'],
        [3, 'QL-003'],
      ],
      missing: [],
      open: 1,
    });
  });

  test('a trip named by its id is not taken by another’s date', () => {
    const schedule = [
      scheduled(1, 'braid', { date: '2026-03-02' }),
      scheduled(2, 'braid', { tripId: 'QL-002' }),
    ];
    expect(found(schedule).made).toEqual([
      [2, 'QL-002'],
      [1, 'QL-003'],
    ]);
  });

  test('says which are not there, and which are there twice', () => {
    const schedule = [
      scheduled(1, 'braid', { date: '2026-04-01' }),
      scheduled(2, 'braid', { date: '2026-03-01' }),
      scheduled(3, 'braid', { date: '2026-03-01' }),
      scheduled(4, 'braid', { tripId: 'QL-044' }),
    ];
    expect(found(schedule)).toEqual({
      made: [[2, 'QL-001']],
      missing: [
        'The log has no trip QL-044.',
        'The log has no trip of 2026-04-01.',
        'The log’s trip of 2026-03-01 is trip 2 of the schedule already.',
      ],
      open: 0,
    });
  });
});

describe('a comparison judged by its schedule', () => {
  const log = tidySeason(
    makeLog({
      trips,
      bites: [
        ...bites(1, 'port-long', 'braid', [5, 1]),
        ...bites(1, 'starboard-long', 'mono', [2, 2]),
        ...bites(1, 'pitch', 'braid', [9, 9]),
        // On the second trip both lines were mono: port departs.
        ...bites(2, 'port-long', 'mono', [1, 3]),
        ...bites(2, 'starboard-long', 'mono', [3, 1]),
        ...bites(4, 'port-long', 'mono', [2, 3]),
        ...bites(4, 'starboard-long', null, [4, 1]),
        ...bites(4, 'not recorded', 'braid', [1, 0]).map((bite) => ({ ...bite, position: null })),
      ],
    }),
  );
  const schedule = [
    scheduled(1, 'braid', { date: '2026-03-01' }),
    scheduled(2, 'braid', { tripId: 'QL-002' }),
    scheduled(3, 'mono', { date: '2026-03-05' }),
    scheduled(4, 'mono', {}),
  ];
  const plan = { factor: 'line_type', trips: schedule, design: 'sides' as const };
  const { comparison, verdict, planned, sentence } = plannedComparison(log, question, plan);

  test('counts every line for what it was to fish', () => {
    // Braid 5 of 6, 1 of 4 and 4 of 5; mono 2 of 4, 3 of 4 and 2 of 5: weights 2.4, 2, 2.5.
    const difference = (2.4 * (5 / 6 - 2 / 4) + 2 * (1 / 4 - 3 / 4) + 2.5 * (4 / 5 - 2 / 5)) / 6.9;
    const figure = comparison.lenses.same_day.difference;
    expect(figure.kind === 'estimated' && figure.estimate).toBeCloseTo(difference, 12);
    expect(comparison.lenses.same_day).toMatchObject({ trips: 3, bites: 28 });
    const pairs = [
      { x1: 5, n1: 6, x2: 2, n2: 4 },
      { x1: 1, n1: 4, x2: 3, n2: 4 },
      { x1: 4, n1: 5, x2: 2, n2: 5 },
    ];
    const same = sameClusterDifference(pairs, { level: 0.95 });
    expect(figure.kind === 'estimated' && same.kind === 'estimated' && figure.upper).toBe(
      same.kind === 'estimated' && same.upper,
    );
  });

  test('shows the same as fished, the departures, and what has no place', () => {
    // As fished only the first trip had both; the third line of the log says nothing of its line.
    expect(planned.asFished).toMatchObject({
      trips: 1,
      refused: expect.stringMatching(/one trip/),
    });
    expect(planned.departures).toEqual([
      {
        tripNumber: 2,
        trip_id: 'QL-002',
        date: '2026-03-02',
        position: 'port-long',
        planned: 'braid',
        logged: 'mono',
        bites: 4,
      },
    ]);
    expect(planned).toMatchObject({
      tripsPlanned: 4,
      tripsMade: 3,
      tripsOpen: 1,
      tripsBeside: 1,
      bites: 28,
      bitesWithoutPlace: 1,
      bitesWithoutLevel: 5,
    });
  });

  test('rests on the same-day lens and says so', () => {
    expect(verdict).toMatchObject({ word: 'open', primary: 'same_day' });
    expect(comparison.lenses.adjusted.refused).toMatch(/nothing has to be held equal/);
    expect(sentence).toMatch(/Judged as the lot had it, on the 3 trips of the schedule/);
  });

  test('no other lens takes its place while it has nothing to say', () => {
    const one = plannedComparison(log, question, { ...plan, trips: schedule.slice(0, 1) });
    expect(one.verdict).toMatchObject({ word: 'open', primary: null });
    expect(one.sentence).toMatch(/^The plan has nothing to say yet: Only one trip/);
  });
});

test('whole trips are compared in their pairs', () => {
  const areas = ['Kettle Drop', 'Long Shelf', 'Long Shelf', 'Kettle Drop', 'Long Shelf'];
  const log = tidySeason(
    makeLog({
      trips: trips.map((trip, at) => ({ ...trip, area: areas[at] ?? null })),
      bites: [
        ...bites(1, 'pitch', null, [3, 1]),
        ...bites(2, 'port-long', null, [2, 4]),
        ...bites(3, 'port-long', null, [1, 1]),
        ...bites(4, 'port-long', null, [5, 0]),
      ],
    }),
  );
  const day = (
    tripNumber: number,
    block: string,
    level: string,
    tripId: string,
  ): ScheduledTrip => ({
    tripNumber,
    block,
    date: null,
    tripId,
    lines: [{ position: null, level }],
  });
  const schedule = [
    day(1, '1', 'Kettle Drop', 'QL-001'),
    day(2, '1', 'Long Shelf', 'QL-002'),
    day(3, '2', 'Long Shelf', 'QL-003'),
    day(4, '2', 'Kettle Drop', 'QL-004'),
    day(5, '3', 'Kettle Drop', 'QL-005'),
  ];
  const asked = {
    ...question,
    factor: 'area' as const,
    levels: ['Kettle Drop', 'Long Shelf'] as const,
  };
  const answer = plannedComparison(log, asked, { factor: 'area', trips: schedule, design: 'days' });
  // Pairs 3/4 − 2/6 and 5/5 − 1/2 with weights 2.4 and 10/7.
  const difference = (2.4 * (3 / 4 - 2 / 6) + (10 / 7) * (1 - 1 / 2)) / (2.4 + 10 / 7);
  const figure = answer.comparison.lenses.same_day.difference;
  expect(figure.kind === 'estimated' && figure.estimate).toBeCloseTo(difference, 12);
  expect(answer.sentence).toMatch(/on the 2 pairs of trips of the schedule/);
  // The last trip went where its pair was to go, and brought nothing.
  expect(answer.planned.departures).toMatchObject([
    { tripNumber: 5, position: null, planned: 'Kettle Drop', logged: 'Long Shelf', bites: 0 },
  ]);
});
