import { describe, expect, test } from 'vitest';
import { type BasisRequest, planBasis } from '../../src/estimate/plan-basis.ts';
import { planPlaces } from '../../src/estimate/plan-places.ts';
import { FEWEST_STRATA } from '../../src/estimate/plan-spread.ts';
import { strataOfNeighbours, strataOfSides } from '../../src/estimate/plan-strata.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { type LogParts, makeLog } from '../helpers/make-log.ts';

type Bite = NonNullable<LogParts['bites']>[number];

const season = (parts: LogParts) => tidySeason(makeLog(parts));
const trips = (count: number) =>
  Array.from({ length: count }, (_, at) => ({
    trip_id: `T${at + 1}`,
    date: `2026-03-${String(at + 1).padStart(2, '0')}`,
  }));
const bites = (trip: number, position: string | null, hooked: number, missed: number): Bite[] => {
  const row = { trip_id: `T${trip}`, position };
  const both = [
    { ...row, outcome: 'lost' as const, count: hooked },
    { ...row, outcome: 'missed' as const, count: missed },
  ];
  return both.filter(({ count }) => count > 0);
};
const part = { only: {}, from: null, to: null };
const request: BasisRequest = {
  ...part,
  design: 'sides',
  factor: 'line_type',
  levels: ['braid', 'mono'],
  measure: 'hookup_rate',
  places: [{ reach: 'long', port: ['port-long'], starboard: ['starboard-long'] }],
  level: 0.95,
};
const planned = (log: ReturnType<typeof season>, changes: Partial<BasisRequest> = {}) => {
  const basis = planBasis(log, { ...request, ...changes });
  if (basis.kind === 'not-estimable') throw new Error(basis.reason);
  return basis;
};

// Three trips, worked out by hand: 4 and 4 bites, 6 and 2, 3 and none; a pitched bite takes no part.
const small = season({
  trips: [...trips(3), { trip_id: 'T4', date: '2026-03-15' }],
  bites: [
    ...bites(1, 'port-long', 3, 1),
    ...bites(1, 'starboard-long', 2, 2),
    ...bites(2, 'port-long', 4, 2),
    ...bites(2, 'starboard-long', 2, 0),
    ...bites(3, 'port-long', 1, 2),
    ...bites(3, 'pitch', 1, 0),
  ],
});

describe('what a log says', () => {
  test('weights of sides are n₁n₂/(n₁ + n₂), a trip without a bite among them', () => {
    const { strata, pace } = planned(small);
    expect(strata.from).toBe('sides');
    expect(strata.weights).toEqual([2, 1.5, 0, 0]);
    expect(pace).toMatchObject({ trips: 4, days: 15, bitesPerTrip: 5, unitsPerTrip: 19 / 4 });
    expect(pace.tripsPerWeek).toBeCloseTo((7 * 4) / 15, 12);
  });

  test('levels that are new: the rate is that of the whole log, 13 hooked of 20', () => {
    const { base, baseFrom, newLevels, spread } = planned(small);
    expect(base.estimate).toBeCloseTo(13 / 20, 12);
    expect({ baseFrom, newLevels }).toEqual({ baseFrom: 'log', newLevels: ['braid', 'mono'] });
    expect(spread.from).toBe('correlation');
    expect(spread.designEffect).toBeCloseTo(1 - (spread.correlation ?? 0), 12);
  });

  test('levels in the log give their own rate and the share of trips with both', () => {
    const lined = season({
      trips: trips(3),
      bites: [
        ...bites(1, 'port-long', 3, 1).map((bite) => ({ ...bite, line_type: 'braid' })),
        ...bites(1, 'starboard-long', 1, 1).map((bite) => ({ ...bite, line_type: 'mono' })),
        ...bites(2, 'port-long', 1, 3).map((bite) => ({ ...bite, line_type: 'mono' })),
        ...bites(3, 'starboard-long', 9, 0).map((bite) => ({ ...bite, line_type: 'wire' })),
      ],
    });
    const { base, baseFrom, pace } = planned(lined);
    expect(baseFrom).toBe('levels');
    expect(base.estimate).toBeCloseTo(5 / 10, 12);
    expect(pace).toMatchObject({ tripsWithEither: 2, tripsWithBoth: 1 });
  });

  test('without positions half of the bites is taken for each side: (n − 1)/4', () => {
    const bare = season({
      trips: trips(3),
      bites: [...bites(1, null, 5, 4), ...bites(2, null, 1, 0), ...bites(3, null, 0, 3)],
    });
    const { strata, pace } = planned(bare);
    expect(strata).toMatchObject({ from: 'even', weights: [2, 0, 0.5] });
    expect(pace.unitsPerTrip).toBeCloseTo(13 / 3, 12);
  });

  test('neighbouring trips are pairs; a last odd one is left out', () => {
    const { pairs } = strataOfNeighbours(small, { ...part, measure: 'hookup_rate' });
    expect(pairs).toEqual([
      { x1: 5, n1: 8, x2: 6, n2: 8 },
      { x1: 2, n1: 4, x2: 0, n2: 0 },
    ]);
  });

  test('a rate weighs a trip by its bites, as line-hours at the mean rate', () => {
    const soaks = (trip: number) =>
      ['port-long', 'starboard-long'].map((position) => ({
        trip_id: `T${trip}`,
        position,
        hours: 4,
      }));
    const log = season({
      trips: trips(2),
      soaks: [...soaks(1), ...soaks(2)],
      bites: [
        ...bites(1, 'port-long', 5, 0),
        ...bites(1, 'starboard-long', 7, 0),
        ...bites(2, 'port-long', 4, 0),
      ],
    });
    const { weights } = strataOfSides(
      log,
      { ...part, measure: 'bites_per_line_hour' },
      request.places,
    );
    // (5 + 7)/4 and 4/4 events on 16 bites in 16 hours; evenly they would be 2 and 2.
    expect(weights).toEqual([3, 1]);
  });
});

describe('how much a comparison varies', () => {
  const many = (count: number, bite: (trip: number) => Bite[]) =>
    season({
      trips: Array.from({ length: count }, (_, at) => ({
        trip_id: `T${at + 1}`,
        date: `2026-0${1 + Math.floor(at / 28)}-${String((at % 28) + 1).padStart(2, '0')}`,
      })),
      bites: Array.from({ length: count }, (_, at) => bite(at + 1)).flat(),
    });
  const level = (line_type: string, rows: Bite[]) => rows.map((row) => ({ ...row, line_type }));

  test('comes from trips with both levels where there are enough of them', () => {
    const both = (trip: number) => [
      ...level('braid', bites(trip, 'port-long', 2 + (trip % 3), 2)),
      ...level('mono', bites(trip, 'starboard-long', 3, 1 + (trip % 2))),
    ];
    expect(planned(many(FEWEST_STRATA, both)).spread).toMatchObject({
      from: 'same-day',
      strata: 20,
    });
    expect(planned(many(FEWEST_STRATA - 1, both)).spread.from).toBe('correlation');
  });

  test('else from the sides, where the levels were never fished together', () => {
    const apart = (trip: number) =>
      level(trip % 2 === 0 ? 'braid' : 'mono', [
        ...bites(trip, 'port-long', 2 + (trip % 3), 2),
        ...bites(trip, 'starboard-long', 3, 1 + (trip % 2)),
      ]);
    expect(planned(many(30, apart)).spread).toMatchObject({ from: 'sides', strata: 30 });
  });

  test('sides that swing together within the day: twice the bites, twice the design effect', () => {
    // Each side of a day is all hooked or all missed: 4 bites say no more than one.
    const swing = (trip: number) => {
      const side = (position: string, good: boolean) =>
        bites(trip, position, good ? 4 : 0, good ? 0 : 4);
      return [
        ...side('port-long', trip % 4 < 2),
        ...side('starboard-long', trip % 4 === 0 || trip % 4 === 3),
      ];
    };
    const { spread } = planned(many(40, swing));
    expect(spread.designEffect).toBeGreaterThan(3.9);
    expect(spread.designEffect).toBeLessThan(4.3);
  });
});

describe('where the two change places', () => {
  test('reaches with lines on both sides that the log has fished', () => {
    const log = season({
      trips: trips(1),
      bites: ['port-short', 'starboard-short', 'port-long', 'pitch'].flatMap((position) =>
        bites(1, position, 1, 1),
      ),
    });
    expect(planPlaces(log, 'bait', part)).toEqual([
      { reach: 'short', port: ['port-short'], starboard: ['starboard-short'] },
    ]);
    const unsaid = season({ trips: trips(1), bites: bites(1, null, 1, 1) });
    expect(planPlaces(unsaid, 'bait', part)).toHaveLength(4);
  });

  test('whole sides where no reach has both; nothing where there is one side only', () => {
    const log = season({
      trips: trips(1),
      bites: [...bites(1, 'port-short', 1, 0), ...bites(1, 'starboard-long', 1, 0)],
    });
    expect(planPlaces(log, 'bait', part)).toEqual([
      { reach: null, port: ['port-short'], starboard: ['starboard-long'] },
    ]);
    const oneSided = season({ trips: trips(1), bites: bites(1, 'port-short', 1, 0) });
    expect(planPlaces(oneSided, 'bait', part)).toMatchObject({ kind: 'not-estimable' });
  });

  test('two rods change sides where most bites came', () => {
    const log = season({
      trips: trips(1),
      bites: [
        'port-short',
        'starboard-short',
        'port-long',
        'starboard-long',
        'starboard-long',
      ].flatMap((position) => bites(1, position, 1, 1)),
    });
    expect(planPlaces(log, 'rod', part)).toMatchObject([{ reach: 'long' }]);
  });
});

describe('too little to plan from, and what to log first', () => {
  const refusal = (parts: LogParts, changes: Partial<BasisRequest> = {}) => {
    const basis = planBasis(season(parts), { ...request, ...changes });
    return basis.kind === 'not-estimable' ? basis.reason : 'planned';
  };

  test('no trip, one trip, no bite', () => {
    expect(refusal({ trips: [] })).toMatch(/^There is no trip .* Log a few ordinary trips first/);
    expect(refusal({ trips: trips(1), bites: bites(1, 'port-long', 1, 1) })).toMatch(
      /^There is one trip/,
    );
    expect(refusal({ trips: trips(3) })).toMatch(/^There is not a bite/);
  });

  test('all hooked or none hooked', () => {
    const all = {
      trips: trips(2),
      bites: [...bites(1, 'port-long', 4, 0), ...bites(2, 'port-long', 2, 0)],
    };
    expect(refusal(all)).toMatch(/^So far every one of 6 counted for hookup_rate/);
    const none = {
      trips: trips(2),
      bites: [...bites(1, 'port-long', 0, 4), ...bites(2, 'port-long', 0, 2)],
    };
    expect(refusal(none)).toMatch(/^There is nothing of hookup_rate/);
  });

  test('no line-hours for a rate; never two bites on a trip', () => {
    const log = { trips: trips(2), bites: [...bites(1, null, 1, 0), ...bites(2, null, 0, 1)] };
    expect(refusal(log, { measure: 'bites_per_line_hour' })).toMatch(/^There is not a line-hour/);
    expect(refusal(log)).toMatch(/^No trip of this log brought enough/);
  });
});
