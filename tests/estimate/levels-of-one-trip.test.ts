import { describe, expect, test } from 'vitest';
import { compareLevels } from '../../src/estimate/compare-levels.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { type SoakColumns, seasonOfColumns } from './season-of-columns.ts';

interface Inputs {
  readonly formula: string;
  readonly data: SoakColumns;
  readonly A: string;
  readonly B: string;
}

describe('a level of a covariate met on one trip only, against R (29-levels-of-one-trip.R)', () => {
  const cases = loadReference<Inputs, Record<string, Json>>('29-levels-of-one-trip');

  test.each(cases)('$id: $description', ({ id, inputs, expected, tolerance }) => {
    const isRate = id.startsWith('rate');
    const contrast = {
      factor: isRate ? ('bait' as const) : ('line_type' as const),
      levels: [inputs.A, inputs.B] as const,
      measure: isRate ? ('bites_per_line_hour' as const) : ('hookup_rate' as const),
    };
    const adjust = (['reach', 'bait', 'month'] as const).filter(
      (name) => name !== contrast.factor && inputs.formula.includes(name),
    );
    const request = { ...WHOLE_LOG, adjust, level: 0.95 };
    const { adjusted } = compareLevels(seasonOfColumns(inputs.data), contrast, request).lenses;
    const { a, b, difference, ratio, linkRatio } = expected;
    const wanted = { b, difference, ratio, ...(isRate ? {} : { oddsRatio: linkRatio }) };
    expectClose(adjusted, wanted, tolerance);
    // Where a level by itself rests mostly on one trip, R has limits and this project refuses.
    const isMostlyAlone = id === 'line-by-month';
    if (isMostlyAlone) expect(adjusted.a).toMatchObject({ kind: 'not-estimable' });
    else expectClose(adjusted.a as unknown as Json, a as Json, tolerance);
    const told = expect.stringMatching(/rests on trip T3 alone, .* limits are a little too near/);
    expect(adjusted.difference.notes).toEqual(isMostlyAlone ? [told] : []);
  });
});
