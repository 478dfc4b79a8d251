import { expect, test } from 'vitest';
import { tTestPower } from '../../src/stats/power-t.ts';
import { powerTwoProportions } from '../../src/stats/power-two-proportions.ts';

// R 4.2.2: q <- qt(1 - alpha/2, df); 1 - pt(q, df, ncp), and the same plus pt(-q, df, ncp).
const R_VALUES = [
  [1, 2, 0.05, 0.125223497499, 0.125756317757],
  [1.5, 1, 0.05, 0.080298275003, 0.0847380925407],
  [2, 3, 0.1, 0.617222231109, 0.617245128027],
  [5, 2.5, 0.05, 0.522590317014, 0.522611232166],
  [9.37, 3.2, 0.05, 0.81597130138, 0.815971820062],
  [19, 2.8, 0.05, 0.756876364623, 0.756878200809],
  [63.2, 1.1, 0.01, 0.0662404471502, 0.066372754553],
  [250, 2.9, 0.05, 0.823523924724, 0.823524545494],
  [4, 12, 0.05, 0.999999999707, 0.999999999707],
  [30, 0, 0.05, 0.025, 0.05],
] as const;

test.each(R_VALUES)('df %s, noncentrality %s, alpha %s', (df, difference, alpha, power, both) => {
  const contest = { difference, standardError: 1, df };
  const found = tTestPower(contest, { alpha, sided: 2 });
  expect(Math.abs(found.power - power)).toBeLessThan(1e-8);
  expect(Math.abs(found.powerBothTails - both)).toBeLessThan(1e-8);
});

test('R 4.2.2 power.t.test(n = 20, delta = 1, sd = 1.5, type = "one.sample")', () => {
  const contest = { difference: 1, standardError: 1.5 / Math.sqrt(20), df: 19 };
  expect(tTestPower(contest, { alpha: 0.05, sided: 2 }).power).toBeCloseTo(0.807290896276, 8);
});

test('on many degrees of freedom it is the power of the z test', () => {
  const [a, b, units] = [0.51, 0.5, 40_000];
  const z = powerTwoProportions(
    { a, b },
    { unitsA: units, unitsB: units },
    { alpha: 0.05, sided: 2 },
  );
  const standardError = Math.sqrt((a * (1 - a) + b * (1 - b)) / units);
  const t = tTestPower({ difference: a - b, standardError, df: 1e6 }, { alpha: 0.05, sided: 2 });
  if ('reason' in z) throw new Error(z.reason);
  expect(Math.abs(t.power - z.power)).toBeLessThan(1e-4);
});

test('the direction of the difference and its unit do not matter; one side is never less', () => {
  const two = tTestPower({ difference: -2, standardError: 0.8, df: 7 }, { alpha: 0.05, sided: 2 });
  const scaled = tTestPower({ difference: 20, standardError: 8, df: 7 }, { alpha: 0.05, sided: 2 });
  const one = tTestPower({ difference: 2, standardError: 0.8, df: 7 }, { alpha: 0.05, sided: 1 });
  expect(two.power).toBeCloseTo(scaled.power, 12);
  expect(one.power).toBeGreaterThan(two.power);
  expect(one.powerBothTails).toBe(one.power);
});

test('mistakes of the caller are thrown', () => {
  const good = { difference: 1, standardError: 1, df: 5 };
  expect(() => tTestPower({ ...good, standardError: 0 }, { alpha: 0.05, sided: 2 })).toThrow('0');
  expect(() => tTestPower({ ...good, df: 0.5 }, { alpha: 0.05, sided: 2 })).toThrow('0.5 df');
  expect(() => tTestPower(good, { alpha: 1, sided: 2 })).toThrow('between 0 and 1');
});
