import { describe, test } from 'vitest';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import type { FittedModel } from '../../src/stats/glm-model.ts';
import { type ClusterCovariance, clusterCovariance } from '../../src/stats/sandwich-cluster.ts';
import { waldTest } from '../../src/stats/wald-test.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { type GlmInputs, glmCase } from './glm-cases.ts';

interface WaldInputs extends GlmInputs {
  readonly wald?: string;
}

describe('joint tests over trips against R clubSandwich::Wald_test (chi-sq, HTZ)', () => {
  const cases = loadReference<WaldInputs, Record<string, Json>>('22-adjusted-and-index').filter(
    ({ expected }) => expected.wald !== undefined,
  );
  test.each(cases)('$id, $inputs.wald', ({ inputs, expected, tolerance }) => {
    const { model, choice, clusters } = glmCase(inputs);
    const fit = fitGlm(model, choice) as FittedModel;
    const covariance = clusterCovariance(fit, clusters, 'CR2') as ClusterCovariance;
    const tested = fit.names.flatMap((name, i) =>
      name.startsWith(inputs.wald ?? '?')
        ? [Float64Array.from(fit.names, (_, j) => (i === j ? 1 : 0))]
        : [],
    );
    expectClose(waldTest(covariance, tested), expected.wald, tolerance);
  });
});
