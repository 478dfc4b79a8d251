import { describe, expect, test } from 'vitest';
import { linearised } from '../../src/stats/clustered-linearised.ts';
import { rateTotals } from '../../src/stats/clustered-rate.ts';
import { ratioFieller, ratioLogPlain, ratioWaldT } from '../../src/stats/clustered-ratio-survey.ts';
import { tCritical } from '../../src/stats/interval-level.ts';
import { accelerationOf, jackknifeRatio } from '../../src/stats/jackknife-ratio.ts';
import { expectClose, loadCheckValue, loadReference } from '../helpers/reference.ts';

const tripsOf = (events: readonly number[], exposures: readonly number[]) =>
  events.map((count, i) => ({ events: count, exposure: exposures[i] ?? 0 }));

/** Everything the reference file knows of a ratio of totals over trips. */
function survey(events: readonly number[], exposures: readonly number[], level: number) {
  const trips = tripsOf(events, exposures);
  const totals = rateTotals(trips);
  const figure = typeof totals === 'string' ? null : linearised(totals);
  const jackknife = jackknifeRatio(events, exposures);
  if (typeof totals === 'string' || figure === null || jackknife === null)
    throw new Error('no ratio');
  return {
    ...figure,
    n: figure.clusters,
    estimate: figure.ratio,
    tQuantile: tCritical(level, figure.df),
    wald_t: ratioWaldT(trips, { level }),
    logSe: figure.se / figure.ratio,
    log_t: ratioLogPlain(trips, { level, critical: 't' }),
    log_z: ratioLogPlain(trips, { level, critical: 'z' }),
    fieller_t: ratioFieller(trips, { level }),
    varianceDeltaNoSmallSample: (figure.variance * figure.df) / figure.clusters,
    jackknife,
    accelerationJackknife: jackknife.acceleration,
    accelerationInfinitesimal: accelerationOf(totals.residuals),
  };
}

describe('reference cases 03-rates, ratios over trips (R, second routes survey and boot)', () => {
  interface Inputs {
    numerator: number[];
    denominator: number[];
    level: number;
  }
  test.each(loadReference<Inputs>('03-rates', 'ratio-'))('$id', (reference) => {
    const { numerator, denominator, level } = reference.inputs;
    expectClose(survey(numerator, denominator, level), reference.expected, reference.tolerance);
  });
});

describe('check values of catch per effort (Cochran 1977 ch. 6, Davison & Hinkley 1997)', () => {
  test('cpue-ratio-city', () => {
    const { inputs, expected, tolerance } = loadCheckValue<
      { x: number[]; u: number[] },
      Record<string, number>
    >('cpue-ratio-city');
    const got = survey(inputs.x, inputs.u, 0.95);
    expectClose(got.estimate, expected.ratio_of_means, tolerance);
    expectClose(got.se, expected.se_ratio_linearised, tolerance);
    expectClose(got.jackknife.se, expected.se_jackknife, tolerance);
    expectClose(Math.sqrt(got.varianceDeltaNoSmallSample), expected.se_v_L, tolerance);
  });

  test('cpue-ratio-bigcity', () => {
    const { inputs, expected, tolerance } = loadCheckValue<
      Record<'n' | 'N' | 'U_total', number>,
      Record<string, number>
    >('cpue-ratio-bigcity');
    const bigcity = loadReference<{ numerator: number[]; denominator: number[] }>(
      '03-rates',
      'ratio-bigcity',
    );
    const data = bigcity[0]?.inputs;
    if (data === undefined) throw new Error('no data');
    const { estimate, se } = survey(data.numerator, data.denominator, 0.95);
    expectClose(estimate, expected.R, tolerance, 'R');
    expectClose(estimate * inputs.U_total, expected.X_total_hat, tolerance, 'X_total_hat');
    expectClose(se, expected.se_R_no_fpc, tolerance, 'se');
    const finite = Math.sqrt(1 - inputs.n / inputs.N);
    expectClose(se * finite, expected.se_R_fpc, tolerance, 'se');
  });

  test('cpue-trips-10', () => {
    const { inputs, expected, tolerance } = loadCheckValue<
      { catch: number[]; line_hours: number[] },
      Record<string, number>
    >('cpue-trips-10');
    const got = survey(inputs.catch, inputs.line_hours, 0.95);
    if (got.wald_t.kind !== 'estimated') throw new Error(got.wald_t.reason);
    expectClose(got.estimate, expected.ratio_of_means, tolerance);
    expectClose(got.se, expected.se, tolerance);
    expectClose([got.wald_t.lower, got.wald_t.upper], expected.t_ci95_df9, tolerance);
    expectClose(got.jackknife.se, expected.se_jackknife, tolerance);
  });
});

describe('what cannot be said is said', () => {
  const methods = {
    wald: ratioWaldT,
    fieller: ratioFieller,
    log: (trips: ReturnType<typeof tripsOf>, { level }: { level: number }) =>
      ratioLogPlain(trips, { level, critical: 't' }),
  };
  test.each(Object.entries(methods))('%s', (_, method) => {
    const reason = (events: number[], exposures: number[]) => {
      const got = method(tripsOf(events, exposures), { level: 0.95 });
      return got.kind === 'not-estimable' ? got.reason : 'estimated';
    };
    expect(reason([], [])).toContain('No effort was recorded');
    expect(reason([0, 0], [0, 0])).toContain('No effort was recorded');
    expect(reason([3], [8])).toContain('One trip cannot show');
    expect(reason([0, 0], [8, 9])).toContain('Every trip had the same figure');
    expect(reason([1, 2], [5, 10])).toContain('Every trip had the same figure');
    expect(reason([-1, 2], [5, 10])).toContain('are no counts');
  });

  test('Fieller without an end', () => {
    const got = ratioFieller(tripsOf([3, 1], [5, 60]), { level: 0.95 });
    expect(got).toMatchObject({ kind: 'not-estimable' });
  });

  test('the jackknife needs two trips', () => {
    expect(jackknifeRatio([], [])).toBeNull();
    expect(jackknifeRatio([2], [5])).toBeNull();
    expect(jackknifeRatio([0, 0], [5, 6])?.acceleration).toBe(0);
  });
});
