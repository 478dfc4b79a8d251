import { describe, expect, test } from 'vitest';
import { compareLevels } from '../../src/estimate/compare-levels.ts';
import type { FactorName } from '../../src/tally/factors.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { type SoakColumns, seasonOfColumns } from './season-of-columns.ts';

interface Inputs {
  readonly formula: string;
  readonly data: SoakColumns;
  readonly factor: string;
  readonly A: string;
  readonly B: string;
  readonly estimator: string;
}

/** Factors of the log by the names they have in R. */
const FACTORS: Readonly<Record<string, FactorName>> = {
  line: 'line_type',
  reach: 'reach',
  bait: 'bait',
  month: 'month',
};

/** Covariates of an R formula such as `bites ~ bait + reach + offset(log(hours))`. */
function covariatesOf({ formula, factor }: Inputs): FactorName[] {
  const [, right = ''] = formula.split('~');
  const names = right.split('+').map((name) => name.trim());
  return names.flatMap((name) => (name === factor ? [] : (FACTORS[name] ?? [])));
}

describe('from the rows of a log to the adjusted lens, against R (28-adjusted-tallies.R)', () => {
  const cases = loadReference<Inputs, Record<string, Json>>('28-adjusted-tallies');

  test.each(cases)('$id: $description', ({ id, inputs, expected, tolerance }) => {
    const isRate = id.startsWith('rate');
    const contrast = {
      factor: FACTORS[inputs.factor] as FactorName,
      levels: [inputs.A, inputs.B] as const,
      measure: isRate ? ('bites_per_line_hour' as const) : ('hookup_rate' as const),
    };
    const request = { ...WHOLE_LOG, adjust: covariatesOf(inputs), level: 0.95 };
    const { adjusted } = compareLevels(seasonOfColumns(inputs.data), contrast, request).lenses;
    expect(adjusted.refused).toBeNull();
    const { a, b, difference, ratio, linkRatio } = expected;
    const wanted = { a, b, difference, ratio, ...(isRate ? {} : { oddsRatio: linkRatio }) };
    expectClose(adjusted, wanted, tolerance);
    expect(adjusted.method.startsWith('firth')).toBe(inputs.estimator === 'firth');
    expect(adjusted.covariates).toEqual(covariatesOf(inputs));
  });
});
