import { describe, expect, test } from 'vitest';
import type { Estimate } from '../../src/base/estimate.ts';
import { binomialAtLeast, binomialAtMost } from '../../src/stats/binomial.ts';
import { normalCritical } from '../../src/stats/interval-level.ts';
import {
  agrestiCoull,
  agrestiCoullLimits,
} from '../../src/stats/interval-proportion-agresti-coull.ts';
import { clopperPearson } from '../../src/stats/interval-proportion-clopper-pearson.ts';
import { jeffreys, jeffreysLimits } from '../../src/stats/interval-proportion-jeffreys.ts';
import { proportionMidP } from '../../src/stats/interval-proportion-mid-p.ts';
import { wilson, wilsonContinuity } from '../../src/stats/interval-proportion-wilson.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

interface Counts {
  x: number;
  n: number;
  level: number;
}

describe('reference cases 01-proportions (R stats, second route Hmisc)', () => {
  test.each(loadReference<Counts>('01-proportions'))('$id', ({ inputs, expected, tolerance }) => {
    const { x, n, level } = inputs;
    const cut = agrestiCoull(x, n, { level });
    const got = {
      estimate: x / n,
      z: normalCritical(level),
      wilson: wilson(x, n, { level }),
      wilsonContinuity: wilsonContinuity(x, n, { level }),
      clopperPearson: clopperPearson(x, n, { level }),
      jeffreys: jeffreysLimits(x, n, level),
      jeffreysBoundaryModified: jeffreys(x, n, { level }),
      agrestiCoull: {
        ...agrestiCoullLimits(x, n, level),
        lowerTruncated: cut.kind === 'estimated' ? cut.lower : null,
        upperTruncated: cut.kind === 'estimated' ? cut.upper : null,
      },
    };
    expectClose(got, expected, tolerance);
  });
});

function limits(estimate: Estimate): [number, number] {
  if (estimate.kind === 'not-estimable') throw new Error(estimate.reason);
  return [estimate.lower, estimate.upper];
}

describe('check values of single proportions', () => {
  test.each(['81-263', '15-148', '0-20', '1-29'])(
    'wilson-%s (Newcombe 1998, Table I, method 3)',
    (id) => {
      const { inputs, expected, tolerance } = loadCheckValue<{ x: number; n: number }>(
        `wilson-${id}`,
      );
      expectClose(wilson(inputs.x, inputs.n, { level: 0.95 }), expected, tolerance);
    },
  );

  test('wilson-small (Wilson 1927, z = 1.959964)', () => {
    const { inputs, expected, tolerance } = loadCheckValue<{ cases: [number, number][] }>(
      'wilson-small',
    );
    const ci = inputs.cases.map(([x, n]) => limits(wilson(x, n, { level: 0.95 })));
    expectClose({ ci }, expected, tolerance);
  });

  test.each(['81-263', '15-148', '0-20', '1-29', '5-12'])(
    'prop-ci-%s (closed forms and beta quantiles; two values of mid-P solved)',
    (id) => {
      const { inputs, expected, tolerance } = loadCheckValue<Counts & { conf: number }>(
        `prop-ci-${id}`,
      );
      const { x, n, conf: level } = inputs;
      const raw = agrestiCoullLimits(x, n, level);
      const got = {
        wilson: limits(wilson(x, n, { level })),
        clopper_pearson: limits(clopperPearson(x, n, { level })),
        jeffreys: limits(jeffreys(x, n, { level })),
        agresti_coull_untruncated: [raw.lower, raw.upper],
        mid_p: limits(proportionMidP(x, n, { level })),
      };
      expectClose(got, expected, tolerance);
    },
  );
});

const METHODS = {
  wilson,
  wilsonContinuity,
  clopperPearson,
  jeffreys,
  agrestiCoull,
  proportionMidP,
};
const COUNTS = [
  [0, 1],
  [1, 1],
  [0, 17],
  [3, 17],
  [17, 17],
  [1, 1e9],
  [4e8, 1e9],
  [999_999_999, 1e9],
] as const;

describe.each(Object.entries(METHODS))('laws of %s', (name, method) => {
  test('x of n mirrors n − x of n', () => {
    for (const [x, n] of COUNTS) {
      const [lower, upper] = limits(method(x, n, { level: 0.95 }));
      const [mirrorLower, mirrorUpper] = limits(method(n - x, n, { level: 0.95 }));
      expect(lower).toBeCloseTo(1 - mirrorUpper, 12);
      expect(upper).toBeCloseTo(1 - mirrorLower, 12);
    }
  });

  test('limits lie within 0 to 1, hold x/n, and are 0 or 1 exactly where all or none', () => {
    for (const [x, n] of COUNTS) {
      const [lower, upper] = limits(method(x, n, { level: 0.95 }));
      expect(lower).toBeGreaterThanOrEqual(0);
      expect(upper).toBeLessThanOrEqual(1);
      expect(lower).toBeLessThanOrEqual(x / n);
      expect(upper).toBeGreaterThanOrEqual(x / n);
      if (x === 0) expect(lower).toBe(0);
      if (x === n) expect(upper).toBe(1);
    }
  });

  test('99 % holds 95 % holds 90 %', () => {
    for (const [x, n] of COUNTS) {
      const [wide, middle, narrow] = [0.99, 0.95, 0.9].map((level) =>
        limits(method(x, n, { level })),
      );
      expect(wide?.[0]).toBeLessThanOrEqual(middle?.[0] ?? 0);
      expect(middle?.[0]).toBeLessThanOrEqual(narrow?.[0] ?? 0);
      expect(wide?.[1]).toBeGreaterThanOrEqual(middle?.[1] ?? 1);
      expect(middle?.[1]).toBeGreaterThanOrEqual(narrow?.[1] ?? 1);
    }
  });

  test('one more success never lowers a limit', () => {
    let [lower, upper] = [0, 0];
    for (let x = 0; x <= 23; x++) {
      const next = limits(method(x, 23, { level: 0.9 }));
      expect(next[0]).toBeGreaterThanOrEqual(lower);
      expect(next[1]).toBeGreaterThanOrEqual(upper);
      [lower, upper] = next;
    }
  });

  test('says in words what is no proportion', () => {
    const reason = (x: number, n: number) => {
      const got = method(x, n, { level: 0.95 });
      return got.kind === 'not-estimable' ? got.reason : name;
    };
    expect(reason(0, 0)).toBe('Nothing was counted, so there is no share to speak of.');
    expect(reason(4, 3)).toBe('4 of 3 cannot be: the part is larger than the whole.');
    expect(reason(-1, 3)).toBe('-1 of 3 are no counts.');
    expect(reason(Number.NaN, 3)).toBe('NaN of 3 are no counts.');
    expect(() => method(1, 3, { level: 1 })).toThrow('A confidence level lies between 0 and 1');
  });
});

describe('limits put back into their test', () => {
  test('Clopper–Pearson: each tail has α/2', () => {
    for (const [x, n] of [
      [3, 17],
      [1, 400],
      [4e8, 1e9],
    ] as const) {
      const [lower, upper] = limits(clopperPearson(x, n, { level: 0.9 }));
      expect(binomialAtLeast(x, { n, p: lower })).toBeCloseTo(0.05, 8);
      expect(binomialAtMost(x, { n, p: upper })).toBeCloseTo(0.05, 8);
    }
  });

  test('Wilson: the score statistic at each limit is ± z', () => {
    for (const [x, n] of [
      [3, 17],
      [1, 400],
      [4e8, 1e9],
    ] as const) {
      const z = normalCritical(0.95);
      for (const p of limits(wilson(x, n, { level: 0.95 }))) {
        const score = (x - n * p) / Math.sqrt(n * p * (1 - p));
        expect(Math.abs(score)).toBeCloseTo(z, 6);
      }
    }
  });
});

test('a share of one in a million million keeps its digits', () => {
  // Hand-worked: at x = 1 the exact limits come from −ln(1 − α/2)/n and the Poisson table's 5.5716434.
  const [lower, upper] = limits(clopperPearson(1, 1e12, { level: 0.95 }));
  expect(lower * 1e12).toBeCloseTo(0.025317808, 8);
  expect(upper * 1e12).toBeCloseTo(5.5716434, 6);
});
