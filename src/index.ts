/* The toolkit: what another program may import. The command line is `cli.ts`. */

// the record of every figure
export type { Basis, Estimate, Estimated, Interval, NotEstimable } from './base/estimate.ts';
export { type Effect, type Problem, UserError } from './base/problem.ts';
// decide
export { type AnsweredComparison, answerComparison } from './decide/answer-comparison.ts';
export { type AnsweredTogether, answerTogether } from './decide/answer-together.ts';
export { type Headline, headlines } from './decide/headlines.ts';
export {
  type ComparisonPlan,
  type PlanRequest,
  planComparison,
} from './decide/plan-answer.ts';
export { type Verdict, verdictOf } from './decide/verdict.ts';
// estimate
export { type CompareRequest, compareLevels } from './estimate/compare-levels.ts';
export type { Comparison } from './estimate/comparison.ts';
export { type DifferenceWithin, differencesWithin } from './estimate/difference-within.ts';
export type { GroupRate } from './estimate/group-rate.ts';
export type { Lens } from './estimate/lens.ts';
export { type RateRequest, ratesBy } from './estimate/rates.ts';
export { shrunkenRanking } from './estimate/shrunken-ranking.ts';
export { type StandardisedIndex, standardisedIndex } from './estimate/standardised-index.ts';
// read and tidy
export { readSeason } from './read/read-season.ts';
export type { BaitBuyRow, BiteRow, SoakRow, SpoolRow, TripRow } from './read/rows.ts';
export type { ReadAccount, SeasonLog } from './read/season-log.ts';
// the whole story
export { openSeason, type ReportRequest, reportSeason, type SeasonReport } from './season.ts';
export type { Settings } from './settings/settings.ts';
// tally
export { FACTOR_NAMES, type FactorName } from './tally/factors.ts';
export { MEASURE_NAMES, type Measure } from './tally/measures.ts';
export { type Question, WHOLE_LOG } from './tally/question.ts';
export { type TallyRow, talliesOf } from './tally/tallies.ts';
export { type TidySeason, tidySeason } from './tidy/tidy-season.ts';
