import type { Refusal } from '../base/estimate.ts';
import type { AnsweredComparison } from '../decide/answer-comparison.ts';
import type { AnsweredTogether } from '../decide/answer-together.ts';
import type { DifferenceWithin } from '../estimate/difference-within.ts';
import type { JointTest } from '../estimate/joint-test.ts';
import type { Lens } from '../estimate/lens.ts';
import { limitsRecord, notesOf } from './document.ts';

/**
 * One pair stands at the top level of the document, with its tables within other factors. Of more
 * levels, each later one against the first stands in `pairs`, and all of them together in `joint`.
 */
export function compareRecord(
  answers: readonly AnsweredComparison[],
  rest: {
    readonly within: readonly DifferenceWithin[];
    readonly together: AnsweredTogether | null;
  },
) {
  const [only] = answers;
  if (only !== undefined && answers.length === 1) {
    return { ...pairRecord(only), within: rest.within.map(withinRecord) };
  }
  const { factor, measure } = only?.comparison ?? {};
  const levels = [
    only?.comparison.levels[1],
    ...answers.map((answer) => answer.comparison.levels[0]),
  ];
  const joint = rest.together === null ? null : togetherRecord(rest.together);
  return { factor, levels, measure, pairs: answers.map(pairRecord), joint };
}

function togetherRecord({ together, pairs, word, margin, sentence }: AnsweredTogether) {
  const { levels, thin, trips, bites, covariates, dropped, notes, refused } = together;
  return {
    ...{ levels, thin, trips, bites, covariates, dropped, refused, notes },
    test: testRecord(together.test),
    pairs: pairs.map(({ pair, word: verdict }) => ({
      levels: pair.levels,
      difference: limitsRecord(pair.difference),
      ratio: limitsRecord(pair.ratio),
      together: limitsRecord(pair.together),
      p: pair.p,
      p_holm: pair.pHolm,
      verdict,
      notes: notesOf(pair.difference),
    })),
    verdict: word,
    margin,
    sentence,
  };
}

function withinRecord({ by, rows, test, covariates, dropped, notes, refused }: DifferenceWithin) {
  return {
    by,
    levels: rows.map(({ level, difference, ratio, a, b }) => ({
      level,
      difference: limitsRecord(difference),
      ratio: limitsRecord(ratio),
      a: { bites: a.bites, trips: a.trips },
      b: { bites: b.bites, trips: b.trips },
      notes: notesOf(difference),
    })),
    test: testRecord(test),
    ...{ covariates, dropped, refused, notes },
  };
}

/** The joint test, or null figures with the reason. */
function testRecord(test: JointTest | Refusal) {
  if (test.kind === 'not-estimable') {
    return { f: null, df1: null, df2: null, p: null, refused: test.reason };
  }
  const { statistic, df1, df2, p } = test;
  return { f: statistic, df1, df2, p, refused: null };
}

/** A comparison as the documents carry it. */
export function pairRecord({ comparison, verdict, settle, sentence }: AnsweredComparison) {
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

/** One lens as the documents carry it; a figure that cannot be given is null, its reason in the notes. */
export function lensRecord(lens: Lens) {
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
