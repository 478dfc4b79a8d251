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
    const wanted = { a, b, difference, ratio, ...(isRate ? {} : { oddsRatio: linkRatio }) };
    if (expected.alone === undefined) {
      expectClose(adjusted, wanted, tolerance);
      expect(adjusted.difference.notes).toEqual([]);
      return;
    }
    // From a fifth on R's limits are too near; above one half there are none.
    const shares = expected.alone as { readonly difference: number; readonly linkRatio: number };
    expectClose(adjusted, { b, ratio } as Json, tolerance);
    expect(adjusted.a).toMatchObject({ kind: 'not-estimable' });
    const widened = (figure: Json | undefined, share: number) =>
      (figure as { readonly standardError: number }).standardError / Math.sqrt(1 - share);
    const errors = {
      difference: { standardError: widened(difference, shares.difference) },
      oddsRatio: { standardError: widened(linkRatio, shares.linkRatio) },
    };
    expectClose(adjusted, errors, tolerance);
    const told = `About ${Math.round(100 * shares.difference)} % of it rests on trip T3 alone`;
    expect(adjusted.difference.notes.join()).toContain(told);
    expect(adjusted.difference.notes.join()).toContain('set wider for it');
  });
});
