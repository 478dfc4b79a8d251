import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { kaplanMeier, type SurvivalLimits } from '../../src/stats/kaplan-meier.ts';
import type { Life } from '../../src/stats/kaplan-meier-lives.ts';
import { kaplanMeierMean } from '../../src/stats/kaplan-meier-mean.ts';
import { kaplanMeierMedian, kaplanMeierQuantile } from '../../src/stats/kaplan-meier-quantile.ts';
import { nelsonAalen } from '../../src/stats/nelson-aalen.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';
import { livesFrom, lungLives, type SurvivalInputs } from '../helpers/survival-inputs.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

describe('reference cases 09-survival (own R formulas; second route R survival 3.5-3)', () => {
  test.each(loadReference<SurvivalInputs>('09-survival', 'km-'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const lives = livesFrom(inputs);
      const level = inputs.level ?? 0.95;
      const curves = {
        LogLog: kaplanMeier(lives, { level, limits: 'log-log' }),
        Log: kaplanMeier(lives, { level, limits: 'log' }),
        Plain: kaplanMeier(lives, { level, limits: 'plain' }),
      };
      const { steps } = curves.LogLog;
      const hazard = nelsonAalen(lives);
      const median = kaplanMeierQuantile(curves.LogLog, 0.5);
      const byLog = kaplanMeierQuantile(curves.Log, 0.5);
      const mean = kaplanMeierMean(curves.LogLog);
      const got = {
        n: curves.LogLog.lives,
        events: curves.LogLog.events,
        table: {
          time: steps.map((step) => step.time),
          atRisk: steps.map((step) => step.atRisk),
          events: steps.map((step) => step.events),
          survival: steps.map((step) => step.survival),
          seGreenwood: steps.map((step) => step.standardError),
          lowerLogLog: steps.map((step) => step.lower),
          upperLogLog: steps.map((step) => step.upper),
          lowerLog: curves.Log.steps.map((step) => step.lower),
          upperLog: curves.Log.steps.map((step) => step.upper),
          lowerPlain: curves.Plain.steps.map((step) => step.lower),
          upperPlain: curves.Plain.steps.map((step) => step.upper),
          nelsonAalen: hazard.map((step) => step.cumulativeHazard),
          seNelsonAalen: hazard.map((step) => step.standardError),
        },
        median: {
          estimate: median.time,
          lowerLogLog: median.lower,
          upperLogLog: median.upper,
          lowerLog: byLog.lower,
          upperLog: byLog.upper,
        },
        firstQuartileTime: kaplanMeierQuantile(curves.LogLog, 0.25).time,
        restrictedMeanToLastTime: mean.kind === 'estimated' ? mean.estimate : null,
      };
      expectClose(got, expected, tolerance);
    },
  );
});

describe('published figures', () => {
  test('km-6mp: remission under 6-MP, Freireich et al. 1963 (R MASS::gehan)', () => {
    const { inputs, expected, tolerance } = loadCheckValue<SurvivalInputs, Published>('km-6mp');
    const { steps, ...curve } = kaplanMeier(livesFrom(inputs), { level: 0.95 });
    expect(steps.map((step) => step.time)).toEqual(expected.t);
    expect(steps.map((step) => step.atRisk)).toEqual(expected.n_risk);
    const [S, se] = [steps.map((step) => step.survival), steps.map((step) => step.standardError)];
    expectClose(S, expected.S, tolerance, 'S');
    expectClose(se, expected.greenwood_se, tolerance, 'se');
    const [first, last] = [steps[0], steps.at(-1)];
    expectClose([first?.lower, first?.upper], expected.loglog_ci_t6, tolerance, 'ci');
    expectClose([last?.lower, last?.upper], expected.loglog_ci_t23, tolerance, 'ci');
    expect(kaplanMeierQuantile({ ...curve, steps }, 0.5).time).toBe(expected.median);
  });

  test('the restricted mean and its error: survival::lung to 500 days', () => {
    // R 4.2.2, survival 3.5-3: print(survfit(Surv(time, status) ~ 1, lung), rmean = 500)
    const curve = kaplanMeier(lungLives(), { level: 0.95 });
    const mean = kaplanMeierMean(curve, { until: 500 });
    if (mean.kind !== 'estimated') throw new Error(mean.reason);
    expect(mean.estimate).toBeCloseTo(310.3344367, 6);
    expect((mean.upper - mean.lower) / 2 / 1.959963985).toBeCloseTo(11.2460096, 6);
  });
});

interface Published {
  t: number[];
  n_risk: number[];
  S: number[];
  greenwood_se: number[];
  loglog_ci_t6: number[];
  loglog_ci_t23: number[];
  median: number;
}

const someLives = fc.array(
  fc.record({ time: fc.integer({ min: 0, max: 20 }), event: fc.boolean() }),
  { minLength: 1, maxLength: 40 },
);
const limits: SurvivalLimits[] = ['log-log', 'log', 'plain'];

describe('laws', () => {
  test('the order of the lives never matters', () => {
    fc.assert(
      fc.property(someLives, (lives) => {
        const turned = kaplanMeier([...lives].reverse(), { level: 0.9 });
        expect(turned).toEqual(kaplanMeier(lives, { level: 0.9 }));
      }),
    );
  });

  test('curve falls from 1 to 0, limits enclose it and stay inside 0 to 1', () => {
    fc.assert(
      fc.property(someLives, fc.constantFrom(...limits), (lives, kind) => {
        let before = 1;
        for (const step of kaplanMeier(lives, { level: 0.95, limits: kind }).steps) {
          expect(step.survival).toBeLessThan(before);
          before = step.survival;
          if (step.lower === null || step.upper === null) continue;
          expect(step.lower).toBeGreaterThanOrEqual(0);
          expect(step.lower).toBeLessThanOrEqual(step.survival);
          expect(step.upper).toBeGreaterThanOrEqual(step.survival);
          expect(step.upper).toBeLessThanOrEqual(1);
        }
      }),
    );
  });

  test('without censoring the curve is the share still going, and the mean is the plain mean', () => {
    const times = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(times, (all) => {
        const curve = kaplanMeier(
          all.map((time) => ({ time, event: true })),
          { level: 0.95 },
        );
        for (const { time, survival } of curve.steps)
          expect(survival).toBeCloseTo(all.filter((t) => t > time).length / all.length, 12);
        const mean = kaplanMeierMean(curve);
        const plain = all.reduce((sum, t) => sum + t, 0) / all.length;
        expect(mean.kind === 'estimated' && mean.estimate).toBeCloseTo(plain, 10);
      }),
    );
  });

  test('a unit k times as small makes every time k times as large and leaves the curve', () => {
    fc.assert(
      fc.property(someLives, (lives) => {
        const scaled = lives.map(({ time, event }) => ({ time: time * 60, event }));
        const [hours, minutes] = [lives, scaled].map((l) => kaplanMeier(l, { level: 0.95 }));
        expect(minutes?.steps.map((s) => [s.time / 60, s.survival, s.upper])).toEqual(
          hours?.steps.map((s) => [s.time, s.survival, s.upper]),
        );
      }),
    );
  });
});

describe('what cannot be said', () => {
  const censored: Life[] = [3, 5, 9].map((time) => ({ time, event: false }));

  test('no lives, and no events, give a curve without steps', () => {
    expect(kaplanMeier([], { level: 0.95 })).toMatchObject({ steps: [], lives: 0, lastTime: 0 });
    expect(kaplanMeier(censored, { level: 0.95 })).toMatchObject({
      steps: [],
      events: 0,
      lastTime: 9,
    });
    expect(nelsonAalen(censored)).toEqual([]);
    const nothing = { time: null, lower: null, upper: null };
    expect(kaplanMeierQuantile(kaplanMeier([], { level: 0.95 }), 0.5)).toEqual(nothing);
  });

  test('a median beyond the last time watched is said to be there', () => {
    const median = kaplanMeierMedian(kaplanMeier(censored, { level: 0.95 }));
    expect(median).toMatchObject({
      kind: 'not-estimable',
      reason:
        'Fewer than half are seen to end, so the median lies beyond the longest time watched.',
    });
    expect(kaplanMeierMedian(kaplanMeier([], { level: 0.95 })).kind).toBe('not-estimable');
  });

  test('a single life that ended has a median without limits', () => {
    const median = kaplanMeierMedian(kaplanMeier([{ time: 4, event: true }], { level: 0.95 }));
    expect(median).toMatchObject({ estimate: 4, lower: 0, upper: Number.POSITIVE_INFINITY });
  });

  test('a mean to a horizon nobody was watched to is refused, unless all have ended', () => {
    const mean = kaplanMeierMean(kaplanMeier(censored, { level: 0.95 }), { until: 10 });
    expect(mean.kind).toBe('not-estimable');
    const ended = kaplanMeier([{ time: 4, event: true }], { level: 0.95 });
    expect(kaplanMeierMean(ended, { until: 10 })).toMatchObject({ estimate: 4 });
    expect(kaplanMeierMean(kaplanMeier([], { level: 0.95 })).kind).toBe('not-estimable');
  });

  test('a time that is none is a mistake of the caller', () => {
    for (const time of [-1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => kaplanMeier([{ time, event: true }], { level: 0.95 })).toThrow(`not ${time}`);
  });
});
