import type { ShrunkenRanking } from '../estimate/shrunken-ranking.ts';

/**
 * Whether the levels differ no more than luck makes: each is then given the common figure and the
 * same chance of being the best, though its own interval still shows what it alone rests on.
 */
export function hasSameChance({ levels }: Pick<ShrunkenRanking, 'levels'>): boolean {
  const [first] = levels;
  return (
    levels.length > 1 &&
    levels.every(({ shrunken }) => shrunken.estimate === first?.shrunken.estimate)
  );
}

/** `the log shows no more difference between the baits than luck makes`. */
export function luckWords(which: string): string {
  return `the log shows no more difference between ${which} than luck makes`;
}

/** What equal chances beside unequal figures mean, as the end of a sentence. */
export const SAME_CHANCE_WORDS = 'every one has the same chance of being the best';
