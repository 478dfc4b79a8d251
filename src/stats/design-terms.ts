/**
 * Terms of a linear model in words: `bait` (main effect), `bait:reach` (their product alone),
 * `bait*reach` (both and their product). The intercept is always there.
 */

/** The variables whose product a term is; none for the intercept. */
export type Term = readonly string[];

/**
 * Writes out `*` and puts lower orders first, each term once: ['line*hook', 'bait'] gives
 * line, hook, bait, line:hook, with the intercept in front.
 * Source: the usual hierarchical expansion (Wilkinson & Rogers 1973, Applied Statistics 22).
 */
export function expandTerms(terms: readonly string[]): readonly Term[] {
  const written = terms.flatMap(writeOut);
  const unique = new Map<string, Term>([['', []]]);
  for (const term of written) {
    const key = [...term].sort().join(':');
    if (!unique.has(key)) unique.set(key, term);
  }
  return [...unique.values()].sort((a, b) => a.length - b.length);
}

/** 'a*b' → a, b, a:b; a part may itself be a product ('a*b:c'). */
function writeOut(text: string): Term[] {
  const parts = text.split('*').map((part) => part.split(':').map((name) => name.trim()));
  let subsets: Term[] = [[]];
  for (const part of parts)
    subsets = [...subsets, ...subsets.map((subset) => [...new Set([...subset, ...part])])];
  return subsets.filter((subset) => subset.length > 0);
}

/**
 * Whether a factor stands in a term by its differences from its first level (the first level left
 * out) or by all its levels: by differences when the term without the factor is in the model too.
 * Source: Chambers & Hastie 1992, Statistical Models in S, ch. 2.
 */
export function codedByDifferences(factor: string, term: Term, model: readonly Term[]): boolean {
  const rest = new Set(term.filter((name) => name !== factor));
  return model.some((other) => other.length === rest.size && other.every((name) => rest.has(name)));
}
