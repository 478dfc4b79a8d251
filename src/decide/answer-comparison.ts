import { type CompareRequest, compareLevels } from '../estimate/compare-levels.ts';
import type { Comparison } from '../estimate/comparison.ts';
import { tripPairs } from '../estimate/level-pairs.ts';
import { talliedGroups } from '../estimate/rates.ts';
import type { FactorName } from '../tally/factors.ts';
import type { Measure } from '../tally/measures.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type ComparisonWords, compareSentence, comparisonWords } from './compare-sentence.ts';
import { type SoFar, type ToSettle, toSettle } from './to-settle.ts';
import { type Verdict, verdictOf } from './verdict.ts';

/** A question to be answered: levels of one factor by one measure. */
export interface ComparisonQuestion extends CompareRequest {
  readonly factor: FactorName;
  /** Two or more; of more than two, each later one is compared with the first. */
  readonly levels: readonly string[];
  readonly measure: Measure;
}

/** A comparison with its verdict and the sentence that says it. */
export interface AnsweredComparison {
  readonly comparison: Comparison;
  readonly verdict: Verdict;
  /** How much more fishing would settle it; null unless it is open. */
  readonly settle: ToSettle | null;
  readonly words: ComparisonWords;
  readonly sentence: string;
}

/** Answers one comparison of A with B. */
export function answerComparison(
  season: TidySeason,
  question: ComparisonQuestion,
  levels: readonly [string, string],
): AnsweredComparison {
  const { factor, measure } = question;
  const comparison = compareLevels(season, { factor, measure, levels }, question);
  const verdict = verdictOf(comparison, season.log.settings);
  const settle =
    verdict.word === 'open' ? toSettle(comparison, verdict, soFar(season, question, levels)) : null;
  const words = comparisonWords(comparison, verdict, settle);
  return { comparison, verdict, settle, words, sentence: compareSentence(words) };
}

function soFar(
  season: TidySeason,
  question: ComparisonQuestion,
  levels: readonly [string, string],
): SoFar {
  const { factor, measure } = question;
  const rows = talliedGroups(season, { ...question, by: [factor] })
    .filter((group) => levels.includes(group.by[factor] ?? ''))
    .flatMap((group) => group.rows);
  const pairs = tripPairs(rows, { factor, measure, levels });
  return {
    unitsA: pairs.reduce((sum, pair) => sum + pair.n1, 0),
    unitsB: pairs.reduce((sum, pair) => sum + pair.n2, 0),
    bites: rows.reduce((sum, row) => sum + row.bites, 0),
    trips: new Set(rows.map((row) => row.trip_id)).size,
  };
}
