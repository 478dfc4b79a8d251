import { describe, expect, test } from 'vitest';
import { indexFit } from '../../src/decide/index-fit.ts';
import type { IndexModel } from '../../src/estimate/index-model.ts';

/** A model of 1,000 counts by the soak, so many of which lie where 50 are expected. */
function model(beyond: number, counts = 1000): IndexModel {
  return {
    family: 'negative binomial',
    theta: 1.5,
    thetaStandardError: 0.2,
    unit: 'soak',
    aic: 1,
    dispersion: 1,
    poisson: { aic: 1, dispersion: 1 },
    terms: ['month'],
    coefficients: [],
    residuals: Array.from({ length: counts }, (_, at) => (at < beyond ? 2.5 : 0.1)),
  };
}

describe('whether the model behind an index fits', () => {
  test('as many in the tails as a normal law has: it fits as far as this tells', () => {
    expect(indexFit(model(50), 'month')).toEqual({
      beyond: 0.05,
      counts: 1000,
      sentence: 'It fits as far as this tells: 5 of 100 soaks lie where the model expects 5.',
    });
  });

  test('more, or fewer: said, of months as of anything else', () => {
    expect(indexFit(model(90), 'month')?.sentence).toBe(
      'Not in every way: 9 of 100 soaks lie where the model expects 5. Take the standardised months with care.',
    );
    expect(indexFit(model(10), 'bait')?.sentence).toContain('the standardised figures with care');
  });

  test('too few counts tell nothing of 5 in 100', () => {
    expect(indexFit(model(90, 199), 'month')).toBeNull();
  });
});
