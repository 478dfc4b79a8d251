import { describe, expect, test } from 'vitest';
import { togetherSentence } from '../../src/decide/together-sentence.ts';
import { togetherVerdict } from '../../src/decide/together-verdict.ts';
import { withinSentence } from '../../src/decide/within-sentence.ts';
import type { DifferenceWithin } from '../../src/estimate/difference-within.ts';
import type { LevelsTogether } from '../../src/estimate/levels-together.ts';
import type { PairTogether } from '../../src/estimate/pairs-together.ts';
import { type Figured, figureOf, marginFor } from './make-comparison.ts';

interface PairParts {
  readonly levels: readonly [string, string];
  readonly gap: Figured;
  /** Limits that hold together; the plain ones where a test does not care. */
  readonly together?: Figured;
  readonly pHolm?: number | null;
}

function pairOf({ levels, gap, together = gap, pHolm = 1 }: PairParts): PairTogether {
  const figure = figureOf(gap);
  return {
    levels,
    difference: figure,
    ratio: figure,
    together: figureOf(together),
    p: pHolm,
    pHolm,
  };
}

const JOINT = { kind: 'f', statistic: 1, df1: 2, df2: 40 } as const;

function say(pairs: readonly PairParts[], rest: Partial<LevelsTogether> = {}) {
  const together: LevelsTogether = {
    ...{ factor: 'hook_size', levels: ['5/0', '6/0', '7/0'], measure: 'hookup_rate', level: 0.95 },
    ...{ thin: [], covariates: ['reach', 'month'], dropped: [], notes: [], trips: 40, bites: 900 },
    ...{ refused: null, test: { ...JOINT, p: 0.4 } },
    ...rest,
    pairs: pairs.map(pairOf),
  };
  const verdict = togetherVerdict(together, marginFor(together.measure));
  return { word: verdict.word, sentence: togetherSentence(verdict) };
}

const OPEN: PairParts = { levels: ['6/0', '5/0'], gap: [0.02, -0.06, 0.1] };
const CLEAR: PairParts = { levels: ['7/0', '5/0'], gap: [0.09, 0.04, 0.13], pHolm: 0.002 };
const ALIKE: PairParts = { levels: ['7/0', '6/0'], gap: [0.001, -0.02, 0.02] };

describe('several levels together, read aloud', () => {
  test('one pair stands apart', () => {
    expect(say([OPEN, CLEAR, ALIKE])).toEqual({
      word: 'clear',
      sentence:
        'Hook size, all 3 together: 1 of 3 pairs stands apart, even with all of them looked at: more bites are hooked on 7/0 hooks than on 5/0 hooks, +9 points (+4 to +13). Held equal: reach and month.',
    });
  });

  test('fewer, and more pairs than are named', () => {
    const worse: PairParts = { ...CLEAR, gap: [-0.09, -0.13, -0.04] };
    const { sentence } = say([worse, CLEAR, CLEAR, CLEAR, OPEN]);
    expect(sentence).toContain('4 of 5 pairs stand apart');
    expect(sentence).toContain(
      ': fewer bites are hooked on 7/0 hooks than on 5/0 hooks, −9 points',
    );
    expect(sentence).toContain('; and 1 more pair.');
  });

  test('rates read as times as many', () => {
    const rate: PairParts = { levels: ['7/0', '5/0'], gap: [1.4, 1.2, 1.8], pHolm: 0.01 };
    expect(say([rate, rate], { measure: 'bites_per_line_hour' }).sentence).toContain(
      'more bites come to a line-hour on 7/0 hooks than on 5/0 hooks, 1.4 times as many (1.2–1.8)',
    );
  });

  test('none stands apart, whatever the joint test says; nowhere a p-value', () => {
    const open = say([OPEN, OPEN, OPEN]);
    expect(open).toEqual({
      word: 'open',
      sentence:
        'Hook size, all 3 together: too close to call yet. With all 3 pairs looked at, none stands apart. Held equal: reach and month.',
    });
    const unlike = say([OPEN, OPEN, OPEN], { test: { ...JOINT, p: 0.001 } });
    expect(unlike.sentence).toContain(
      'Taken together they do not look alike, but the log does not say yet which differ.',
    );
    expect(unlike.sentence).not.toMatch(/\bp\b/);
  });

  test('all alike', () => {
    expect(say([ALIKE, ALIKE, ALIKE])).toEqual({
      word: 'alike',
      sentence:
        'Hook size, all 3 together: for all that matters they are alike. Every pair lies within the 5 points that would matter, even with all of them looked at. Held equal: reach and month.',
    });
  });

  test('a difference too small to matter is alike, as for two levels', () => {
    const small: PairParts = { ...ALIKE, gap: [0.02, 0.01, 0.03], pHolm: 0.001 };
    expect(say([small, small, small]).word).toBe('alike');
  });

  test('some or all pairs are tied', () => {
    const tied: PairParts = { levels: ['6/0', '5/0'], gap: 'They never met.', pHolm: null };
    expect(say([tied, OPEN, CLEAR]).sentence).toContain('1 of 2 pairs stands apart');
    expect(say([tied, OPEN, CLEAR]).sentence).toContain(
      ' 1 pair cannot be told apart in this log.',
    );
    expect(say([tied, tied, CLEAR]).sentence).toContain(
      'the only pair that can be judged stands apart: more',
    );
    expect(say([tied, tied, tied])).toMatchObject({
      word: 'tied',
      sentence: expect.stringContaining(
        'this log cannot tell any two of them apart. They never met.',
      ),
    });
  });

  test('left out and refused', () => {
    const thin = [
      { level: '2', bites: 1, trips: 1 },
      { level: '8/0', bites: 7, trips: 2 },
    ];
    expect(say([OPEN], { thin }).sentence).toContain(
      'Left out, with too little to judge: 2 (1 bite on 1 trip) and 8/0 (7 bites on 2 trips).',
    );
    const measure = 'caught_per_line_hour';
    expect(say([OPEN], { thin, measure }).sentence).toContain('8/0 (7 fish caught on 2 trips)');
    expect(say([], { refused: 'Too few.', levels: [] })).toMatchObject({
      word: null,
      sentence: 'Hook size, all together: they cannot be judged. Too few.',
    });
  });
});

describe('does the answer differ by something else, read aloud', () => {
  const basis = { level: '', bites: 50, trips: 20 };
  const row = (level: string, gap: Figured) => {
    return { level, difference: figureOf(gap), ratio: figureOf(gap), a: basis, b: basis };
  };
  const table: DifferenceWithin = {
    ...{ by: 'reach', covariates: ['reach'], dropped: [], notes: [], refused: null },
    rows: [
      row('short', [0.05, -0.01, 0.1]),
      row('long', [-0.08, -0.14, -0.02]),
      row('flat', 'Thin.'),
    ],
    test: { ...JOINT, p: 0.01 },
  };
  const asked = { measure: 'hookup_rate', level: 0.95 } as const;

  test('it does', () => {
    expect(withinSentence(table, asked)).toBe(
      'It looks as if the answer differs by reach: from −8 points (−14 to −2) on the long lines to +5 points (−1 to +10) on the short lines.',
    );
  });

  test('no sign of it, not tested, cannot be told', () => {
    expect(withinSentence({ ...table, test: { ...JOINT, p: 0.3 } }, asked)).toBe(
      'There is no sign that the answer differs by reach: luck alone may set figures as far apart as these.',
    );
    const none = { kind: 'not-estimable', reason: 'All one way.' } as const;
    expect(withinSentence({ ...table, test: none, by: 'wind_band' }, asked)).toBe(
      'Whether the answer differs by wind is shown, not tested.',
    );
    expect(withinSentence({ ...table, refused: 'Too few.' }, asked)).toBe(
      'Whether the answer differs by reach cannot be told. Too few.',
    );
  });
});
