import { describe, expect, test } from 'vitest';
import { marginOf, verdictOf } from '../../src/decide/verdict.ts';
import { DEFAULT_SETTINGS } from '../../src/settings/settings.ts';
import { type ComparisonParts, figureOf, makeComparison, verdictOn } from './make-comparison.ts';

const word = (parts: ComparisonParts) => verdictOn(makeComparison(parts)).word;
const RATE = { measure: 'bites_per_line_hour' } as const;

describe('the word for a difference of shares, margin 5 points', () => {
  test.each([
    ['excludes 0', [0.1, 0.01, 0.2], 'clear'],
    ['excludes 0 from below', [-0.1, -0.2, -0.01], 'clear'],
    ['holds 0 and goes past the margin', [0.02, -0.02, 0.06], 'open'],
    ['goes past the margin on both sides', [0, -0.3, 0.3], 'open'],
    ['lies inside the margin', [0, -0.04, 0.04], 'alike'],
    ['lies inside and excludes 0: too small to matter', [0.03, 0.01, 0.049], 'alike'],
    ['ends at the margin', [0.02, -0.01, 0.05], 'open'],
    ['ends at 0', [0.1, 0, 0.2], 'open'],
  ] as const)('%s', (_, gap, wanted) => {
    expect(word({ gap })).toBe(wanted);
  });
});

describe('the word for a ratio of rates, margin 10 %', () => {
  test.each([
    [[1.4, 1.1, 1.8], 'clear'],
    [[0.6, 0.4, 0.9], 'clear'],
    [[1.1, 0.8, 1.5], 'open'],
    [[1, 0.91, 1.09], 'alike'],
    [[1.04, 1.01, 1.09], 'alike'],
    [[1, 0.89, 1.09], 'open'],
  ] as const)('%j: %s', (gap, wanted) => {
    expect(word({ ...RATE, gap })).toBe(wanted);
  });
});

describe('what it rests on', () => {
  const gap = [0.1, 0.01, 0.2] as const;

  test.each(['adjusted', 'same_day', 'as_logged'] as const)(
    'the most careful that stands: %s',
    (lens) => {
      expect(verdictOn(makeComparison({ gap, lens })).primary).toBe(lens);
    },
  );

  test('a tie with one covariate is enough to be tied', () => {
    const tied = [{ covariate: 'month' as const, reason: 'Never in the same month.' }];
    expect(verdictOn(makeComparison({ gap, tied }))).toMatchObject({ word: 'tied', primary: null });
  });

  test('no figure on any lens and nothing tied: open, on no lens', () => {
    const open = { word: 'open', primary: null, isDifference: false };
    expect(verdictOn(makeComparison({ gap: 'Nothing was counted.' }))).toMatchObject(open);
    // A rate of none at all has a difference and a lens that stands, but no ratio to judge by.
    const none = makeComparison({ gap, ...RATE });
    const { as_logged } = none.lenses;
    const refused = makeComparison({ gap: 'No ratio.', ...RATE });
    const lenses = { ...refused.lenses, as_logged: { ...as_logged, ratio: figureOf('No ratio.') } };
    expect(verdictOn({ ...none, lenses })).toMatchObject(open);
  });

  test('a careful lens on a handful of bites gives way to one that rests on more', () => {
    const comparison = makeComparison({ gap, bites: 500 });
    const { adjusted } = comparison.lenses;
    const thin = {
      ...comparison,
      lenses: { ...comparison.lenses, adjusted: { ...adjusted, bites: 6, trips: 3 } },
    };
    expect(verdictOn(thin).primary).toBe('same_day');
  });
});

describe('the practical margin', () => {
  test('is 5 points, a tenth of a rate, or as set', () => {
    expect(marginOf('hookup_rate', DEFAULT_SETTINGS)).toBe(0.05);
    expect(marginOf('bites_per_line_hour', DEFAULT_SETTINGS)).toBe(0.1);
    const settings = { ...DEFAULT_SETTINGS, practical_margin: { hookup_rate: 0.2 } };
    expect(marginOf('hookup_rate', settings)).toBe(0.2);
    const comparison = makeComparison({ gap: [0.1, 0.01, 0.19] });
    expect(verdictOf(comparison, settings).word).toBe('alike');
  });
});
