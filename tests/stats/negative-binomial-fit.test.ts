import { describe, expect, test } from 'vitest';
import {
  fitNegativeBinomial,
  type NegativeBinomialModel,
} from '../../src/stats/negative-binomial-fit.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { described, type GlmInputs, glmCase } from './glm-cases.ts';

type Expected = Record<string, Json>;

describe('NB2 models against R MASS::glm.nb, polished', () => {
  const cases = loadReference<GlmInputs, Expected>('06-glm').filter(
    ({ inputs, expected }) => inputs.family.startsWith('negative') && expected.theta !== undefined,
  );
  test.each(cases)('$id: $description', ({ inputs, expected, tolerance }) => {
    const { model } = glmCase(inputs);
    const fit = fitNegativeBinomial(model) as NegativeBinomialModel;
    expect(fit.kind).toBe('negative-binomial');
    const got = {
      ...described(fit.model, model),
      theta: fit.theta,
      seTheta: fit.thetaStandardError,
      twiceLogLik: 2 * (fit.model.logLik ?? Number.NaN),
    };
    expectClose(got, expected, tolerance);
  });

  test('counts that vary less than chance: the Poisson model, and θ infinite', () => {
    const [entry] = loadReference<GlmInputs, Expected>('06-glm', 'nb-underdispersed');
    const { inputs, expected, tolerance } = entry as NonNullable<typeof entry>;
    const { model } = glmCase(inputs);
    const fit = fitNegativeBinomial(model) as NegativeBinomialModel;
    const got = {
      thetaInfinite: fit.theta === Number.POSITIVE_INFINITY,
      scoreForInverseThetaAtZero: fit.scoreAtPoisson,
      poisson: described(fit.poisson, model),
    };
    expectClose(got, expected, tolerance);
    expect(fit.thetaStandardError).toBeNull();
    expect(fit.model).toBe(fit.poisson);
  });
});
