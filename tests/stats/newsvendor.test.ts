import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CountDistribution, countVariance } from '../../src/stats/count-distribution.ts';
import { normalQuantile } from '../../src/stats/distributions.ts';
import { type BestLoad, bestLoad, criticalRatio, loadOutcome } from '../../src/stats/newsvendor.ts';
import { enoughAlive, loadForSurvivors } from '../../src/stats/newsvendor-survivors.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

interface Inputs {
  distribution: 'poisson' | 'negativeBinomial';
  mean: number;
  size?: number;
  underageCost: number;
  overageCost: number;
}

interface Expected {
  atStock: { stock: number }[];
}

const lawOf = ({ mean, size }: { mean: number; size?: number }): CountDistribution =>
  size === undefined ? { family: 'poisson', mean } : { family: 'negative-binomial', mean, size };

function best(...call: Parameters<typeof bestLoad>): BestLoad {
  const load = bestLoad(...call);
  if (load.kind !== 'best') throw new Error(load.reason);
  return load;
}

describe('reference cases 10-stocking (R stats; second route: direct summation)', () => {
  const cases = loadReference<Inputs, Expected>('10-stocking').filter(
    ({ inputs }) => inputs.underageCost !== undefined,
  );
  test.each(cases)('$id', ({ inputs, expected, tolerance }) => {
    const law = lawOf(inputs);
    const costs = { shortCost: inputs.underageCost, leftCost: inputs.overageCost };
    const optimum = best(law, costs);
    const atStock = expected.atStock.map(({ stock }) => {
      const outcome = loadOutcome(law, stock, costs);
      return {
        stock: outcome.load,
        cdf: outcome.enoughProbability,
        probStockout: outcome.shortProbability,
        expectedShortage: outcome.expectedShort,
        expectedLeftover: outcome.expectedLeft,
        expectedUsed: outcome.expectedUsed,
        fillRate: outcome.fillRate,
        expectedCost: outcome.expectedCost,
      };
    });
    const got = {
      criticalRatio: optimum.criticalRatio,
      optimalStock: optimum.load,
      optimalCost: optimum.expectedCost,
      variance: countVariance(law),
      atStock,
    };
    expectClose(got, expected, tolerance);
  });
});

describe('textbook examples with normal demand: the ratio, and mean + z·sd', () => {
  test('newsvendor-brandimarte: cost 10, price 15, salvage 3', () => {
    const { expected, tolerance } = loadCheckValue('newsvendor-brandimarte');
    const ratio = criticalRatio({ shortCost: 15 - 10, leftCost: 10 - 3 });
    const got = { critical_ratio: ratio, Q: 10000 + 2000 * normalQuantile(ratio) };
    expectClose(got, expected, { ...tolerance, abs: 1e-10 });
  });

  test('newsvendor-7-5: cost 5, price 7; normal and uniform', () => {
    const { expected, tolerance } = loadCheckValue('newsvendor-7-5');
    const ratio = criticalRatio({ shortCost: 2, leftCost: 5 });
    const got = { critical_ratio: ratio, Q: [50 + 20 * normalQuantile(ratio), 50 + 30 * ratio] };
    expectClose(got, expected, tolerance);
  });

  test('newsvendor-cachon-terwiesch: cost 110, price 180, salvage 90', () => {
    const { expected, tolerance } = loadCheckValue<never, Record<string, number>>(
      'newsvendor-cachon-terwiesch',
    );
    const ratio = criticalRatio({ shortCost: 70, leftCost: 20 });
    const { 'Q_textbook_rounded_z_0.77': rounded, ...exact } = expected;
    const got = { critical_ratio: ratio, Q_exact: 3192 + 1181 * normalQuantile(ratio) };
    expectClose(got, exact, { ...tolerance, abs: 1e-10 });
    expect(Math.round(3192 + 1181 * 0.77)).toBe(rounded);
  });

  test('newsvendor-wrong-answer-trap: a ratio below one half loads less than the mean', () => {
    const { expected, tolerance } = loadCheckValue('newsvendor-wrong-answer-trap');
    const costs = { shortCost: 60, leftCost: 110 };
    const swapped = criticalRatio({ shortCost: 110, leftCost: 60 });
    const got = {
      critical_ratio: criticalRatio(costs),
      Q: 80 + 30 * normalQuantile(criticalRatio(costs)),
      Q_if_costs_are_swapped: 80 + 30 * normalQuantile(swapped),
    };
    expectClose(got, expected, { ...tolerance, abs: 1e-4 });
  });
});

const someLaw = fc
  .tuple(
    fc.double({ min: 0, max: 60, noNaN: true }),
    fc.option(fc.double({ min: 0.1, max: 50, noNaN: true })),
  )
  .map(([mean, size]) => lawOf(size === null ? { mean } : { mean, size }));
const someCosts = fc.record({
  shortCost: fc.double({ min: 0.1, max: 50, noNaN: true }),
  leftCost: fc.double({ min: 0.1, max: 50, noNaN: true }),
});

describe('laws', () => {
  test('no other load costs less', () => {
    fc.assert(
      fc.property(someLaw, someCosts, (law, costs) => {
        const { load, expectedCost } = best(law, costs);
        for (let other = 0; other <= 2 * load + 20; other++)
          expect(loadOutcome(law, other, costs).expectedCost).toBeGreaterThan(expectedCost - 1e-9);
      }),
      { numRuns: 40 },
    );
  });

  test('used + short is the mean, used + left the load; prices in another coin change nothing', () => {
    fc.assert(
      fc.property(someLaw, someCosts, (law, costs) => {
        const outcome = best(law, costs);
        const mean = law.family === 'poisson' || law.family === 'negative-binomial' ? law.mean : 0;
        expect(outcome.expectedUsed + outcome.expectedShort).toBeCloseTo(mean, 9);
        expect(outcome.expectedUsed + outcome.expectedLeft).toBeCloseTo(outcome.load, 9);
        const coins = { shortCost: costs.shortCost * 46, leftCost: costs.leftCost * 46 };
        expect(best(law, coins).expectedCost).toBeCloseTo(outcome.expectedCost * 46, 6);
      }),
    );
  });

  test('dearer shortage never loads less', () => {
    fc.assert(
      fc.property(someLaw, someCosts, (law, costs) => {
        const dearer = { ...costs, shortCost: costs.shortCost * 1.7 };
        expect(best(law, dearer).load).toBeGreaterThanOrEqual(best(law, costs).load);
      }),
    );
  });
});

describe('ends', () => {
  const law = lawOf({ mean: 12, size: 3 });

  test('a load of 0 is an answer: no demand, or a shortage that costs nothing', () => {
    const free = { shortCost: 0, leftCost: 2 };
    expect(best(law, free)).toMatchObject({ load: 0, expectedCost: 0, fillRate: 0 });
    const none = best(lawOf({ mean: 0 }), { shortCost: 9, leftCost: 1 });
    expect(none).toMatchObject({ load: 0, expectedCost: 0, fillRate: null });
  });

  test('baits that cost nothing have no best load', () => {
    expect(bestLoad(law, { shortCost: 3, leftCost: 0 })).toMatchObject({
      reason: 'A bait left over costs nothing, so no load is too large.',
    });
    expect(bestLoad(law, { shortCost: 0, leftCost: 0 }).kind).toBe('not-estimable');
  });

  test('a mean of a million', () => {
    const million = best(lawOf({ mean: 1e6 }), { shortCost: 3, leftCost: 1 });
    // Normal approximation of the loss: 1000·[φ(z) + z·(ratio − 1)·…]; here only its size matters.
    expect(million.load).toBeGreaterThan(1_000_670);
    expect(million.load).toBeLessThan(1_000_680);
    expect(million.expectedCost / 1000).toBeCloseTo(4 * 0.31777657, 2);
  });

  test('mistakes are refused', () => {
    expect(() => bestLoad(law, { shortCost: -1, leftCost: 1 })).toThrow('0 or more, not -1');
    expect(() => loadOutcome(law, 2.5, { shortCost: 1, leftCost: 1 })).toThrow('not 2.5');
  });
});

describe('baits that die on the way', () => {
  test('bait-survival-thinning: 12 alive of how many, 85 % survival, 90 % sure', () => {
    const { expected, tolerance } = loadCheckValue('bait-survival-thinning');
    const got = {
      Q: loadForSurvivors(12, { survival: 0.85, level: 0.9 }),
      P_at_15_16_17: [15, 16, 17].map((load) => enoughAlive(load, 12, 0.85)),
    };
    const byKey = { ...tolerance.byKey, P_at_15_16_17: { rel: 0, abs: 1e-8 } };
    expectClose(got, expected, { ...tolerance, byKey });
  });

  test('the load is the smallest that is enough', () => {
    const shares = fc.double({ min: 0.05, max: 0.999, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), shares, shares, (need, survival, level) => {
        const load = loadForSurvivors(need, { survival, level });
        expect(enoughAlive(load, need, survival)).toBeGreaterThanOrEqual(level);
        expect(enoughAlive(load - 1, need, survival)).toBeLessThan(level);
      }),
    );
  });

  test('ends: nothing needed, all survive, none survive, certainty', () => {
    expect(loadForSurvivors(0, { survival: 0.3, level: 0.9 })).toBe(0);
    expect(loadForSurvivors(7, { survival: 1, level: 0.9 })).toBe(7);
    expect(loadForSurvivors(7, { survival: 0, level: 0.9 })).toBe(Number.POSITIVE_INFINITY);
    expect(loadForSurvivors(7, { survival: 0.9, level: 1 })).toBe(Number.POSITIVE_INFINITY);
    expect(enoughAlive(3, 4, 0.9)).toBe(0);
    expect(enoughAlive(4, 0, 0)).toBe(1);
    expect(() => enoughAlive(4, 2, 1.2)).toThrow('between 0 and 1');
    expect(() => enoughAlive(4.5, 2, 0.2)).toThrow('whole');
    expect(() => loadForSurvivors(4, { survival: 0.9, level: 2 })).toThrow('between 0 and 1');
  });
});
