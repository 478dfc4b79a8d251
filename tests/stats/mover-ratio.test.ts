import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { estimated, notEstimable } from '../../src/base/estimate.ts';
import type { TwoProportions } from '../../src/stats/difference-two-proportions.ts';
import type { TwoRates } from '../../src/stats/difference-two-rates.ts';
import { waldDifference } from '../../src/stats/difference-wald.ts';
import { wilson } from '../../src/stats/interval-proportion-wilson.ts';
import { rateRatioExact } from '../../src/stats/interval-rate-ratio.ts';
import { squareAndAdd } from '../../src/stats/mover-difference.ts';
import { moverRateDifference, moverRateRatio } from '../../src/stats/mover-rates.ts';
import { moverRatio } from '../../src/stats/mover-ratio.ts';
import { woolfOddsRatio } from '../../src/stats/ratio-of-odds-woolf.ts';
import { katzRatio } from '../../src/stats/ratio-of-proportions-katz.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

const level = 0.95;
const figure = (lower: number, estimate: number, upper: number) =>
  estimated({ level, method: 'test', n: 1, exposure: 1, notes: [], estimate, lower, upper });

// tests/reference/04-differences.json: own R formulas, the limits checked there to solve the
// equation that defines them.
const cases = loadReference<TwoRates & { level: number }>('04-differences').filter(
  ({ inputs }) => 'events1' in inputs,
);
test.each(cases.map((entry) => [entry.id, entry] as const))(
  'against R: %s',
  (_, { inputs, expected, tolerance }) => {
    const ratio = (limits: 'garwood' | 'score' | 'jeffreys') =>
      moverRateRatio(inputs, { level: inputs.level, limits });
    const difference = (limits: 'garwood' | 'score' | 'jeffreys') =>
      moverRateDifference(inputs, { level: inputs.level, limits });
    const [r, d] = [ratio('garwood'), difference('garwood')];
    const got = {
      rateRatio: r.kind === 'estimated' ? r.estimate : null,
      moverGarwood: r,
      moverScore: ratio('score'),
      moverJeffreys: ratio('jeffreys'),
      rateDifference: d.kind === 'estimated' ? d.estimate : null,
      moverDifferenceGarwood: d,
      moverDifferenceScore: difference('score'),
      moverDifferenceJeffreys: difference('jeffreys'),
    };
    expectClose(got, expected, tolerance);
  },
);

describe('check values', () => {
  test('14 in 60 and 6 in 55 (Zou & Donner 2008; Donner & Zou 2012, on Garwood limits)', () => {
    const { inputs, expected, tolerance } = loadCheckValue<
      { k1: number; t1: number; k2: number; t2: number },
      {
        diff: number;
        mover_garwood_ci: number[];
        ratio: number;
        moverR_garwood_ci: number[];
        conditional_exact_ratio_ci: number[];
      }
    >('mover-poisson');
    const { k1, t1, k2, t2 } = inputs;
    const rates = { events1: k1, exposure1: t1, events2: k2, exposure2: t2 };
    const how = { level, limits: 'garwood' } as const;
    const [difference, ratio] = [moverRateDifference(rates, how), moverRateRatio(rates, how)];
    const [dLower, dUpper] = expected.mover_garwood_ci;
    const [rLower, rUpper] = expected.moverR_garwood_ci;
    expectClose(difference, { estimate: expected.diff, lower: dLower, upper: dUpper }, tolerance);
    expectClose(ratio, { estimate: expected.ratio, lower: rLower, upper: rUpper }, tolerance);
    expectClose(
      limits(rateRatioExact(rates, { level })),
      expected.conditional_exact_ratio_ci,
      tolerance,
    );
  });

  test('56 of 70 and 48 of 80: Katz, Woolf, Wald, and MOVER-R on Wilson limits', () => {
    const { inputs, expected, tolerance } = loadCheckValue<TwoProportions>('rr-or-56-48');
    const { x1, n1, x2, n2 } = inputs;
    const pair = (got: ReturnType<typeof katzRatio>) =>
      got.kind === 'estimated' ? [got.lower, got.upper] : [];
    const [katz, woolf] = [katzRatio(inputs, { level }), woolfOddsRatio(inputs, { level })];
    if (katz.kind !== 'estimated' || woolf.kind !== 'estimated') expect.fail('must be estimable');
    const got = {
      RR: katz.estimate,
      se_logRR: katz.logStandardError,
      katz_ci: pair(katz),
      moverR_wilson_ci: limits(moverRatio(wilson(x1, n1, { level }), wilson(x2, n2, { level }))),
      OR: woolf.estimate,
      se_logOR: woolf.logStandardError,
      woolf_ci: pair(woolf),
      wald_rd_ci: limits(waldDifference(inputs, { level })),
    };
    expectClose(got, expected, tolerance);
  });
});

describe('laws of MOVER-R', () => {
  const three = fc
    .tuple(...[1, 2, 3].map(() => fc.double({ min: 0.01, max: 5, noNaN: true })))
    .map((values) => values.toSorted((a, b) => a - b) as [number, number, number]);

  test('the first less limit × the second lies one squared-and-added limit from 0', () => {
    fc.assert(
      fc.property(three, three, (a, b) => {
        const [lower, upper] = limits(moverRatio(figure(...a), figure(...b)));
        const scaled = (R: number) =>
          squareAndAdd(figure(...a), figure(R * b[0], R * b[1], R * b[2]));
        if (lower > 0) expect(scaled(lower).lower).toBeCloseTo(0, 9);
        if (Number.isFinite(upper)) expect(scaled(upper).upper / (1 + upper)).toBeCloseTo(0, 9);
      }),
    );
  });

  test('swapping the two inverts the ratio', () => {
    fc.assert(
      fc.property(three, three, (a, b) => {
        const [lower, upper] = limits(moverRatio(figure(...a), figure(...b)));
        const [backLower, backUpper] = limits(moverRatio(figure(...b), figure(...a)));
        if (lower > 1e-6) expect(backUpper * lower).toBeCloseTo(1, 6);
        if (backLower > 1e-6) expect(backLower * upper).toBeCloseTo(1, 6);
      }),
    );
  });

  test('a second figure known exactly divides the limits of the first', () => {
    expect(limits(moverRatio(figure(1, 2, 4), figure(2, 2, 2)))).toEqual([0.5, 2]);
  });
});

describe('ends and refusals', () => {
  test('nothing in the first, in the second, in both', () => {
    const [none, some] = [figure(0, 0, 0.5), figure(1, 2, 4)];
    expect(moverRatio(none, some)).toMatchObject({ estimate: 0, lower: 0 });
    expect(moverRatio(some, none)).toMatchObject({ estimate: Infinity, upper: Infinity });
    expect(moverRatio(none, none)).toMatchObject({
      reason: 'Neither level has events, so no ratio can be formed.',
    });
  });

  test('no exposure, and what one side cannot say', () => {
    const rates = { events1: 2, exposure1: 0, events2: 1, exposure2: 5 };
    const reason = expect.stringContaining('No effort was recorded');
    expect(moverRateRatio(rates, { level, limits: 'garwood' })).toMatchObject({ reason });
    expect(moverRateDifference(rates, { level, limits: 'jeffreys' })).toMatchObject({ reason });
    const silent = notEstimable('Nothing.', {
      level,
      method: 'x',
      n: 0,
      exposure: null,
      notes: [],
    });
    expect(moverRatio(silent, figure(1, 2, 3))).toMatchObject({ reason: 'Nothing.' });
    expect(moverRatio(figure(1, 2, 3), silent)).toMatchObject({ reason: 'Nothing.' });
  });
});

function limits(got: ReturnType<typeof moverRatio>): [number, number] {
  if (got.kind === 'not-estimable') expect.fail(got.reason);
  return [got.lower, got.upper];
}
