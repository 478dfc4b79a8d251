import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Interval } from '../../src/base/estimate.ts';
import { Random } from '../../src/stats/random.ts';
import { ageOutcome, type BestAge, bestReplacementAge } from '../../src/stats/replacement-age.ts';
import {
  type ClusteredStretch,
  respoolAgeByClusters,
} from '../../src/stats/replacement-bootstrap.ts';
import {
  type BestRespoolAge,
  bestRespoolAge,
  type MinimalRepair,
  minimalRepairCostRate,
} from '../../src/stats/replacement-minimal-repair.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

interface AgeInputs {
  shape: number;
  scale: number;
  plannedCost: number;
  failureCost: number;
}

function finiteAge(part: AgeInputs): BestAge {
  const best = bestReplacementAge(part);
  if (best.kind !== 'finite') throw new Error(best.reason);
  return best;
}

function finiteRespool(part: MinimalRepair): BestRespoolAge {
  const best = bestRespoolAge(part);
  if (best.kind !== 'finite') throw new Error(best.reason);
  return best;
}

describe('age replacement', () => {
  type Expected = { rateAtAges: { age: number[] } };
  test.each(loadReference<AgeInputs, Expected>('09-survival', 'age-replacement'))(
    '$id (R: root of the first-order condition, second routes optimize and integrate)',
    ({ inputs, expected, tolerance }) => {
      const best = bestReplacementAge(inputs);
      const { age } = expected.rateAtAges;
      const rate = age.map((t) => ageOutcome(inputs, t).costRate);
      const finite =
        best.kind === 'finite'
          ? {
              ...best,
              optimalAge: best.age,
              optimalRate: best.costRate,
              probFailBeforeReplacement: best.failureProbability,
            }
          : best;
      const got = { ...finite, finiteOptimum: best.kind === 'finite', rateAtAges: { age, rate } };
      expectClose(got, expected, tolerance);
    },
  );

  test('age-replacement-weibull and -2: Barlow & Hunter 1960', () => {
    const { inputs, expected, tolerance } = loadCheckValue<Record<string, number>, Rates>(
      'age-replacement-weibull',
    );
    const part = {
      shape: inputs.beta as number,
      scale: inputs.eta as number,
      plannedCost: inputs.cost_planned as number,
      failureCost: inputs.cost_failure as number,
    };
    const best = finiteAge(part);
    const { rate } = tolerance.byKey ?? {};
    const byKey = { ...tolerance.byKey, cost_rate: rate ?? {}, run_to_failure_rate: rate ?? {} };
    const got = {
      T_star: best.age,
      cost_rate: best.costRate,
      run_to_failure_rate: best.runToFailureRate,
    };
    expectClose(got, expected, { ...tolerance, byKey });

    const second = loadCheckValue<{ cases: Case[] }, Rates>('age-replacement-2');
    const found = second.inputs.cases.map(({ beta, eta, cp, cf }) =>
      finiteAge({ shape: beta, scale: eta, plannedCost: cp, failureCost: cf }),
    );
    expectClose(
      found.map((b) => b.age),
      second.expected.T_star,
      { rel: 0, abs: 1e-4 },
    );
    expectClose(
      found.map((b) => b.costRate),
      second.expected.rate,
      { rel: 0, abs: 1e-7 },
    );
    const run = found.map((b) => b.runToFailureRate);
    expectClose(run, second.expected.run_to_failure, { rel: 0, abs: 1e-7 });
  });

  test('age-replacement-no-benefit: shape 1 never replaces early, and the rate only falls', () => {
    const part = { shape: 1, scale: 40, plannedCost: 25, failureCost: 250 };
    expect(bestReplacementAge(part)).toEqual({
      kind: 'never',
      runToFailureRate: 6.25,
      reason: 'The risk of failure does not rise with age.',
    });
    const rates = [10, 40, 100, 400].map((age) => ageOutcome(part, age).costRate);
    expectClose(rates, [8.4505, 6.6137, 6.3059, 6.25], { rel: 0, abs: 6e-5 });
  });

  test('a failure no dearer than a planned replacement, and a shape a hair above 1', () => {
    const part = { shape: 2, scale: 50, plannedCost: 3, failureCost: 3 };
    expect(bestReplacementAge(part)).toMatchObject({ kind: 'never' });
    const flat = bestReplacementAge({ ...part, shape: 1 + 1e-9, failureCost: 9 });
    expect(flat).toMatchObject({ kind: 'never', reason: 'The risk rises too slowly with age.' });
    expect(() => bestReplacementAge({ ...part, shape: 0 })).toThrow('shape is a number above 0');
  });

  test('no age near or far costs less, and the near-best range is where 5 % is passed', () => {
    const parts = fc.record({
      shape: fc.double({ min: 1.15, max: 8, noNaN: true }),
      scale: fc.double({ min: 0.1, max: 1000, noNaN: true }),
      plannedCost: fc.double({ min: 1, max: 50, noNaN: true }),
      failureCost: fc.double({ min: 60, max: 2000, noNaN: true }),
    });
    fc.assert(
      fc.property(parts, (part) => {
        const best = finiteAge(part);
        for (const factor of [0.01, 0.5, 0.9, 1.1, 2, 100])
          expect(ageOutcome(part, best.age * factor).costRate).toBeGreaterThan(
            best.costRate * (1 - 1e-12),
          );
        for (const edge of [best.nearBest.lower, best.nearBest.upper])
          if (Number.isFinite(edge))
            expect(ageOutcome(part, edge).costRate / best.costRate).toBeCloseTo(1.05, 8);
      }),
    );
  });
});

interface Case {
  beta: number;
  eta: number;
  cp: number;
  cf: number;
}
type Rates = Record<string, number[]>;

describe('minimal repair', () => {
  type Inputs = { shape: number; theta: number; cSpool: number; cBreak: number };
  test.each(loadReference<Inputs>('14-power-law', 'minimal-repair'))(
    '$id (closed form; second route stats::optimize)',
    ({ inputs, expected, tolerance }) => {
      const { shape, theta, cSpool, cBreak } = inputs;
      const best = finiteRespool({ shape, theta, spoolCost: cSpool, breakCost: cBreak });
      expectClose(best, expected, tolerance);
    },
  );

  test.each(loadReference<MinimalRepair, { nearBest: Interval }>('23-wear-and-use', 'near-best'))(
    '$id (own R: uniroot on the cost rate)',
    ({ inputs, expected, tolerance }) => {
      expectClose(finiteRespool(inputs), expected, tolerance);
    },
  );

  test('minimal-repair: Barlow & Hunter 1960, policy II', () => {
    type Cases = { cases: { beta: number; eta: number; c_minimal: number; c_replace: number }[] };
    const { inputs, expected, tolerance } = loadCheckValue<Cases>('minimal-repair');
    const found = inputs.cases.map(({ beta, eta, c_minimal, c_replace }) =>
      finiteRespool({ shape: beta, theta: eta, spoolCost: c_replace, breakCost: c_minimal }),
    );
    const { T = {} } = tolerance.byKey ?? {};
    const got = { T_star: found.map((b) => b.age), rate: found.map((b) => b.costRate) };
    expectClose(got, expected, { ...tolerance, byKey: { ...tolerance.byKey, T_star: T } });
  });

  test('dearer spools wait longer, dearer breaks shorter, another unit scales the age', () => {
    const positive = fc.double({ min: 0.5, max: 500, noNaN: true });
    const parts = fc.record({
      shape: fc.double({ min: 1.05, max: 9, noNaN: true }),
      theta: positive,
      spoolCost: positive,
      breakCost: positive,
    });
    fc.assert(
      fc.property(parts, (part) => {
        const { age, costRate, nearBest } = finiteRespool(part);
        expect(finiteRespool({ ...part, spoolCost: 2 * part.spoolCost }).age).toBeGreaterThan(age);
        expect(finiteRespool({ ...part, breakCost: 2 * part.breakCost }).age).toBeLessThan(age);
        const minutes = finiteRespool({ ...part, theta: 60 * part.theta });
        expect(minutes.age / (60 * age)).toBeCloseTo(1, 10);
        expect(minutes.nearBest.lower / (60 * nearBest.lower)).toBeCloseTo(1, 8);
        for (const factor of [0.5, 0.99, 1.01, 2])
          expect(minimalRepairCostRate(part, age * factor)).toBeGreaterThan(costRate);
      }),
    );
  });

  test('shape 1 or less is never renewed by age; the range of a flat curve has no upper end', () => {
    const part = { shape: 1, theta: 20, spoolCost: 18, breakCost: 60 };
    expect(bestRespoolAge(part)).toMatchObject({ kind: 'never' });
    expect(bestRespoolAge({ ...part, shape: 0.7 })).toMatchObject({ kind: 'never' });
    const flat = finiteRespool({ ...part, shape: 1 + 1e-7 });
    expect(flat.nearBest.upper).toBe(Number.POSITIVE_INFINITY);
    expect(() => bestRespoolAge({ ...part, theta: -2 })).toThrow('theta is a number above 0');
  });
});

/** Trips of eight rods, three fights a rod and trip, spools changed at 30 fights. */
function season(seed: number, trips: number, [shape, theta]: [number, number]) {
  const random = new Random(seed);
  const stretches: ClusteredStretch[] = [];
  for (let rod = 0; rod < 8; rod++)
    for (let trip = 0, age = 0; trip < trips; trip++) {
      const [from, to] = [age, age + 3];
      const breaks: number[] = [];
      for (let fight = from + 1; fight <= to; fight++)
        if (random.uniform() < (fight / theta) ** shape - ((fight - 1) / theta) ** shape)
          breaks.push(fight);
      stretches.push({ cluster: trip, from, to, breaks });
      age = to >= 30 ? 0 : to;
    }
  return stretches;
}

describe('respool age with its interval by trips', () => {
  const options = {
    scale: { kind: 'grouped', width: 1 },
    spoolCost: 40,
    breakCost: 60,
    level: 0.95,
    draws: 200,
    seed: 5,
  } as const;

  test('the same seed gives the same limits, whatever the order of the rows', () => {
    const stretches = season(3, 60, [2.2, 20]);
    const first = respoolAgeByClusters(stretches, options);
    expect(respoolAgeByClusters([...stretches].reverse(), options)).toEqual(first);
    expect(respoolAgeByClusters(stretches, { ...options, seed: 6 })).not.toEqual(first);
  });

  test('holds the true age in most simulated seasons (40 runs)', () => {
    const truth = finiteRespool({ shape: 2.2, theta: 20, spoolCost: 40, breakCost: 60 }).age;
    let held = 0;
    for (let run = 0; run < 40; run++) {
      const found = respoolAgeByClusters(season(100 + run, 50, [2.2, 20]), options);
      if (found.kind === 'estimated' && found.lower <= truth && truth <= found.upper) held++;
    }
    expect(held).toBeGreaterThanOrEqual(34);
  });

  test('an upper limit of infinity where many drawn seasons show no wear', () => {
    const found = respoolAgeByClusters(season(5, 25, [1.25, 30]), options);
    expect(found).toMatchObject({ kind: 'estimated', upper: Number.POSITIVE_INFINITY });
  });

  test('reasons: no breaks, no wear, one trip', () => {
    const whole = season(3, 60, [2.2, 20]);
    const none = whole.map((stretch) => ({ ...stretch, breaks: [] }));
    const one = whole.map((stretch) => ({ ...stretch, cluster: 'x' }));
    const early = whole.map((s) => ({ ...s, breaks: s.from === 0 ? [1, 2] : [] }));
    for (const [stretches, reason] of [
      [none, 'Nothing broke'],
      [early, 'no faster'],
      [one, 'One trip alone'],
    ] as const) {
      const found = respoolAgeByClusters(stretches, options);
      expect(found.kind === 'not-estimable' && found.reason).toContain(reason);
    }
  });
});
