import { describe, expect, test } from 'vitest';
import { detectableProportions, detectableRates } from '../../src/stats/detectable-difference.ts';
import { powerTwoProportions } from '../../src/stats/power-two-proportions.ts';
import { powerTwoRates } from '../../src/stats/power-two-rates.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

const common = { alpha: 0.05, sided: 2 as const, power: 0.8, allocation: 1 };

describe('reference cases 08-power (R root finding, power.prop.test)', () => {
  type Inputs = { nPerGroup: number; p1: number; power: number; alpha: number };
  test.each(loadReference<Inputs>('08-power', 'mde-'))('$id', (reference) => {
    const { nPerGroup, p1, power, alpha } = reference.inputs;
    const got = detectableProportions(p1, nPerGroup, { ...common, power, alpha });
    if (got.kind === 'not-estimable') throw new Error(got.reason);
    const pair = { p2Above: got.above, p2Below: got.below };
    expectClose(pair, reference.expected, reference.tolerance);
  });
});

test('check value mdd: what 60 or 100 bites can tell, with and without a design effect', () => {
  type Case = { n: number; p: number; deff: number };
  const { inputs, expected, tolerance } = loadCheckValue<{ cases: Case[] }>('mdd');
  const mdd = inputs.cases.map(({ n, p, deff }) => {
    const got = detectableProportions(p, n / deff, common);
    return got.kind === 'planned' && got.above !== null ? got.above - p : null;
  });
  expectClose({ mdd }, expected, tolerance);
});

describe('laws', () => {
  test('at the detectable value the power is the one asked for, on both sides', () => {
    const plan = { ...common, allocation: 0.35, power: 0.9 };
    const got = detectableProportions(0.6, 150, plan);
    if (got.kind === 'not-estimable') throw new Error(got.reason);
    for (const b of [got.above, got.below]) {
      const found = powerTwoProportions(
        { a: 0.6, b: b as number },
        { unitsA: 150, unitsB: 52.5 },
        plan,
      );
      expect(found).toMatchObject({ power: expect.closeTo(0.9, 9) });
    }
    const rates = detectableRates(0.15, 400, plan);
    if (rates.kind === 'not-estimable') throw new Error(rates.reason);
    for (const b of [rates.above, rates.below]) {
      const exposures = { exposureA: 400, exposureB: 140 };
      const found = powerTwoRates({ a: 0.15, b: b as number }, exposures, plan);
      expect(found).toMatchObject({ power: expect.closeTo(0.9, 9) });
    }
  });

  test('more data tell smaller differences apart', () => {
    const above = (units: number): number => {
      const got = detectableProportions(0.5, units, common);
      return got.kind === 'planned' ? (got.above ?? 1) : 1;
    };
    expect(above(40)).toBeGreaterThan(above(80));
    expect(above(80)).toBeGreaterThan(above(2000));
  });
});

describe('where nothing would be told apart', () => {
  test('too few units: not even the extremes', () => {
    const got = detectableProportions(0.5, 4, common);
    expect(got).toEqual({ kind: 'planned', above: null, below: null });
  });

  test('from 0 there is no below, from 1 no above', () => {
    expect(detectableProportions(0, 50, common)).toMatchObject({
      below: null,
      above: expect.any(Number),
    });
    expect(detectableProportions(1, 50, common)).toMatchObject({
      above: null,
      below: expect.any(Number),
    });
    expect(detectableRates(0, 50, common)).toMatchObject({ below: null });
  });

  test('a rate has no ceiling, so some higher rate is always told apart', () => {
    const got = detectableRates(0.1, 0.5, common);
    expect(got).toMatchObject({ below: null, above: expect.any(Number) });
  });

  test('no units, or a power that needs no data', () => {
    expect(detectableProportions(0.5, 0, common)).toMatchObject({ kind: 'not-estimable' });
    expect(detectableRates(0.5, 0, common)).toMatchObject({ kind: 'not-estimable' });
    const lazy = detectableRates(0.5, 9, { ...common, power: 0.02 });
    expect(lazy).toMatchObject({ kind: 'not-estimable', reason: expect.stringContaining('false') });
  });
});
