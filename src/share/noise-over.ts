import { listWords } from '../base/words.ts';
import type { Ledger, NewRelease, Release } from './release-ledger.ts';

/**
 * Why counts under noise may not leave beside earlier ones: noise drawn anew on the same trips can be
 * averaged away, and the ε of the packages add up. The same row under the same noise tells nothing new.
 * Source: Dwork et al. 2006, sequential composition: privacy losses add.
 *
 * @returns null where no trip has left under other noise, or under noise in another row.
 */
export function noiseRefusal(ledger: Ledger, release: NewRelease): string | null {
  const others = overlapping(ledger, release).filter((old) => isDrawnAnew(old, release, ledger));
  const [first] = others;
  if (first?.noise == null) return null;
  return (
    'Nothing was written. Trips of this package left earlier under noise of their own, in package ' +
    `${listWords(others.map((old) => String(old.number)))}. Whoever holds both can average the ` +
    'noise away: the ε of each adds up. Ask for the same rows under the same noise ' +
    `(--noise ${first.noise.epsilon} --clip ${first.noise.clip}, the same grid and period), or share ` +
    'only what has not left yet (--from, --to).'
  );
}

/** Numbers of earlier packages that hold the same trips with noise where this has none, or without. */
export function noiseUndone(ledger: Ledger, release: NewRelease): number[] {
  return overlapping(ledger, release)
    .filter((old) => (old.noise === null) !== (release.noise === null))
    .map((old) => old.number);
}

/** Releases with a trip of this one, by its id. */
function overlapping(ledger: Ledger, { trips }: NewRelease): Release[] {
  const ids = new Set(Object.values(trips).map(({ id }) => id));
  return ledger.releases.filter(({ groups }) =>
    groups.flat().some((token) => ids.has(ledger.trips[token]?.id ?? '')),
  );
}

/** Whether a trip stands in rows of both, under noise that is not the same. */
function isDrawnAnew(old: Release, release: NewRelease, ledger: Ledger): boolean {
  if (old.noise === null || release.noise === null) return false;
  const { epsilon, clip } = release.noise;
  if (old.noise.epsilon !== epsilon || old.noise.clip !== clip) return true;
  const rowKey = (group: readonly string[]) => [...group].sort().join();
  const rows = new Set(release.groups.map(rowKey));
  const ids = new Set(Object.values(release.trips).map(({ id }) => id));
  return old.groups.some(
    (group) =>
      !rows.has(rowKey(group)) && group.some((token) => ids.has(ledger.trips[token]?.id ?? '')),
  );
}
