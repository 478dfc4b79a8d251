import { describe, expect, test } from 'vitest';
import type { TwoRates } from '../../src/stats/difference-two-rates.ts';
import { rateDifferenceWald } from '../../src/stats/interval-rate-difference.ts';
import {
  rateRatioExact,
  rateRatioLogWald,
  rateRatioMidP,
} from '../../src/stats/interval-rate-ratio.ts';
import { rateRatioTest } from '../../src/stats/interval-rate-ratio-test.ts';
import { moverRateDifference } from '../../src/stats/mover-rates.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

describe('reference cases 03-rates, two rates (R stats, epitools)', () => {
  test.each(loadReference<TwoRates & { level: number }>('03-rates', 'two-rates-'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const { level, ...rates } = inputs;
      const exact = rateRatioExact(rates, { level });
      const difference = rateDifferenceWald(rates, { level });
      const p = rateRatioTest(rates);
      const got = {
        rate1: rates.events1 / rates.exposure1,
        rate2: rates.events2 / rates.exposure2,
        rateRatio: exact.kind === 'estimated' ? exact.estimate : null,
        exactConditional: exact,
        midP: rateRatioMidP(rates, { level }),
        logWald: rateRatioLogWald(rates, { level }),
        pTwoSidedExactMinLik: p.kind === 'tested' ? p.pMinimumLikelihood : null,
        pTwoSidedExactDoubled: p.kind === 'tested' ? p.pDoubled : null,
        pTwoSidedMidP: p.kind === 'tested' ? p.pMidP : null,
        rateDifference: difference.kind === 'estimated' ? difference.estimate : null,
        rateDifferenceWald: difference,
        rateDifferenceMoverGarwood: moverRateDifference(rates, { level, limits: 'garwood' }),
      };
      expectClose(got, expected, tolerance);
    },
  );
});

test('check value poisson-ratio-R-example (help page of R stats::poisson.test)', () => {
  const { inputs, expected, tolerance } = loadCheckValue<
    { k: [number, number]; T: [number, number] },
    { rate_ratio: number; ci: number[]; p: number }
  >('poisson-ratio-R-example');
  const [events1, events2] = inputs.k;
  const [exposure1, exposure2] = inputs.T;
  const rates = { events1, exposure1, events2, exposure2 };
  const exact = rateRatioExact(rates, { level: 0.95 });
  const p = rateRatioTest(rates);
  if (exact.kind !== 'estimated' || p.kind !== 'tested') throw new Error('no result');
  expectClose(exact.estimate, expected.rate_ratio, tolerance, 'ratio');
  expectClose([exact.lower, exact.upper], expected.ci, tolerance, 'ci');
  expectClose(p.pMinimumLikelihood, expected.p, tolerance, 'p');
});

describe('laws of two rates', () => {
  const rates = { events1: 7, exposure1: 31, events2: 12, exposure2: 22.5 };
  const swapped = { events1: 12, exposure1: 22.5, events2: 7, exposure2: 31 };

  test.each([
    ['exact', rateRatioExact],
    ['mid-P', rateRatioMidP],
    ['log Wald', rateRatioLogWald],
  ])('%s limits of the swapped groups are the reciprocals', (_, method) => {
    const [one, other] = [method(rates, { level: 0.9 }), method(swapped, { level: 0.9 })];
    if (one.kind !== 'estimated' || other.kind !== 'estimated') throw new Error('no result');
    expect(one.lower * other.upper).toBeCloseTo(1, 10);
    expect(one.upper * other.lower).toBeCloseTo(1, 10);
  });

  test('mid-P limits lie inside the exact ones', () => {
    for (const [events1, events2] of [
      [0, 3],
      [3, 0],
      [1, 1],
      [400, 380],
      [1e6, 3],
    ] as const) {
      const counts = { events1, exposure1: 10, events2, exposure2: 12 };
      const exact = rateRatioExact(counts, { level: 0.95 });
      const midP = rateRatioMidP(counts, { level: 0.95 });
      if (exact.kind !== 'estimated' || midP.kind !== 'estimated') throw new Error('no result');
      expect(midP.lower).toBeGreaterThanOrEqual(exact.lower);
      expect(midP.upper).toBeLessThanOrEqual(exact.upper);
    }
  });

  test('the exact limits put back into the test give half of alpha on each side', () => {
    const exact = rateRatioExact(rates, { level: 0.95 });
    if (exact.kind !== 'estimated') throw new Error(exact.reason);
    for (const limit of [exact.lower, exact.upper]) {
      const moved = rateRatioTest({ ...rates, exposure1: rates.exposure1 * limit });
      if (moved.kind !== 'tested') throw new Error(moved.reason);
      expect(moved.pDoubled).toBeCloseTo(0.05, 10);
    }
  });

  test('the test does not care which group is named first, and is 1 for equal rates', () => {
    const [one, other] = [rateRatioTest(rates), rateRatioTest(swapped)];
    if (one.kind !== 'tested' || other.kind !== 'tested') throw new Error('no result');
    expect(one.pMinimumLikelihood).toBeCloseTo(other.pMinimumLikelihood, 12);
    expect(one.pMidP).toBeCloseTo(other.pMidP, 12);
    const equal = rateRatioTest({ events1: 4, exposure1: 8, events2: 6, exposure2: 12 });
    expect(equal.kind === 'tested' && equal.pMinimumLikelihood).toBe(1);
  });
});

test('nothing to compare is said, not thrown', () => {
  const none = { events1: 0, exposure1: 10, events2: 0, exposure2: 5 };
  const level = 0.95;
  for (const method of [rateRatioExact, rateRatioMidP, rateRatioLogWald, rateDifferenceWald]) {
    expect(method(none, { level })).toMatchObject({ kind: 'not-estimable' });
    expect(method({ ...none, events1: 2, exposure2: 0 }, { level }).kind).toBe('not-estimable');
  }
  expect(rateRatioTest(none)).toMatchObject({ reason: 'No event was seen in either group.' });
  expect(rateRatioTest({ ...none, events1: 2.5 })).toMatchObject({
    reason: 'Exact tests need whole counts of events.',
  });
});
