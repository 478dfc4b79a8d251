import type { LevelsTogether } from '../estimate/levels-together.ts';
import type { PairTogether } from '../estimate/pairs-together.ts';
import { isInsideMargin, type VerdictWord } from './verdict.ts';

/** A pair of several levels with its verdict, every pair being looked at. */
export interface JudgedPair {
  readonly pair: PairTogether;
  readonly word: VerdictWord;
}

/** What several levels come to together. */
export interface TogetherVerdict {
  readonly together: LevelsTogether;
  readonly pairs: readonly JudgedPair[];
  /** null where they cannot be judged together. */
  readonly word: VerdictWord | null;
  /** The smallest difference worth acting on: a proportion, or a share of a rate. */
  readonly margin: number;
  /** Whether the joint test finds that they are not all alike. */
  readonly isJointDifference: boolean;
}

/**
 * Verdicts with every pair looked at: `alike` where the limits that hold together lie inside the
 * margin, `clear` where Holm's p is at most 1 − level, `tied` where there is no figure, else `open`.
 * Of all: `clear` if any pair is, `alike` if all are.
 */
export function togetherVerdict(together: LevelsTogether, margin: number): TogetherVerdict {
  const { level, test, refused } = together;
  const pairs = together.pairs.map((pair) => ({ pair, word: wordOf(pair, together, margin) }));
  const word = refused === null ? wordOfAll(pairs.map((pair) => pair.word)) : null;
  const isJointDifference = test.kind === 'f' && test.p <= 1 - level;
  return { together, pairs, word, margin, isJointDifference };
}

function wordOf(
  { pHolm, together }: PairTogether,
  { measure, level }: LevelsTogether,
  margin: number,
): VerdictWord {
  if (pHolm === null) return 'tied';
  if (isInsideMargin(together, measure, margin)) return 'alike';
  return pHolm <= 1 - level ? 'clear' : 'open';
}

function wordOfAll(words: readonly VerdictWord[]): VerdictWord {
  if (words.includes('clear')) return 'clear';
  if (words.every((word) => word === 'tied')) return 'tied';
  return words.every((word) => word === 'alike') ? 'alike' : 'open';
}
