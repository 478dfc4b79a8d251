import { UserError } from '../base/problem.ts';
import { answerComparison } from '../decide/answer-comparison.ts';
import { DEFAULT_COVARIATES } from '../estimate/comparison.ts';
import type { FactorName } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { compareRecord } from './compare-record.ts';
import { comparisonText } from './compare-text.ts';
import { documentHead, documentText } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { levelsMet, loadSeason } from './load-season.ts';
import { commonOptions, factorList, type GivenOptions, measureList } from './options.ts';
import { comparePlanned } from './plan-kept-command.ts';

export interface CompareOptions extends GivenOptions {
  readonly factor?: string;
  readonly between?: string;
  readonly measure?: string;
  readonly adjust?: string;
  /** A schedule that `plan` wrote and the crew filled in. */
  readonly planned?: string;
}

/** `compare`: two or more levels of one factor, seen three ways, with a verdict. */
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
    const asked = { ...options, factor, measure, adjust, between: given.between ?? null };
    return comparePlanned(season, asked, { schedule: given.planned, effects });
  }
  const levels = levelsBetween(season, factor, given.between);
  const question = { ...options, factor, levels, measure, adjust };
  const [first, ...others] = levels;
  const answers = others.map((other) => {
    const pair: readonly [string, string] = others.length === 1 ? [first, other] : [other, first];
    return answerComparison(season, question, pair);
  });
  const head = documentHead('compare', season, options);
  effects.out(
    options.json
      ? documentText({ ...head, ...compareRecord(answers) })
      : comparisonText(answers, { level: options.level }),
  );
  return answers.every((answer) => answer.verdict.primary === null) ? 1 : 0;
}

function oneOf<Name>(option: string, names: readonly Name[]): Name {
  const [name] = names;
  if (name !== undefined && names.length === 1) return name;
  throw new UserError(`${option} takes one name, not ${names.length}. See --help for the list.`, 2);
}

/** The levels asked for, or all that the log has; at least two. */
function levelsBetween(
  season: TidySeason,
  factor: FactorName,
  text: string | undefined,
): readonly [string, ...string[]] {
  const met = levelsMet(season, factor).filter((level) => level !== NOT_RECORDED);
  const asked = (text ?? '').split(',').map((level) => level.trim());
  const levels = text === undefined ? met : [...new Set(asked.filter((level) => level !== ''))];
  const strange = levels.find((level) => !met.includes(level));
  if (strange !== undefined) {
    throw new UserError(
      `--between: this log has no ${factor} "${strange}". It has: ${met.join(', ') || 'none'}.`,
      2,
    );
  }
  const [first, second] = levels;
  if (first === undefined || second === undefined) {
    const has = met.length === 0 ? 'none' : met.join(', ');
    throw new UserError(`Two levels of ${factor} are needed to compare. The log has: ${has}.`, 2);
  }
  return [first, ...levels.slice(1)];
}
