import { describe, test } from 'vitest';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import {
  coefficientsByName,
  type FittedModel,
  modelCovariance,
} from '../../src/stats/glm-model.ts';
import {
  type ClusterCovariance,
  type ClusterType,
  clusterCovariance,
} from '../../src/stats/sandwich-cluster.ts';
import { satterthwaiteDf } from '../../src/stats/satterthwaite-df.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { type GlmInputs, glmCase } from './glm-cases.ts';

const rootDiagonal = (fit: FittedModel, vcov: { get(i: number, j: number): number }) =>
  Object.fromEntries(fit.names.map((name, i) => [name, Math.sqrt(vcov.get(i, i))]));

const unit = (size: number, index: number): Float64Array =>
  Float64Array.from({ length: size }, (_, i) => (i === index ? 1 : 0));

describe('cluster-robust covariances against R clubSandwich 0.5.8 and own R sandwiches', () => {
  const cases = loadReference<GlmInputs, Record<string, Json>>('06-glm', 'robust');
  test.each(cases)('$id: $description', ({ inputs, expected, tolerance }) => {
    const { model, choice, clusters } = glmCase(inputs);
    const fit = fitGlm(model, choice) as FittedModel;
    const of = (type: ClusterType) => clusterCovariance(fit, clusters, type) as ClusterCovariance;
    const cr2 = of('CR2');
    const vcov = modelCovariance(fit);
    const { tQuantileDfClustersMinus1: _, ...compared } = expected;
    expectClose(
      {
        clusters: cr2.clusters,
        rows: fit.rows.length,
        coefficients: coefficientsByName(fit),
        modelSe: vcov === null ? null : rootDiagonal(fit, vcov),
        CR0: of('CR0').matrix.to2DArray(),
        CR1: of('CR1').matrix.to2DArray(),
        CR1S: of('CR1S').matrix.to2DArray(),
        CR2: cr2.matrix.to2DArray(),
        seCR0: rootDiagonal(fit, of('CR0').matrix),
        seCR1: rootDiagonal(fit, of('CR1').matrix),
        seCR2: rootDiagonal(fit, cr2.matrix),
        satterthwaiteDfCR2: fit.names.map((_, i) =>
          satterthwaiteDf(cr2, unit(fit.names.length, i)),
        ),
      },
      compared,
      tolerance,
    );
  });
});
