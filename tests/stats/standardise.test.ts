import { describe, expect, test } from 'vitest';
import { designMatrix, withLevel } from '../../src/stats/design-matrix.ts';
import { fitFirthLogistic } from '../../src/stats/firth-logistic.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import {
  coefficientsByName,
  type FittedModel,
  modelCovariance,
} from '../../src/stats/glm-model.ts';
import { type ClusterCovariance, clusterCovariance } from '../../src/stats/sandwich-cluster.ts';
import { type Covariance, modelBasedCovariance } from '../../src/stats/sandwich-contrast.ts';
import { standardise } from '../../src/stats/standardise.ts';
import { type AverageMean, averageMean, ownMix } from '../../src/stats/standardise-mean.ts';
import { expectClose, type Json, loadCheckValue, loadReference } from '../helpers/reference.ts';
import { type GlmInputs, glmCase } from './glm-cases.ts';

const level = 0.95;

/** Standardised means of all levels, and the comparison of each with the first. */
function marginal(fit: FittedModel, { exposure = '', exposureLevels = [] }: GlmInputs) {
  const rows = exposureLevels.map((name) => withLevel(fit.design, exposure, name));
  const means = rows.map((row) => averageMean(fit, row, ownMix(fit)) as AverageMean);
  const compared = (covariance: Covariance) => {
    const versusFirst = rows
      .slice(1)
      .map((a) => standardise(fit, { a, b: rows[0] as typeof a }, { covariance, level }));
    const vcov = means.map((a) =>
      means.map((b) => a.gradient.reduce((sum, g, i) => sum + g * product(covariance, b, i), 0)),
    );
    const of = (name: 'difference' | 'ratio', key: string) =>
      versusFirst.map((result) => (result[name] as unknown as Record<string, number>)[key]);
    return {
      vcov,
      se: vcov.map((row, i) => Math.sqrt(row[i] ?? -1)),
      difference: of('difference', 'estimate'),
      seDifference: of('difference', 'standardError'),
      lowerDifference: of('difference', 'lower'),
      upperDifference: of('difference', 'upper'),
      ratio: of('ratio', 'estimate'),
      seLogRatio: of('ratio', 'standardError'),
      lowerRatio: of('ratio', 'lower'),
      upperRatio: of('ratio', 'upper'),
    };
  };
  return { standardised: means.map(({ mean }) => mean), compared };
}

const product = ({ matrix }: Covariance, b: AverageMean, row: number): number =>
  b.gradient.reduce((sum, g, j) => sum + matrix.get(row, j) * g, 0);

describe('standardised means against own R code on stats::glm (gradient by numDeriv)', () => {
  const cases = loadReference<GlmInputs, Record<string, Json>>('06-glm', 'marginal');
  test.each(cases)('$id: $description', ({ inputs, expected, tolerance }) => {
    const { model, choice, clusters } = glmCase(inputs);
    const fit = fitGlm(model, choice) as FittedModel;
    const { standardised, compared } = marginal(fit, inputs);
    // The cases read every interval with the normal quantile, CR0 and CR1 included.
    const normal = (covariance: Covariance): Covariance => ({
      ...(modelBasedCovariance(fit) as Covariance & { kind: 'model-based' }),
      matrix: covariance.matrix,
    });
    const robust = (type: 'CR0' | 'CR1') =>
      compared(normal(clusterCovariance(fit, clusters, type) as Covariance));
    const clustered = clusters.length > 0 ? { CR0: robust('CR0'), CR1: robust('CR1') } : {};
    const got = {
      coefficients: coefficientsByName(fit),
      standardised,
      model: compared(modelBasedCovariance(fit) as Covariance),
      ...clustered,
    };
    expectClose(got, expected, tolerance);
  });
});

interface AdjustedInputs extends GlmInputs {
  readonly factor: string;
  readonly A: string;
  readonly B: string;
  readonly estimator: FittedModel['estimator'];
}

// Made-up trips: CR2 and Satterthwaite by clubSandwich (linear_contrast) and by full matrices,
// gradients by numDeriv, Firth's fit by own R code.
describe('the adjusted comparison over trips against R, 22-adjusted-and-index.R', () => {
  const cases = loadReference<AdjustedInputs, Record<string, Json>>('22-adjusted-and-index').filter(
    ({ inputs }) => inputs.factor !== undefined,
  );
  test.each(cases)('$id: $description', ({ inputs, expected, tolerance }) => {
    const { model, choice, clusters } = glmCase(inputs);
    const likelihood = fitGlm(model, choice);
    const penalised = inputs.estimator === 'firth';
    const fit = (penalised ? fitFirthLogistic(model) : likelihood) as FittedModel;
    const covariance = clusterCovariance(fit, clusters, 'CR2') as ClusterCovariance;
    const set = (name: string) => withLevel(fit.design, inputs.factor, name);
    const got = standardise(fit, { a: set(inputs.A), b: set(inputs.B) }, { covariance, level });
    const modelSe = fit.names.map((_, i) => Math.sqrt(modelCovariance(fit)?.get(i, i) ?? -1));
    const { wald: _, ...compared } = expected;
    expectClose(
      {
        ...got,
        coefficients: coefficientsByName(fit),
        CR2: covariance.matrix.to2DArray(),
        modelSe,
      },
      compared,
      tolerance,
    );
  });
});

test('kidney stones, two treatments standardised to all stones (Charig et al. 1986, BMJ 292:879)', () => {
  const { expected } = loadCheckValue<unknown, Record<string, number & number[]>>('gcomp-kidney');
  const size = { levels: ['small', 'large'], values: ['small', 'large', 'small', 'large'] };
  const treatment = { levels: ['B', 'A'], values: ['A', 'A', 'B', 'B'] };
  const design = designMatrix(['treatment', 'size'], { treatment, size });
  const model = { design, y: [81, 192, 234, 55], trials: [87, 263, 270, 80] };
  const fit = fitGlm(model, { name: 'binomial' }) as FittedModel;
  const covariance = modelBasedCovariance(fit) as Covariance;
  const rows = { a: withLevel(design, 'treatment', 'A'), b: withLevel(design, 'treatment', 'B') };
  const { a, b, difference, ratio } = standardise(fit, rows, { covariance, level });
  const near = { rel: 0, abs: 1e-7 };
  expectClose([...fit.coefficients], expected.beta, near);
  expectClose(a, { estimate: expected.p_A }, near);
  expectClose(b, { estimate: expected.p_B }, near);
  const [lower, upper] = expected.RD_ci ?? [];
  expectClose(
    difference,
    { estimate: expected.RD, standardError: expected.se_RD_delta, lower, upper },
    near,
  );
  const [low, high] = expected.RR_ci ?? [];
  expectClose(ratio, { estimate: expected.RR, lower: low, upper: high }, near);
  expect(difference).toMatchObject({ n: 700, exposure: null, method: 'standardised-logit-model' });
});
