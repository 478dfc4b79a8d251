import { describe, expect, test } from 'vitest';
import { expectClose, loadCheckValue } from '../helpers/reference.ts';
import { everything, type Four, stratum } from './mantel-haenszel-everything.ts';

describe('published tables', () => {
  // Charig et al. 1986, BMJ 292:879: kidney stones; values of metafor::rma.mh 3.8-1.
  test('kidney stones: treatment A is ahead in both sizes of stone though behind overall', () => {
    const { inputs, expected, tolerance } = loadCheckValue<
      { strata: Four[] },
      Record<string, number>
    >('mh-kidney');
    const { crude_A, crude_B, direct_standard_A, direct_standard_B, ...stratified } = expected;
    const got = everything(inputs.strata.map(stratum), 0.95);
    const crude = inputs.strata.reduce(
      (sum, four) => four.map((v, i) => v + (sum[i] ?? 0)),
      [] as number[],
    );
    const [a, b, c, d] = crude as Four;
    expectClose([a / (a + b), c / (c + d)], [crude_A, crude_B], tolerance);
    for (const [p, q, r, s] of inputs.strata) expect(p / (p + q)).toBeGreaterThan(r / (r + s));
    expectClose(
      {
        ...named(got.oddsRatioMH, { estimate: 'OR_MH', logSe: 'se_logOR_RBG' }),
        ...named(got.riskRatioMH, { estimate: 'RR_MH', logSe: 'se_logRR_GR' }),
        ...named(got.riskDifferenceMH, {
          estimate: 'RD_MH',
          seGreenlandRobins: 'se_RD_GreenlandRobins',
          seSato: 'se_RD_Sato',
        }),
        OR_ci: pair(got.oddsRatioMH),
        RR_ci: pair(got.riskRatioMH),
        CMH: got.cmh.statistic,
        CMH_cc: got.cmhContinuity.statistic,
        breslow_day: got.breslowDay.statistic,
        breslow_day_tarone: got.breslowDay.taroneStatistic,
        p_BDT: got.breslowDay.taroneP,
      },
      stratified,
      tolerance,
    );
  });

  // Breslow & Day 1980, IARC Sci Publ 32, ch. 4: oesophageal cancer in Ille-et-Vilaine by age.
  test('oesophageal cancer and alcohol', () => {
    const { inputs, expected, tolerance } = loadCheckValue<
      { strata: Four[] },
      Record<string, number>
    >('mh-ille-et-vilaine');
    const got = everything(inputs.strata.map(stratum), 0.95);
    expectClose(
      {
        ...named(got.oddsRatioMH, { estimate: 'OR_MH', logSe: 'se_logOR_RBG' }),
        OR_ci: pair(got.oddsRatioMH),
        CMH: got.cmh.statistic,
        CMH_cc: got.cmhContinuity.statistic,
        breslow_day: got.breslowDay.statistic,
        breslow_day_tarone: got.breslowDay.taroneStatistic,
        df: got.breslowDay.df,
        p_BD: got.breslowDay.p,
        p_BDT: got.breslowDay.taroneP,
      },
      expected,
      tolerance,
    );
  });

  // Bickel, Hammel & O'Connell 1975, Science 187:398; R datasets::UCBAdmissions, mantelhaen.test.
  test('admissions to Berkeley: men against women by department', () => {
    const { expected, tolerance } = loadCheckValue<object, Record<string, number>>('mh-ucb');
    const strata: Four[] = [
      [512, 313, 89, 19],
      [353, 207, 17, 8],
      [120, 205, 202, 391],
      [138, 279, 131, 244],
      [53, 138, 94, 299],
      [22, 351, 24, 317],
    ];
    const got = everything(strata.map(stratum), 0.95);
    const [a, b, c, d] = [0, 1, 2, 3].map((i) =>
      strata.reduce((sum, four) => sum + (four[i] as number), 0),
    ) as Four;
    expectClose(
      {
        crude_OR: (a * d) / (b * c),
        ...named(got.oddsRatioMH, { estimate: 'OR_MH' }),
        OR_ci_RBG: pair(got.oddsRatioMH),
        CMH: got.cmh.statistic,
        CMH_cc: got.cmhContinuity.statistic,
        p_CMH: got.cmh.p,
        breslow_day: got.breslowDay.statistic,
        breslow_day_tarone: got.breslowDay.taroneStatistic,
        df: got.breslowDay.df,
        p_BD: got.breslowDay.p,
        ...named(got.riskRatioMH, { estimate: 'RR_MH' }),
        ...named(got.riskDifferenceMH, { estimate: 'RD_MH' }),
        stratum_OR: strata.map(([p, q, r, s]) => (p * s) / (q * r)),
      },
      expected,
      { ...tolerance, byKey: { crude_OR: { rel: 0, abs: 5e-6 } } },
    );
  });
});

/** Fields of a figure under the names of the check values. */
function named(figure: object, names: Record<string, string>): Record<string, unknown> {
  const fields = figure as Record<string, unknown>;
  return Object.fromEntries(Object.entries(names).map(([from, to]) => [to, fields[from]]));
}

function pair(figure: object): unknown[] {
  const { lower, upper } = figure as { lower?: number; upper?: number };
  return [lower, upper];
}
