import { expect, test } from 'vitest';
import { designFor, designMatrix } from '../../src/stats/design-matrix.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import {
  coefficientsByName,
  type FittedModel,
  modelCovariance,
} from '../../src/stats/glm-model.ts';
import { type IndexLevel, indexByLevel } from '../../src/stats/index-by-level.ts';
import {
  fitNegativeBinomial,
  type NegativeBinomialModel,
} from '../../src/stats/negative-binomial-fit.ts';
import { type Covariance, modelBasedCovariance } from '../../src/stats/sandwich-contrast.ts';
import { expectClose, loadCheckValue, loadData } from '../helpers/reference.ts';

const factor = (values: readonly string[], levels: readonly string[]) => ({ values, levels });
const errorOf = (fit: FittedModel, name: string): number => {
  const place = fit.names.indexOf(name);
  return Math.sqrt(modelCovariance(fit)?.get(place, place) ?? -1);
};

/** Orthogonal polynomial scores of four equally spaced levels: linear, quadratic, cubic. */
const POLYNOMIAL = {
  L: [-3, -1, 1, 3].map((score) => score / Math.sqrt(20)),
  Q: [1, -1, -1, 1].map((score) => score / 2),
  C: [-1, 3, -3, 1].map((score) => score / Math.sqrt(20)),
};

function polynomials(name: string, values: readonly string[], levels: readonly string[]) {
  const scored = (scores: readonly number[]) => values.map((v) => scores[levels.indexOf(v)] ?? 0);
  return Object.fromEntries(
    Object.entries(POLYNOMIAL).map(([key, s]) => [`${name}.${key}`, scored(s)]),
  );
}

test('motor insurance claims, polynomial contrasts (Baxter, Coutts & Ross 1980; R glm)', () => {
  const { expected } = loadCheckValue<unknown, Record<string, number>>('poisson-offset-insurance');
  const { District = [], Group = [], Age = [], Claims = [], Holders = [] } = loadData('Insurance');
  const group = polynomials('Group', Group, ['<1l', '1-1.5l', '1.5-2l', '>2l']);
  const age = polynomials('Age', Age, ['<25', '25-29', '30-35', '>35']);
  const variables = { District: factor(District, ['1', '2', '3', '4']), ...group, ...age };
  const design = designMatrix(Object.keys(variables), variables);
  const offset = Holders.map((holders) => Math.log(Number(holders)));
  const fit = fitGlm({ design, y: Claims.map(Number), offset }, { name: 'poisson' }) as FittedModel;
  const b = coefficientsByName(fit);
  const got = {
    ...b,
    intercept: b['(Intercept)'],
    se_District4: errorOf(fit, 'District4'),
    deviance: fit.deviance,
    df: fit.dfResidual,
    pearson_X2: fit.pearsonChiSquare,
  };
  expectClose(got, expected, { rel: 0, abs: 1e-6 });
});

test('days absent from school, NB2 (Quine in Aitkin 1978; R MASS::glm.nb)', () => {
  const { expected } = loadCheckValue<unknown, Record<string, number>>('negbin-quine');
  const { Sex = [], Age = [], Eth = [], Lrn = [], Days = [] } = loadData('quine');
  const design = designMatrix(['Sex', 'Age', 'Eth', 'Lrn'], {
    Sex: factor(Sex, ['F', 'M']),
    Age: factor(Age, ['F0', 'F1', 'F2', 'F3']),
    Eth: factor(Eth, ['A', 'N']),
    Lrn: factor(Lrn, ['AL', 'SL']),
  });
  const fit = fitNegativeBinomial({ design, y: Days.map(Number) }) as NegativeBinomialModel;
  const got = {
    ...coefficientsByName(fit.model),
    theta: fit.theta,
    se_theta: fit.thetaStandardError,
    two_loglik: 2 * (fit.model.logLik ?? 0),
    se_EthN: errorOf(fit.model, 'EthN'),
  };
  expectClose(got, expected, { rel: 0, abs: 1e-5 });
});

test('warp breaks by tension: averages of logarithms and of rates (Tippett 1950; R emmeans)', () => {
  const { expected } = loadCheckValue<unknown, Record<string, number & number[]>>('emm-warpbreaks');
  const { breaks = [], wool = [], tension = [] } = loadData('warpbreaks');
  const levels = { wool: ['A', 'B'], tension: ['L', 'M', 'H'] };
  const design = designMatrix(['wool', 'tension'], {
    wool: factor(wool, levels.wool),
    tension: factor(tension, levels.tension),
  });
  const fit = fitGlm({ design, y: breaks.map(Number) }, { name: 'poisson' }) as FittedModel;
  expectClose([...fit.coefficients], expected.coef, { rel: 0, abs: 1e-8 });
  const rows = designFor(design, {
    wool: factor(['A', 'B'], levels.wool),
    tension: factor(['L', 'L'], levels.tension),
  });
  const covariance = modelBasedCovariance(fit) as Covariance;
  const index = (average: 'link' | 'response') =>
    indexByLevel(fit, 'tension', {
      covariance,
      level: 0.95,
      rows,
      average,
      relativeTo: 'unit',
    }) as readonly IndexLevel[];
  const [low, middle, high] = index('link');
  const [lower, upper] = expected.L_ci ?? [];
  const got = { L: low?.index, M: middle?.index, H: high?.index };
  expectClose(got, { L: expected.L, M: expected.M, H: expected.H }, { rel: 0, abs: 1e-6 });
  expectClose(low?.interval, { lower, upper }, { rel: 0, abs: 1e-6 });
  // The entry's note gives the averages of rates: 36.3888889, 26.3888889, 21.6666667.
  const rates = index('response').map((entry) => entry.index);
  for (const [i, rate] of [36.3888889, 26.3888889, 21.6666667].entries())
    expect(rates[i]).toBeCloseTo(rate, 6);
});
