import { describe, expect, test } from 'vitest';
import {
  byar,
  garwood,
  rateJeffreys,
  rateJeffreysLimits,
  rateLogWald,
  rateScore,
} from '../../src/stats/interval-rate.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

interface Counts {
  events: number;
  exposure: number;
  level: number;
}

describe('reference cases 03-rates, single rates (R stats; Garwood 1936 as reprinted)', () => {
  test.each(loadReference<Counts>('03-rates', 'rate-'))('$id', (reference) => {
    const { events, exposure, level } = reference.inputs;
    const jeffreys = rateJeffreysLimits(events, level);
    const got = {
      rate: events / exposure,
      garwood: garwood(events, exposure, { level }),
      score: rateScore(events, exposure, { level }),
      byar: byar(events, exposure, { level }),
      logWald: rateLogWald(events, exposure, { level }),
      jeffreys: { lower: jeffreys.lower / exposure, upper: jeffreys.upper / exposure },
    };
    expectClose(got, reference.expected, reference.tolerance);
  });
});

test('check value poisson-garwood (Garwood 1936; chi-square form Ulm 1990)', () => {
  const { inputs, expected, tolerance } = loadCheckValue<
    { k: number[]; conf: number },
    { ci: [number, number][]; one_sided_upper_95: Record<string, number> }
  >('poisson-garwood');
  const limits = (events: number, level: number) => {
    const got = garwood(events, 1, { level });
    if (got.kind === 'not-estimable') throw new Error(got.reason);
    return got;
  };
  const ci = inputs.k.map((events) => {
    const { lower, upper } = limits(events, inputs.conf);
    return [lower, upper];
  });
  const oneSided = Object.keys(expected.one_sided_upper_95).map((events) => [
    events,
    limits(Number(events), 0.9).upper,
  ]);
  expectClose({ ci, one_sided_upper_95: Object.fromEntries(oneSided) }, expected, tolerance);
});

test('check value rule-of-three: no event, upper limit about 3 over the exposure', () => {
  const { expected, tolerance } = loadCheckValue('rule-of-three');
  const got = garwood(0, 1, { level: 0.9 });
  expectClose(got.kind === 'estimated' && got.upper, expected.one_sided_95_upper, tolerance);
});

describe('what cannot be said is said', () => {
  const methods = { garwood, rateScore, byar, rateLogWald, rateJeffreys };
  test.each(Object.entries(methods))('%s without exposure', (_, method) => {
    expect(method(3, 0, { level: 0.95 })).toMatchObject({
      kind: 'not-estimable',
      reason: 'No effort was recorded, so there is no rate to speak of.',
    });
    expect(method(-1, 5, { level: 0.95 }).kind).toBe('not-estimable');
    expect(method(Number.NaN, 5, { level: 0.95 }).kind).toBe('not-estimable');
  });

  test.each(Object.entries(methods))('%s holds the rate, at any size of count', (name, method) => {
    for (const events of [0, 0.01, 1, 7, 1e9])
      for (const level of [0.5, 0.95, 0.999]) {
        const got = method(events, 12.5, { level });
        if (name === 'rateLogWald' && events === 0) expect(got.kind).toBe('not-estimable');
        else expect(got).toMatchObject({ kind: 'estimated', estimate: events / 12.5 });
        if (got.kind === 'estimated') {
          expect(got.lower).toBeLessThanOrEqual(got.estimate);
          expect(got.upper).toBeGreaterThan(got.estimate);
          expect(got.lower).toBeGreaterThanOrEqual(0);
        }
      }
  });

  test('a level that cannot be is a mistake of the caller', () => {
    expect(() => garwood(3, 10, { level: 95 })).toThrow('not at 95');
  });
});
