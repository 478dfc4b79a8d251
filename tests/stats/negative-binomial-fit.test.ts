import { describe, expect, test } from 'vitest';
import { designMatrix } from '../../src/stats/design-matrix.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import {
  fitNegativeBinomial,
  type NegativeBinomialModel,
} from '../../src/stats/negative-binomial-fit.ts';
import { Random } from '../../src/stats/random.ts';
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

test('no θ on a wide grid fits better, also where a local search would stop short', () => {
  // Fifteen soaks with a slope of their own; one in several hundred such draws has a peak away from
  // Poisson that cannot be seen from the Poisson means.
  for (let seed = 1; seed <= 60; seed++) {
    const random = new Random(seed);
    const reach = Array.from({ length: 15 }, () => ['short', 'long'][random.integer(2)] as string);
    const x = reach.map(() => random.normal());
    const design = designMatrix(['reach', 'x'], {
      reach: { levels: ['short', 'long'], values: reach },
      x,
    });
    const y = x.map((v) => random.negativeBinomial(Math.exp(0.3 + v), 0.3 + 3 * random.uniform()));
    const fit = fitNegativeBinomial({ design, y });
    if (fit.kind !== 'negative-binomial') continue;
    for (let power = -3; power <= 5; power += 0.5) {
      const fixed = fitGlm({ design, y }, { name: 'negative-binomial', theta: 10 ** power });
      if (fixed.kind !== 'fitted') continue;
      expect(fixed.logLik ?? 0).toBeLessThanOrEqual((fit.model.logLik ?? 0) + 1e-7);
    }
  }
});
