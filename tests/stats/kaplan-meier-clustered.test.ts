import { describe, expect, test } from 'vitest';
import { kaplanMeier } from '../../src/stats/kaplan-meier.ts';
import { clusteredKaplanMeier } from '../../src/stats/kaplan-meier-clustered.ts';

const TIMES = [4, 7, 7, 9, 12, 12, 15, 18, 20, 22, 25, 31, 6, 8, 10, 14];
const EVENTS = [1, 1, 0, 1, 1, 1, 0, 1, 1, 0, 1, 1, 1, 0, 1, 1];
const TRIPS = [1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 5, 5, 5, 5];
const LIVES = TIMES.map((time, at) => ({
  time,
  event: EVENTS[at] === 1,
  cluster: String(TRIPS[at]),
}));

/**
 * Standard errors of the same 16 lives. Source: R 4.2, package survival,
 * survfit(Surv(time, event) ~ 1, cluster = trip, robust = TRUE), which leaves K/(K − 1) out.
 */
const R_ERRORS = [
  [4, 0.9375, 0.05687585851],
  [6, 0.875, 0.0644235254003],
  [7, 0.8125, 0.109653662872],
  [9, 0.738636363636, 0.1121377189575],
  [10, 0.664772727273, 0.1361544461658],
  [12, 0.517045454545, 0.1986133165647],
  [14, 0.443181818182, 0.2223363420807],
  [18, 0.354545454545, 0.1931165941512],
  [20, 0.265909090909, 0.2010534454431],
  [25, 0.132954545455, 0.1005267227215],
] as const;

describe('the survival curve with trips as clusters', () => {
  const curve = clusteredKaplanMeier(LIVES, { level: 0.95 });

  test('has the curve and, but for K/(K − 1), the standard errors of R', () => {
    for (const [at, [time, survival, error]] of R_ERRORS.entries()) {
      const step = curve.steps[at];
      expect(step?.time).toBe(time);
      expect(step?.survival).toBeCloseTo(survival, 10);
      expect((step?.standardError ?? 0) * Math.sqrt(4 / 5)).toBeCloseTo(error, 10);
    }
  });

  test('has no limits where it has reached 0', () => {
    expect(curve.steps.at(-1)).toMatchObject({ survival: 0, lower: null, upper: null });
  });

  test('limits lie on both sides of the curve, inside 0 and 1', () => {
    for (const { survival, lower, upper } of curve.steps.slice(0, -1)) {
      expect(lower).toBeGreaterThan(0);
      expect(lower).toBeLessThan(survival);
      expect(upper).toBeGreaterThan(survival);
      expect(upper).toBeLessThan(1);
    }
  });

  test('one trip gives Greenwood’s limits; no lives give no step', () => {
    const one = LIVES.map((life) => ({ ...life, cluster: 'a' }));
    expect(clusteredKaplanMeier(one, { level: 0.95 })).toEqual(kaplanMeier(one, { level: 0.95 }));
    expect(clusteredKaplanMeier([], { level: 0.95 }).steps).toEqual([]);
  });
});
