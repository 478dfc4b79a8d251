import { describe, expect, test } from 'vitest';
import { designMatrix } from '../../src/stats/design-matrix.ts';
import { fitFirthLogistic } from '../../src/stats/firth-logistic.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import type { FittedModel } from '../../src/stats/glm-model.ts';
import { type ClusterCovariance, clusterCovariance } from '../../src/stats/sandwich-cluster.ts';
import {
  type Covariance,
  contrastSpread,
  modelBasedCovariance,
  type Spread,
} from '../../src/stats/sandwich-contrast.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';
import { described, type GlmInputs, glmCase } from './glm-cases.ts';

interface Expected {
  readonly supremumLogLik: number;
  readonly firth: Record<string, Record<string, number>>;
}

describe('separated data against R brglm2 (mean bias reduction)', () => {
  const cases = loadReference<GlmInputs, Expected>('06-glm', 'separation');
  test.each(cases)('$id: $description', ({ inputs, expected, tolerance }) => {
    const { model, choice } = glmCase(inputs);
    const ml = fitGlm(model, choice);
    expect(ml.kind).toBe('separated');
    const firth = fitFirthLogistic(model) as FittedModel;
    expectClose(described(firth, model), expected.firth, tolerance);
    const logLik = ml.kind === 'separated' ? ml.logLik : null;
    expectClose({ supremumLogLik: logLik }, { supremumLogLik: expected.supremumLogLik }, tolerance);
  });
});

test('a level that is all one way: its error is never below that of independent bites', () => {
  const line = {
    levels: ['mono', 'braid'],
    values: ['mono', 'braid', 'mono', 'braid', 'mono', 'mono'],
  };
  const design = designMatrix(['line'], { line });
  const model = { design, y: [3, 2, 1, 3, 4, 2], trials: [5, 2, 4, 3, 6, 5] };
  const fit = fitFirthLogistic(model) as FittedModel;
  const covariance = clusterCovariance(fit, [1, 1, 2, 2, 3, 4], 'CR2') as ClusterCovariance;
  const braid = Float64Array.from([1, 1]);
  const spread = contrastSpread(covariance, braid) as Spread;
  const independent = contrastSpread(modelBasedCovariance(fit) as Covariance, braid) as Spread;
  expect(spread.standardError).toBeCloseTo(independent.standardError, 12);
});
