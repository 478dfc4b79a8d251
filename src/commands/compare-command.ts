import { refuse } from '../base/estimate.ts';
import { UserError } from '../base/problem.ts';
import {
  type AnsweredComparison,
  answerComparison,
  type ComparisonQuestion,
} from '../decide/answer-comparison.ts';
import { answerTogether } from '../decide/answer-together.ts';
import { DEFAULT_COVARIATES } from '../estimate/comparison.ts';
import { type DifferenceWithin, differencesWithin } from '../estimate/difference-within.ts';
import type { FactorName } from '../tally/factors.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { compareRecord } from './compare-record.ts';
import { comparisonText } from './compare-text.ts';
import { documentHead, documentText } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { levelsBetween } from './levels-between.ts';
import { loadSeason } from './load-season.ts';
import { commonOptions, factorList, type GivenOptions, measureList } from './options.ts';
import { comparePlanned } from './plan-kept-command.ts';

export interface CompareOptions extends GivenOptions {
  readonly factor?: string;
  readonly between?: string;
  readonly measure?: string;
  readonly adjust?: string;
  /** Factors within whose levels the answer is looked at as well. */
  readonly within?: string;
  /** A schedule that `plan` wrote and the crew filled in. */
  readonly planned?: string;
}

/**
 * `compare`: two or more levels of one factor, seen three ways, with a verdict. Exit 1 where there is
 * none, or a table asked for within other factors cannot be given.
 */
export async function compareCommand(
  folder: string,
  given: CompareOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = commonOptions(given);
  const factor = oneOf('--factor', factorList('--factor', given.factor));
  const measure = oneOf(
    '--measure',
    measureList('--measure', given.measure ?? 'hookup_rate') ?? [],
  );
  const adjust =
    given.adjust === undefined ? DEFAULT_COVARIATES : factorList('--adjust', given.adjust);
  if (factor === 'species') {
    throw new UserError('--factor species: a missed bite has no sure species to compare.', 2);
  }
  const season = await loadSeason(folder, options, effects);
  if (given.planned !== undefined) {
    const planned = { ...options, factor, measure, adjust, between: given.between ?? null };
    return comparePlanned(season, planned, { schedule: given.planned, effects });
  }
  const levels = levelsBetween(season, factor, { between: given.between, only: options.only });
  const question = { ...options, factor, levels, measure, adjust };
  const [first, ...others] = levels;
  const answers = others.map((other) => {
    const pair: readonly [string, string] = others.length === 1 ? [first, other] : [other, first];
    return answerComparison(season, question, pair);
  });
  const head = documentHead('compare', season, options);
  const together = others.length > 1 ? answerTogether(season, question) : null;
  const asked = given.within === undefined ? [] : factorList('--within', given.within);
  if (asked.length > 0 && others.length > 1) {
    throw new UserError('--within needs two levels: name them with --between.', 2);
  }
  const within = withinAnswers(season, question, { answers, asked });
  effects.out(
    options.json
      ? documentText({ ...head, ...compareRecord(answers, { within, together }) })
      : comparisonText(answers, { level: options.level, within, together }),
  );
  const isRefused =
    together === null
      ? answers.every((answer) => answer.verdict.primary === null)
      : together.word === null || together.word === 'tied';
  return isRefused || within.some((table) => table.refused !== null) ? 1 : 0;
}

const NOT_ADJUSTED = 'The verdict does not rest on the adjusted lens, which such a table takes.';
const NOTHING_TO_DIVIDE = 'It has one level here, or is itself what is compared.';

/** Tables within other factors rest on the adjusted lens, so they are given where the answer does. */
function withinAnswers(
  season: TidySeason,
  question: ComparisonQuestion,
  {
    answers: [answer],
    asked,
  }: { readonly answers: readonly AnsweredComparison[]; readonly asked: readonly FactorName[] },
): DifferenceWithin[] {
  if (answer === undefined) return [];
  const isAdjusted = answer.verdict.primary === 'adjusted';
  const tables = isAdjusted ? differencesWithin(season, answer.comparison, question, asked) : [];
  const reason = isAdjusted ? NOTHING_TO_DIVIDE : NOT_ADJUSTED;
  return asked.map((by) => tables.find((table) => table.by === by) ?? noTable(by, reason));
}

function noTable(by: FactorName, reason: string): DifferenceWithin {
  const none = { rows: [], covariates: [], dropped: [], notes: [] };
  return { by, ...none, test: refuse(reason), refused: reason };
}

function oneOf<Name>(option: string, names: readonly Name[]): Name {
  const [name] = names;
  if (name !== undefined && names.length === 1) return name;
  throw new UserError(`${option} takes one name, not ${names.length}. See --help for the list.`, 2);
}
