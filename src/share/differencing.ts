import { groupBy } from '../base/group-by.ts';
import type { Ledger, NewRelease, TripNames } from './release-ledger.ts';
import { mayPublish, type Thresholds } from './thresholds.ts';

/** A group of trips that this package together with earlier ones would show. */
export interface Difference {
  /** Numbers of the earlier releases that take part. */
  readonly releases: readonly number[];
  /** Tokens of its trips. */
  readonly tokens: readonly string[];
}

/**
 * Groups too small to be shown that could be reached by subtracting packages from each other. Trips
 * are known again by id, so that no correction of all of them hides one that was added, and by what
 * they add to a sum, so that no new ids hide one that was corrected.
 */
export function differences(ledger: Ledger, release: NewRelease): Difference[] {
  const byIdOrContent = (['id', 'content'] as const).flatMap((name) =>
    differencesBy(name, ledger, release),
  );
  return [...new Map(byIdOrContent.map((one) => [pieceKey(one.tokens), one])).values()];
}

/**
 * All groups of all packages are laid over each other; whatever can be worked out from them is a
 * union of the pieces they are cut into, so it is enough that every piece may be shown. A piece that
 * was there before, or is a whole group of this package, tells nothing new.
 * Source: Hundepool et al., Handbook on Statistical Disclosure Control, ch. 4 (linked tables); that
 * every piece must hold is stricter than need be, and leaves nothing to be solved for.
 */
function differencesBy(
  name: 'id' | 'content',
  ledger: Ledger,
  { trips, ...release }: NewRelease,
): Difference[] {
  const known: Readonly<Record<string, TripNames>> = { ...ledger.trips, ...trips };
  // The last token of a trip is the one that the log at hand has.
  const tokenOf = new Map(
    [ledger.trips, trips].flatMap((some) =>
      Object.entries(some).map(([token, names]) => [names[name], token]),
    ),
  );
  const named = <Old extends { readonly groups: Groups }>(old: Old) => {
    const nameOf = (token: string) => known[token]?.[name] ?? token;
    return { ...old, groups: old.groups.map((group) => group.map(nameOf)) };
  };
  const before = ledger.releases.map(named);
  const next = named(release);
  const told = new Set(
    [...pieces(before.map(({ groups }) => groups)), ...next.groups].map(pieceKey),
  );
  const vesselOf = (one: string) => known[tokenOf.get(one) ?? '']?.vessel ?? '';
  const mayShow = (piece: readonly string[]) =>
    mayPublish(
      piece.map((one) => ({ vessel: vesselOf(one), effort: 0 })),
      thresholdsOf(piece, [...before, next]),
    );
  return pieces([...before, next].map(({ groups }) => groups))
    .filter((piece) => !told.has(pieceKey(piece)) && !mayShow(piece))
    .map((piece) => {
      const whole = next.groups.find((group) => piece.some((one) => group.includes(one)));
      const involved = new Set([...piece, ...(whole ?? [])]);
      const touched = before.filter(({ groups }) =>
        groups.some((group) => group.some((one) => involved.has(one))),
      );
      const tokens = piece.map((one) => tokenOf.get(one) ?? one);
      return { releases: touched.map((old) => old.number), tokens };
    });
}

/**
 * The thresholds that a piece must meet: of the releases that hold it whole, the fewest vessels, as
 * one that left with its owner's consent holds nothing but that owner's trips; the most trips.
 */
function thresholdsOf(
  piece: readonly string[],
  releases: readonly Pick<NewRelease, 'groups' | 'min_vessels' | 'min_trips'>[],
): Thresholds {
  const [first = ''] = piece;
  const holding = releases.filter(({ groups }) => groups.some((group) => group.includes(first)));
  return {
    minVessels: Math.min(...holding.map((one) => one.min_vessels)),
    minTrips: Math.max(...holding.map((one) => one.min_trips)),
  };
}

type Groups = readonly (readonly string[])[];

/** The pieces into which several divisions, laid over each other, cut all that they hold. */
function pieces(divisions: readonly Groups[]): string[][] {
  const places = divisions.map(
    (groups) => new Map(groups.flatMap((group, at) => group.map((one) => [one, at] as const))),
  );
  const all = new Set(divisions.flat(2));
  const placesOf = (one: string) => places.map((place) => place.get(one) ?? '').join();
  return [...groupBy(all, placesOf).values()];
}

function pieceKey(names: readonly string[]): string {
  return [...names].sort().join();
}
