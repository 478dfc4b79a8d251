import { levelWords, listWords, printable } from '../base/words.ts';
import type { Design } from '../stats/design-matrix.ts';
import { factorWords } from '../tally/factor-words.ts';
import type { FactorName } from '../tally/factors.ts';

/** More than this are no longer read. */
const MOST_NAMED = 6;

/**
 * Why a model whose rows went all one way gives no figure, its columns told as a captain knows them:
 * `wind not recorded`, `week 2025-W18`, `reach long with line type mono`.
 * @param columns names of the design's columns that run off to infinity
 */
export function separatedReason(columns: readonly string[], { parts, terms }: Design): string {
  const names = terms.flatMap((term, at) =>
    (parts[at] ?? [])
      .filter(({ name }) => name !== '' && columns.includes(name))
      .map(({ name }) => columnWords(name, term as readonly FactorName[])),
  );
  const about = names.length === 0 ? '' : ` for ${listWords(names, MOST_NAMED)}`;
  return `Some combination of levels went all one way, so no figure can be found${about}.`;
}

/** `baitscad` of the term bait: `bait scad`; of a product, both. */
function columnWords(name: string, term: readonly FactorName[]): string {
  let rest = name;
  const words = term.map((factor, at) => {
    const next = term[at + 1];
    const end = next === undefined ? rest.length : rest.indexOf(`:${next}`, factor.length);
    const level = rest.slice(factor.length, end);
    rest = rest.slice(end + 1);
    return `${factorWords(factor)} ${printable(levelWords(level))}`;
  });
  return words.join(' with ');
}
