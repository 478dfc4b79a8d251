import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { differences } from '../../src/share/differencing.ts';
import { noiseRefusal, noiseUndone } from '../../src/share/noise-over.ts';
import { EMPTY_LEDGER, type NewRelease, withRelease } from '../../src/share/release-ledger.ts';
import type { ShareTrip } from '../../src/share/share-trip.ts';
import { releaseOf, tripToken } from '../../src/share/trip-token.ts';
import { reachableGroups } from './reachable-groups.ts';
import { shareTrip } from './share-trips.ts';

const token = (n: number) => String(n).padStart(24, '0');
const release = (...groups: readonly (readonly number[])[]): NewRelease => ({
  tier: 'cells',
  min_vessels: 1,
  min_trips: 3,
  noise: null,
  groups: groups.map((group) => group.map(token)),
  trips: Object.fromEntries(
    groups.flat().map((n) => [token(n), { vessel: token(n % 3), id: token(n), content: token(n) }]),
  ),
});
const ledgerAfter = (...earlier: readonly NewRelease[]) =>
  earlier.reduce((ledger, one) => withRelease(ledger, one).ledger, EMPTY_LEDGER);
const refused = (next: NewRelease, ...earlier: readonly NewRelease[]) =>
  differences(ledgerAfter(...earlier), next).map(({ tokens }) => tokens.map(Number));

const JANUARY = [1, 2, 3, 4];
const FEBRUARY = [5, 6, 7];

describe('a release beside those before it', () => {
  test('the first, the same again, and a further month may leave', () => {
    expect(refused(release(JANUARY))).toEqual([]);
    expect(refused(release(JANUARY), release(JANUARY))).toEqual([]);
    expect(refused(release(JANUARY, FEBRUARY), release(JANUARY))).toEqual([]);
  });

  test('one trip added to a month that has left would stand alone in the difference', () => {
    expect(refused(release([...JANUARY, 9]), release(JANUARY))).toEqual([[9]]);
  });

  test('one trip taken away, or corrected (another token), likewise', () => {
    expect(refused(release([1, 2, 3]), release(JANUARY))).toEqual([[4]]);
    expect(refused(release([1, 2, 3, 44]), release(JANUARY)).sort()).toEqual([[4], [44]].sort());
  });

  test('three trips added may leave: their sum could be a row', () => {
    expect(refused(release([...JANUARY, 8, 9, 10]), release(JANUARY))).toEqual([]);
  });

  test('season to date beside months: the rest must be large enough', () => {
    expect(refused(release([...JANUARY, ...FEBRUARY]), release(JANUARY))).toEqual([]);
    expect(refused(release([...JANUARY, 5, 6]), release(JANUARY))).toEqual([[5, 6]]);
  });

  test('coarser after finer, where everything was in the finer', () => {
    expect(refused(release([...JANUARY, ...FEBRUARY]), release(JANUARY, FEBRUARY))).toEqual([]);
  });

  const ofThree = (...groups: readonly (readonly number[])[]) => ({
    ...release(...groups),
    min_vessels: 3,
  });

  test('without one of three boats, then with it', () => {
    // Trips 0 and 3 are of one boat, 1 and 4 of the second, 2 and 5 of the third.
    expect(refused(ofThree([0, 1, 2, 3, 4, 5]), ofThree([0, 1, 3, 4]))).toEqual([[2, 5]]);
  });

  test('one owner’s consent does not speak for the boats that remain', () => {
    const fleet = ofThree([0, 1, 2, 3, 4, 5, 6, 7, 8]);
    const alone = release([0, 3, 6]);
    expect(refused(alone, fleet)).toEqual([[1, 2, 4, 5, 7, 8]]);
    expect(refused(fleet, alone)).toEqual([[1, 2, 4, 5, 7, 8]]);
    // In a month that the fleet did not share, the owner's word is enough.
    expect(refused(release([9, 12, 15]), fleet)).toEqual([]);
  });

  test('another cut through the same trips is refused even if no single subtraction shows a group', () => {
    // Rows 1-4 and 5-8; then 1, 2, 5, 6 as one row: 1, 2 and 5, 6 cannot be told yet, but one more would.
    const found = refused(release([1, 2, 5, 6]), release([1, 2, 3, 4], [5, 6, 7, 8]));
    expect(found).toHaveLength(4);
  });

  test('releases two and three are held against one as well', () => {
    const next = release([1, 2, 3, 4, 5, 6, 7, 9]);
    expect(refused(next, release(JANUARY), release(JANUARY, FEBRUARY))).toEqual([[9]]);
    expect(differences(ledgerAfter(release(JANUARY)), release([...JANUARY, 9]))).toMatchObject([
      { releases: [1] },
    ]);
  });

  const cut = fc.array(fc.integer({ min: -1, max: 2 }), { minLength: 12, maxLength: 12 });
  const groupsOf = (places: readonly number[]) =>
    [0, 1, 2]
      .map((row) => places.flatMap((place, trip) => (place === row ? [trip] : [])))
      .filter((group) => group.length >= 3);

  test('law: what two accepted releases let a reader work out is never a group too small', () => {
    let accepted = 0;
    fc.assert(
      fc.property(cut, cut, fc.boolean(), (first, second, nested) => {
        // Half the time the second cut only joins rows of the first, as coarser cells do.
        const next = nested
          ? first.map((place) => (place < 0 ? place : Math.min(place, 1)))
          : second;
        const [a, b] = [groupsOf(first), groupsOf(next)];
        if (differences(ledgerAfter(release(...a)), release(...b)).length > 0) return;
        accepted += 1;
        for (const group of reachableGroups([...a, ...b]))
          expect(group.length).toBeGreaterThanOrEqual(3);
      }),
      { numRuns: 300 },
    );
    expect(accepted).toBeGreaterThan(50);
  });
});

describe('trips known again though the log was changed as a whole', () => {
  const key = Buffer.alloc(32, 3);
  const choices = { thresholds: { minVessels: 1, minTrips: 3 }, noise: null } as const;
  const left = (trips: readonly ShareTrip[], leastTrips = 3, tier: 'cells' | 'trips' = 'cells') =>
    releaseOf({ content: { tier, rows: [] }, groups: [trips], leastTrips } as never, choices, key);
  const january = [0, 1, 2, 3].map((n) => shareTrip({ trip_id: `T${n}`, missed: n, hours: 4 + n }));
  const added = shareTrip({ trip_id: 'T9', missed: 9 });
  const shows = (trips: readonly ShareTrip[]) =>
    differences(ledgerAfter(left(january)), left(trips)).map(({ tokens }) => tokens);

  test('a setting changes the hours of every trip, and one trip is added: it is found by the ids', () => {
    const recounted = january.map((trip) => ({ ...trip, hours: 1 }));
    expect(shows(recounted)).toEqual([]);
    expect(shows([...recounted, added])).toEqual([[tripToken(added, key)]]);
  });

  test('every trip is numbered anew, and one is added: it is found by what it adds', () => {
    const renumbered = january.map((trip) => ({ ...trip, trip_id: `2025/${trip.trip_id}` }));
    expect(shows(renumbered)).toEqual([]);
    expect(shows([...renumbered, added])).toEqual([[tripToken(added, key)]]);
  });

  test('two trips that add the same stay two', () => {
    const alike = [0, 1, 2, 3].map((n) => shareTrip({ trip_id: `T${n}` }));
    const next = [...alike, shareTrip({ trip_id: 'T4' })].map((trip) => {
      return { ...trip, trip_id: `N${trip.trip_id}` };
    });
    const found = differences(ledgerAfter(left(alike)), left(next));
    expect(found.map(({ tokens }) => tokens.length)).toEqual([1]);
  });

  test('trips that left one by one among five alike are not cut into threes later', () => {
    const nine = Array.from({ length: 9 }, (_, n) => shareTrip({ trip_id: `T${n}`, missed: n }));
    const six = left(nine.slice(0, 6));
    expect(differences(ledgerAfter(left(nine)), six)).toEqual([]);
    const rest = differences(ledgerAfter(left(nine, 5, 'trips')), six);
    expect(rest.map(({ tokens }) => tokens.length)).toEqual([3]);
  });
});

describe('noise beside noise', () => {
  const noisy = (epsilon: number, ...groups: readonly (readonly number[])[]) => ({
    ...release(...groups),
    noise: { epsilon, clip: 20 },
  });

  test('the same rows under the same noise, and further rows, may leave', () => {
    const ledger = ledgerAfter(noisy(1, JANUARY));
    expect(noiseRefusal(ledger, noisy(1, JANUARY))).toBeNull();
    expect(noiseRefusal(ledger, noisy(1, JANUARY, FEBRUARY))).toBeNull();
    expect(noiseRefusal(ledger, noisy(2, FEBRUARY))).toBeNull();
  });

  test('other noise on the same trips could be averaged away, and ε adds up', () => {
    const ledger = ledgerAfter(noisy(1, JANUARY), noisy(1, JANUARY, FEBRUARY));
    expect(noiseRefusal(ledger, noisy(1.1, JANUARY))).toMatch(
      /in package 1 and 2\. .*the ε of each adds up\. .*\(--noise 1 --clip 20/,
    );
    // January and February as one quarter draws noise anew as well.
    expect(noiseRefusal(ledger, noisy(1, [...JANUARY, ...FEBRUARY]))).not.toBeNull();
  });

  test('exact counts beside noisy ones are the owner’s to weigh, and named', () => {
    expect(noiseRefusal(ledgerAfter(noisy(1, JANUARY)), release(JANUARY))).toBeNull();
    expect(noiseUndone(ledgerAfter(noisy(1, JANUARY)), release(JANUARY))).toEqual([1]);
    expect(noiseUndone(ledgerAfter(release(JANUARY)), noisy(1, JANUARY))).toEqual([1]);
    expect(noiseUndone(ledgerAfter(noisy(1, JANUARY)), release(FEBRUARY))).toEqual([]);
  });

  test('with noise it is another package than without', () => {
    expect(withRelease(ledgerAfter(release(JANUARY)), noisy(1, JANUARY)).number).toBe(2);
  });
});

test('the same groups once more keep their number; a release is numbered in order', () => {
  const once = withRelease(EMPTY_LEDGER, release(JANUARY));
  expect(once.number).toBe(1);
  const again = withRelease(once.ledger, release([...JANUARY].reverse()));
  expect(again).toEqual({ ledger: once.ledger, number: 1 });
  expect(withRelease(once.ledger, release(JANUARY, FEBRUARY)).number).toBe(2);
});
