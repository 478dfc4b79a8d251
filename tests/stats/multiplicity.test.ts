import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  benjaminiHochberg,
  bonferroni,
  bonferroniLevel,
  holm,
} from '../../src/stats/multiplicity.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

describe('reference cases 07-empirical-bayes (R p.adjust)', () => {
  const cases = loadReference<{ p: number[] }>('07-empirical-bayes', 'padj-');
  test.each(cases)('$id', ({ inputs: { p }, expected, tolerance }) => {
    const got = {
      holm: holm(p),
      benjaminiHochberg: benjaminiHochberg(p),
      bonferroni: bonferroni(p),
    };
    expectClose(got, expected, tolerance);
  });
});

// Source: Benjamini & Hochberg 1995, J. R. Stat. Soc. B 57:289, section 4.
test('the fifteen p-values of Benjamini & Hochberg 1995', () => {
  const { inputs, expected, tolerance } = loadCheckValue<{ p: number[]; q: number }>('bh-1995');
  const standing = (adjusted: number[]): number => adjusted.filter((p) => p <= inputs.q).length;
  const [bh, byHolm] = [benjaminiHochberg(inputs.p), holm(inputs.p)];
  expectClose(
    {
      n_bh: standing(bh),
      n_bonferroni: standing(bonferroni(inputs.p)),
      n_holm: standing(byHolm),
      p_bh: bh,
      p_holm: byHolm,
    },
    expected,
    tolerance,
  );
});

describe('laws', () => {
  const pValues = fc.array(
    fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constant(0.03)),
    {
      maxLength: 12,
    },
  );

  test('p ≤ Benjamini–Hochberg ≤ Holm ≤ Bonferroni ≤ 1', () => {
    fc.assert(
      fc.property(pValues, (p) => {
        const [bh, step, all] = [benjaminiHochberg(p), holm(p), bonferroni(p)];
        p.forEach((value, i) => {
          expect(bh[i]).toBeGreaterThanOrEqual(value * (1 - 1e-12));
          expect(step[i]).toBeGreaterThanOrEqual((bh[i] as number) * (1 - 1e-12));
          expect(all[i]).toBeGreaterThanOrEqual(step[i] as number);
          expect(all[i]).toBeLessThanOrEqual(1);
        });
      }),
      { seed: 7 },
    );
  });

  test('the order in which comparisons are listed changes nothing', () => {
    fc.assert(
      fc.property(pValues, (p) => {
        for (const adjust of [holm, benjaminiHochberg, bonferroni])
          expect(adjust([...p].reverse())).toEqual(adjust(p).reverse());
      }),
      { seed: 7 },
    );
  });
});

test('no p-values give none; a p that is no chance throws', () => {
  expect(holm([])).toEqual([]);
  expect(benjaminiHochberg([])).toEqual([]);
  for (const wrong of [-0.1, 1.1, Number.NaN]) {
    expect(() => holm([0.5, wrong])).toThrow('between 0 and 1');
    expect(() => benjaminiHochberg([wrong])).toThrow('between 0 and 1');
    expect(() => bonferroni([wrong])).toThrow('between 0 and 1');
  }
});

test('five intervals at 99 % hold together at 95 %', () => {
  expect(bonferroniLevel(0.95, 5)).toBeCloseTo(0.99, 12);
  expect(() => bonferroniLevel(0.95, 0)).toThrow('hold together');
});
