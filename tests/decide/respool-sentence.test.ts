import { describe, expect, test } from 'vitest';
import { estimated } from '../../src/base/estimate.ts';
import { wearSentence } from '../../src/decide/respool-sentence.ts';
import type { WearLaw } from '../../src/estimate/wear-power-law.ts';

const BASIS = { level: 0.95, method: 'test', n: 30, exposure: null, notes: [] };
const powerLaw = (theta: number) => ({ shape: 2, theta, lambda: theta ** -2 });

/** (age/θ)² breaks by an age; in the a-th fight (2a − 1)/θ² of them. */
function law(thetas: readonly number[], draws = thetas.length): WearLaw {
  return {
    kind: 'fitted',
    ...powerLaw(50),
    beta: estimated({ ...BASIS, estimate: 2, lower: 1.4, upper: 2.7 }),
    drawn: thetas.map(powerLaw),
    draws,
    stretches: [],
    oldestFights: 60,
  };
}

describe('how breaks grow with age', () => {
  test('each figure with what resampled trips leave open', () => {
    // 9/50² = 0.36 % in the 5th fight (9/60² to 9/40²), 49/50² = 1.96 % in the 25th.
    expect(wearSentence('mono', law([60, 50, 40]))).toBe(
      'Mono breaks more often as it ages: of 100 fish fought on line in its 5th fight about ' +
        '0.36 (0.25–0.56) are broken off, in its 25th about 2.0 (1.4–3.1).',
    );
  });

  test('without enough drawn seasons for an interval it is called a guess', () => {
    expect(wearSentence('mono', law([50], 1000))).toBe(
      'Mono breaks more often as it ages: of 100 fish fought on line in its 5th fight about 0.4 are ' +
        'broken off, in its 25th about 2.0, the best guess from too few breaks for an interval.',
    );
  });

  test('line that was never old has no figures', () => {
    expect(wearSentence('mono', { ...law([50]), oldestFights: 4 })).toBe(
      'Mono breaks more often as it ages.',
    );
  });
});
