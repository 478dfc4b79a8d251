import { groupBy } from '../base/group-by.ts';
import type { Ledger, NewRelease } from './release-ledger.ts';
import { mayPublish, type Thresholds } from './thresholds.ts';

/** A group of trips that this package together with earlier ones would show. */
export interface Difference {
  /** Numbers of the earlier releases that take part. */
  readonly releases: readonly number[];
  /** Tokens of its trips. */
  readonly tokens: readonly string[];
}

/**
 * Groups too small to be shown that could be reached by subtracting packages from each other.
 * All groups of all packages are laid over each other; whatever can be worked out from them is a
 * union of the pieces they are cut into, so it is enough that every piece may be shown. A piece that
 * was there before, or is a whole group of this package, tells nothing new.
 * Source: Hundepool et al., Handbook on Statistical Disclosure Control, ch. 4 (linked tables); that
 * every piece must hold is stricter than need be, and leaves nothing to be solved for.
 */
export function differences(ledger: Ledger, release: NewRelease): Difference[] {
  const before = ledger.releases.map((old) => old.groups);
  const vessels: Readonly<Record<string, string>> = { ...ledger.vessels, ...release.vessels };
  const known = new Set([...pieces(before), ...release.groups].map(pieceKey));
  const all = [...ledger.releases, release];
  const mayShow = (piece: readonly string[]) =>
    mayPublish(
      piece.map((token) => ({ vessel: vessels[token] ?? '', effort: 0 })),
      thresholdsOf(piece, all),
    );
  return pieces([...before, release.groups])
    .filter((piece) => !known.has(pieceKey(piece)) && !mayShow(piece))
    .map((tokens) => {
      const whole = release.groups.find((group) => tokens.some((token) => group.includes(token)));
      const involved = new Set([...tokens, ...(whole ?? [])]);
      const touched = ledger.releases.filter(({ groups }) =>
        groups.some((group) => group.some((token) => involved.has(token))),
      );
      return { releases: touched.map((old) => old.number), tokens };
    });
}

/**
 * The thresholds that a piece must meet: of the releases that hold it whole, the fewest vessels, as
 * one that left with its owner's consent holds nothing but that owner's trips; the most trips.
 */
function thresholdsOf(
  piece: readonly string[],
  releases: readonly Omit<NewRelease, 'vessels'>[],
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
    (groups) => new Map(groups.flatMap((group, at) => group.map((token) => [token, at] as const))),
  );
  const tokens = new Set(divisions.flat(2));
  const placesOf = (token: string) => places.map((place) => place.get(token) ?? '').join();
  return [...groupBy(tokens, placesOf).values()];
}

function pieceKey(tokens: readonly string[]): string {
  return [...tokens].sort().join();
}
