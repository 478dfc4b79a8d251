import { describe, expect, test } from 'vitest';
import { compareSentence, comparisonWords } from '../../src/decide/compare-sentence.ts';
import type { ToSettle } from '../../src/decide/to-settle.ts';
import { FACTOR_NAMES } from '../../src/tally/factors.ts';
import { MEASURE_NAMES } from '../../src/tally/measures.ts';
import { type ComparisonParts, makeComparison, verdictOn } from './make-comparison.ts';

/** The whole text, with common spaces for narrow ones. */
function say(parts: ComparisonParts, settle: ToSettle | null = null): string {
  const comparison = makeComparison(parts);
  const words = comparisonWords(comparison, verdictOn(comparison), settle);
  return compareSentence(words).replaceAll('\u202f', ' ');
}

const more = (units: number, trips: number): ToSettle => ({
  units,
  bites: units,
  trips,
  by: 'power',
  designEffect: 1,
});

const HELD = 'Held equal: reach and month.';
const RATE = { measure: 'bites_per_line_hour', a: [0.2, 0.15, 0.26], b: [0.15, 0.1, 0.2] } as const;

describe('clear', () => {
  test('more and fewer, with both shares and the gap', () => {
    expect(say({ gap: [0.083, 0.01, 0.15], a: [0.62, 0.55, 0.69], b: [0.54, 0.47, 0.6] })).toBe(
      `More bites are hooked on braid than on mono: 62 % (55–69) against 54 % (47–60), a difference of +8 points (+1 to +15). ${HELD}`,
    );
    expect(say({ gap: [-0.083, -0.15, -0.01] })).toMatch(
      /^Fewer bites are hooked on braid than on mono: .*, a difference of −8 points \(−15 to −1\)\./,
    );
  });

  test('rates carry their unit, and how many times', () => {
    expect(say({ ...RATE, gap: [1.4, 1.1, 1.8] })).toBe(
      `More bites come to a line-hour on braid than on mono: 2.0 (1.5–2.6) against 1.5 (1.0–2.0) per 10 line-hours, 1.4 times as many (1.1–1.8). ${HELD}`,
    );
    expect(say({ ...RATE, gap: [0.7, 0.5, 0.88] })).toContain('Fewer bites come');
  });

  test('a limit close to no difference does not read as none', () => {
    expect(say({ gap: [0.04, 0.002, 0.08] })).toContain('+4.0 points (+0.2 to +8.0)');
    expect(say({ ...RATE, gap: [1.4, 1.02, 1.9] })).toContain('1.40 times as many (1.02–1.90)');
  });

  test('huge and tiny numbers', () => {
    const tiny = say({ gap: [0.9, 0.6, 0.99], a: [1, 0.9, 1], b: [0.0004, 0.0001, 0.002] });
    expect(tiny).toContain('100 % (90–100) against <0.1 % (<0.1 to 0.2)');
    expect(say({ ...RATE, gap: [1200, 300, 5000] })).toContain('1,200 times as many (300–5,000).');
    expect(say({ ...RATE, gap: [0.0002, 0.0001, 0.005] })).toContain(
      '<0.001 times as many (<0.001 to 0.005).',
    );
  });

  test('a side that cannot be given is left out', () => {
    expect(say({ gap: [0.083, 0.01, 0.15], b: 'It rests on one trip.' })).toBe(
      `More bites are hooked on braid than on mono: a difference of +8 points (+1 to +15). ${HELD}`,
    );
  });
});

describe('alike', () => {
  test('no difference seen, and a difference too small to matter', () => {
    const start = 'For all that matters, as many bites are hooked on braid as on mono';
    expect(say({ gap: [0.01, -0.02, 0.03] })).toBe(
      `${start}: a difference of +1 point (−2 to +3), less than the 5 points that would matter. ${HELD}`,
    );
    expect(say({ gap: [0.02, 0.01, 0.03] })).toBe(
      `${start}: there is a difference, +2.0 points (+1.0 to +3.0), too small to matter beside 5 points. ${HELD}`,
    );
  });

  test('rates', () => {
    const start = 'For all that matters, as many bites come to a line-hour on braid as on mono';
    expect(say({ ...RATE, gap: [1.01, 0.95, 1.06] })).toBe(
      `${start}: 1.01 times as many (0.95–1.06), less than the 10 % that would matter. ${HELD}`,
    );
    expect(say({ ...RATE, gap: [1.05, 1.02, 1.08] })).toContain(
      'there is a difference, 1.05 times as many (1.02–1.08), too small to matter beside 10 %.',
    );
  });
});

describe('open', () => {
  const gap = [0.05, -0.03, 0.12] as const;
  const start =
    'Too close to call yet whether more bites are hooked on braid or on mono: a difference of +5 points (−3 to +12).';

  test('with nothing to plan from, it stops there', () => {
    expect(say({ gap })).toBe(`${start} ${HELD}`);
  });

  test.each([
    [870, 14, 'About 870 more bites (14 trips at this log'],
    [1, 1, 'About 1 more bite (1 trip at this log'],
    [9, 3, 'About 9 more bites (3 trips at this log'],
    [1_234_567, 999, 'About 1,300,000 more bites (1,000 trips at this log'],
  ])('%i bites and %i trips more', (units, trips, wanted) => {
    expect(say({ gap }, more(units, trips))).toContain(
      `${start} ${wanted}’s pace) on top of these would settle a difference of 5 points, 8 times in 10.`,
    );
  });

  test('a narrower interval is no promise of a chance', () => {
    const said = say({ gap }, { ...more(870, 14), by: 'width' });
    expect(said).toContain('would settle a difference of 5 points.');
    expect(said).not.toContain('in 10');
  });

  test('more trips than any boat will fish are no plan', () => {
    expect(say({ gap }, more(1e9, 1e7))).toContain(
      'it would take over 1,000 more trips to settle a difference of 5 points: not worth waiting for.',
    );
  });

  test('rates ask for line-hours', () => {
    expect(say({ ...RATE, gap: [1.2, 0.8, 1.8] }, more(1, 1))).toContain(
      'About 1 more line-hour (1 trip at this log’s pace) on top of these would settle a difference of 10 %, 8 times in 10.',
    );
  });

  test('what it rests on', () => {
    const { lens: _, ...parts } = { gap, lens: null };
    expect(say({ ...parts, lens: 'same_day', trips: 23 })).toMatch(
      /Judged on the 23 trips that fished both\.$/,
    );
    expect(say({ ...parts, lens: 'same_day', trips: 1 })).toMatch(
      /Judged on the 1 trip that fished both\.$/,
    );
    expect(say({ ...parts, lens: 'as_logged' })).toMatch(
      /As the log has it: nothing else could be held equal\.$/,
    );
    expect(say({ ...parts, covariates: [] })).toMatch(/Nothing was held equal\.$/);
    expect(say({ ...parts, covariates: ['reach', 'bait', 'wind_band'] })).toMatch(
      /Held equal: reach, bait and wind\.$/,
    );
  });
});

describe('tied', () => {
  const reason = 'They were never fished in the same month.';

  test('names what it is tied to, once, and how to find out', () => {
    expect(say({ gap: [0.1, 0, 0.2], tied: [{ covariate: 'month', reason }] })).toBe(
      `This log cannot tell what happens on braid from what happens on mono. ${reason} Fish both side by side on the same days to find out.`,
    );
    const all = (['month', 'reach', 'wind_band'] as const).map((covariate) => ({
      covariate,
      reason,
    }));
    expect(say({ gap: [0.1, 0, 0.2], tied: all })).toContain(
      `${reason} So it is with reach and wind. Fish`,
    );
  });
});

describe('nothing to compare', () => {
  const gap = 'Nothing was counted.';

  test('no bite on one of them, or on either: no tie is claimed and no plan made', () => {
    expect(say({ gap, b: gap, bites: 36 })).toBe(
      'Nothing to compare yet: no bite is logged on mono, and 36 bites on braid. How much more fishing would settle it cannot be said before some have come on mono.',
    );
    expect(say({ gap, a: gap, b: gap, bites: 0, measure: 'caught_rate' })).toBe(
      'Nothing to compare yet: no hooked fish is logged on braid or on mono. How much more fishing would settle it cannot be said before some have come on braid and on mono.',
    );
  });

  test('a rate of none at all: both rates, and why there is no ratio', () => {
    expect(say({ ...RATE, gap: 'No ratio.', b: [0, 0, 0.077] })).toBe(
      'No bite came on mono, so how many times as many there are cannot be said: 2.0 (1.5–2.6) on braid against 0 (0–0.77) on mono per 10 line-hours. How much more fishing would settle it cannot be said before some have come on mono.',
    );
  });

  test('otherwise the reason is the figure’s own', () => {
    expect(say({ gap: 'No line-hours are recorded.' })).toBe(
      'This log cannot tell what happens on braid from what happens on mono. No line-hours are recorded.',
    );
  });
});

describe('every sentence', () => {
  const gaps = {
    share: { clear: [0.2, 0.1, 0.3], alike: [0, -0.01, 0.01], open: [0.1, -0.1, 0.3] },
    rate: { clear: [2, 1.5, 3], alike: [1, 0.95, 1.05], open: [2, 0.5, 8] },
  } as const;

  test.each(MEASURE_NAMES)('%s: plain words, whole sentences, nothing left open', (measure) => {
    const kind = measure.endsWith('line_hour') ? 'rate' : 'share';
    for (const factor of FACTOR_NAMES)
      for (const gap of Object.values(gaps[kind])) {
        const text = say({ measure, factor, levels: ['3', '5'], gap }, more(120, 12));
        expect(text).toMatch(/^[A-Z].*\.$/);
        expect(text).not.toMatch(/undefined|null|NaN|_|signific|p[- ]?value|\bprove| {2}/i);
        expect(text).not.toMatch(/\b1 (?:trips|bites|points)\b/);
      }
  });
});
