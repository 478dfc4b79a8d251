import { describe, expect, test } from 'vitest';
import { fitFirthLogistic } from '../../src/stats/firth-logistic.ts';
import { fitGlm } from '../../src/stats/glm-fit.ts';
import type { FittedModel } from '../../src/stats/glm-model.ts';
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
