import type { AnsweredComparison } from '../decide/answer-comparison.ts';
import type { Lens } from '../estimate/lens.ts';
import { limitsRecord, notesOf } from './document.ts';

/** One pair stands at the top level of the document; of more, each stands in `pairs`. */
export function compareRecord(answers: readonly AnsweredComparison[]) {
  const [only] = answers;
  if (only !== undefined && answers.length === 1) return pairRecord(only);
  const { factor, measure } = only?.comparison ?? {};
  const levels = [
    only?.comparison.levels[1],
    ...answers.map((answer) => answer.comparison.levels[0]),
  ];
  return { factor, levels, measure, pairs: answers.map(pairRecord) };
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
