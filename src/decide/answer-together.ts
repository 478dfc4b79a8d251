import { levelsTogether } from '../estimate/levels-together.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import type { ComparisonQuestion } from './answer-comparison.ts';
import { togetherSentence } from './together-sentence.ts';
import { type TogetherVerdict, togetherVerdict } from './together-verdict.ts';
import { marginOf } from './verdict.ts';

/** Several levels judged together, with the sentence that says what they come to. */
export interface AnsweredTogether extends TogetherVerdict {
  readonly sentence: string;
}

/** Answers one question about three or more levels at once. */
export function answerTogether(season: TidySeason, question: ComparisonQuestion): AnsweredTogether {
  const { factor, levels, measure } = question;
  const together = levelsTogether(season, { factor, levels, measure }, question);
  const verdict = togetherVerdict(together, marginOf(measure, season.log.settings));
  return { ...verdict, sentence: togetherSentence(verdict) };
}
