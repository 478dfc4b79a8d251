import { describe, test } from 'vitest';
import { designFor, type Variables, withLevel } from '../../src/stats/design-matrix.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import { coefficientsByName, type FittedModel } from '../../src/stats/glm-model.ts';
import {
  type IndexLevel,
  type IndexOptions,
  indexByLevel,
} from '../../src/stats/index-by-level.ts';
import {
  fitNegativeBinomial,
  type NegativeBinomialModel,
} from '../../src/stats/negative-binomial-fit.ts';
import { thetaClusterStandardError } from '../../src/stats/negative-binomial-spread.ts';
import { type ClusterCovariance, clusterCovariance } from '../../src/stats/sandwich-cluster.ts';
import { type Covariance, modelBasedCovariance } from '../../src/stats/sandwich-contrast.ts';
import { averageMean } from '../../src/stats/standardise-mean.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { type GlmInputs, glmCase } from './glm-cases.ts';

const level = 0.95;

function fitOf(inputs: GlmInputs): FittedModel {
  const { model, choice } = glmCase(inputs);
  return inputs.family === 'nb'
    ? (fitNegativeBinomial(model) as NegativeBinomialModel).model
    : (fitGlm(model, choice) as FittedModel);
}

/** All combinations of the levels of the model's factors. */
function grid({ design }: FittedModel): Variables {
  const factors = Object.entries(design.variables).flatMap(([name, variable]) =>
    'levels' in variable ? [{ name, levels: variable.levels }] : [],
  );
  let rows: string[][] = [[]];
  for (const { levels } of factors)
    rows = rows.flatMap((row) => levels.map((value) => [...row, value]));
  return Object.fromEntries(
    factors.map(({ name, levels }, place) => [
      name,
      { levels, values: rows.map((row) => row[place] as string) },
    ]),
  );
}

describe('index on an even grid against R emmeans and own code', () => {
  const cases = loadReference<GlmInputs, Record<string, Json>>('06-glm', 'index');
  test.each(cases)('$id: $description', ({ inputs, expected, tolerance }) => {
    const fit = fitOf(inputs);
    const factor = inputs.indexFactor ?? '';
    const covariance = modelBasedCovariance(fit) as Covariance;
    const rows = designFor(fit.design, grid(fit));
    const levels = (inputs.factorLevels?.[factor] ?? []) as readonly string[];
    const index = (options: Partial<IndexOptions>): readonly IndexLevel[] =>
      indexByLevel(fit, factor, { covariance, level, rows, ...options }) as readonly IndexLevel[];
    const link = index({ average: 'link', relativeTo: 'unit' });
    const relative = index({ average: 'link', relativeTo: 'geometric-mean' });
    const response = index({ relativeTo: 'unit' });
    const lines = levels.map((name) => {
      const average = averageMean(
        fit,
        withLevel(rows, factor, name),
        new Float64Array(rows.rows).fill(1),
      );
      return average.kind === 'average' ? average.averageRow : new Float64Array();
    });
    const logVcov = lines.map((a) =>
      lines.map((b) =>
        a.reduce(
          (s, x, i) => s + b.reduce((t, y, j) => t + x * y * covariance.matrix.get(i, j), 0),
          0,
        ),
      ),
    );
    const { quantile: _, ...compared } = expected;
    expectClose(
      {
        coefficients: coefficientsByName(fit),
        logIndex: link.map((entry) => Math.log(entry.index)),
        logSe: link.map((entry) => entry.logStandardError),
        index: link.map((entry) => entry.index),
        indexSe: link.map((entry) => entry.index * (entry.logStandardError ?? 0)),
        lower: link.map((entry) => entry.interval?.lower),
        upper: link.map((entry) => entry.interval?.upper),
        logVcov,
        relativeToGeometricMean: relative.map((entry) => entry.index),
        relativeLogSe: relative.map((entry) => entry.logStandardError),
        responseScaleAverage: response.map((entry) => entry.index),
        responseScaleAverageSe: response.map((e) => e.index * (e.logStandardError ?? 0)),
      },
      compared,
      tolerance,
    );
  });
});

describe('catch per line-hour by month against R, 22-adjusted-and-index.R', () => {
  const cases = loadReference<GlmInputs, Record<string, Json>>('22-adjusted-and-index', 'index');
  test.each(cases)('$id: $description', ({ inputs, expected, tolerance }) => {
    const { model, clusters } = glmCase(inputs);
    const fit = fitNegativeBinomial(model) as NegativeBinomialModel;
    const covariance = clusterCovariance(fit.model, clusters, 'CR3J') as ClusterCovariance;
    expectClose(
      {
        coefficients: coefficientsByName(fit.model),
        theta: fit.theta,
        seTheta: fit.thetaStandardError,
        clusterSeTheta: thetaClusterStandardError(fit, clusters),
        CR3J: covariance.matrix.to2DArray(),
        index: indexByLevel(fit.model, inputs.indexFactor ?? '', { covariance, level }),
      },
      expected,
      tolerance,
    );
  });
});
