import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { differences } from '../../src/share/differencing.ts';
import { EMPTY_LEDGER, type NewRelease, withRelease } from '../../src/share/release-ledger.ts';
import { reachableGroups } from './reachable-groups.ts';

const token = (n: number) => String(n).padStart(24, '0');
const release = (...groups: readonly (readonly number[])[]): NewRelease => ({
  tier: 'cells',
  min_vessels: 1,
  min_trips: 3,
  groups: groups.map((group) => group.map(token)),
  vessels: Object.fromEntries(groups.flat().map((n) => [token(n), token(n % 3)])),
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

test('the same groups once more keep their number; a release is numbered in order', () => {
  const once = withRelease(EMPTY_LEDGER, release(JANUARY));
  expect(once.number).toBe(1);
  const again = withRelease(once.ledger, release([...JANUARY].reverse()));
  expect(again).toEqual({ ledger: once.ledger, number: 1 });
  expect(withRelease(once.ledger, release(JANUARY, FEBRUARY)).number).toBe(2);
});
