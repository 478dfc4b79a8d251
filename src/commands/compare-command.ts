import { UserError } from '../base/problem.ts';
import { type AnsweredComparison, answerComparison } from '../decide/answer-comparison.ts';
import { DEFAULT_COVARIATES } from '../estimate/comparison.ts';
import type { Lens } from '../estimate/lens.ts';
import type { FactorName } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { comparisonText } from './compare-text.ts';
import { documentHead, documentText, limitsRecord, notesOf } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { levelsMet, loadSeason } from './load-season.ts';
import { commonOptions, factorList, type GivenOptions, measureList } from './options.ts';

export interface CompareOptions extends GivenOptions {
  readonly factor?: string;
  readonly between?: string;
  readonly measure?: string;
  readonly adjust?: string;
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

/** One pair stands at the top level of the document; of more, each stands in `pairs`. */
function compareRecord(answers: readonly AnsweredComparison[]) {
  const [only] = answers;
  if (only !== undefined && answers.length === 1) return pairRecord(only);
  const { factor, measure } = only?.comparison ?? {};
  const levels = [
    only?.comparison.levels[1],
    ...answers.map((answer) => answer.comparison.levels[0]),
  ];
  return { factor, levels, measure, pairs: answers.map(pairRecord) };
}

function pairRecord({ comparison, verdict, settle, sentence }: AnsweredComparison) {
  const { as_logged, same_day, adjusted } = comparison.lenses;
  const last = comparison.season.steps.at(-1);
  const course = last === undefined ? { lower: null, upper: null } : limitsRecord(last.difference);
  return {
    factor: comparison.factor,
    levels: comparison.levels,
    measure: comparison.measure,
    lenses: {
      as_logged: lensRecord(as_logged),
      same_day: lensRecord(same_day),
      adjusted: lensRecord(adjusted),
    },
    primary: verdict.primary,
    verdict: verdict.word,
    margin: verdict.margin,
    to_settle: settle === null ? null : { bites: settle.bites, trips: settle.trips },
    always_valid: {
      lower: course.lower,
      upper: course.upper,
      clear_since: comparison.season.clearSince,
      refused: comparison.season.refused,
    },
    cross_tables: comparison.crossTables,
    sentence,
  };
}

function lensRecord(lens: Lens) {
  return {
    difference: limitsRecord(lens.difference),
    ratio: limitsRecord(lens.ratio),
    odds_ratio: lens.oddsRatio === null ? null : limitsRecord(lens.oddsRatio),
    a: limitsRecord(lens.a),
    b: limitsRecord(lens.b),
    trips: lens.trips,
    bites: lens.bites,
    method: lens.method,
    covariates: lens.covariates,
    dropped: lens.dropped,
    refused: lens.refused,
    notes: [...new Set([lens.difference, lens.ratio].flatMap(notesOf))],
  };
}
