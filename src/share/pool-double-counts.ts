import { UserError } from '../base/problem.ts';
import { listWords } from '../base/words.ts';
import * as say from './pool-messages.ts';
import type { PoolPackage } from './pool-package.ts';

/**
 * Refuses packages that hold the same fishing: the same rows, or the same vessel's pseudonym in the
 * same months. Two owners' keys give one vessel two pseudonyms, so what the owners shared twice under
 * two keys is not seen.
 * @throws UserError (exit 2) that names both.
 */
export function refuseDoubleCounts(packages: readonly PoolPackage[]): void {
  for (const [at, first] of packages.entries()) {
    for (const second of packages.slice(at + 1)) {
      if (first.fingerprint === second.fingerprint) {
        const isNamedTwice = first.folder === second.folder;
        throw new UserError(
          isNamedTwice ? say.namedTwice(first.folder) : say.sameTwice(first.folder, second.folder),
          2,
        );
      }
      const vessels = first.about.vessels.filter((one) => second.about.vessels.includes(one));
      const months = [...first.months].filter((month) => second.months.has(month)).sort();
      if (vessels.length > 0 && months.length > 0) {
        throw new UserError(say.countedTwice(first.folder, second.folder, listWords(months, 4)), 2);
      }
    }
  }
}
