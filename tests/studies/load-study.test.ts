import { describe, expect, test } from 'vitest';
import { loadStudy, type Way } from './load-study.ts';

// The study of run-load-study.ts in small; its table is load-study.md.

const WORLD = {
  logged: 120,
  ahead: 50,
  habit: 1.6,
  baits: [
    { bait: 'scad', mean: 9, size: 3 },
    { bait: 'mullet', mean: 4, size: 1.5 },
  ],
};
const RUNS = { runs: 12, firstSeed: 71 };

interface Case {
  readonly short: number;
  readonly left: number;
  readonly dearer: readonly Way[];
  /** Ways that come near the list by the luck of their own rule. */
  readonly asCheap: readonly Way[];
}

describe('trips stocked by the list cost less', () => {
  test.each<Case>([
    // The largest use of a well that seldom ran out is near the quantile that these costs ask for.
    { short: 14, left: 2.5, dearer: ['mean', 'last'], asCheap: ['maximum'] },
    { short: 2, left: 8, dearer: ['mean', 'maximum', 'last'], asCheap: [] },
    // At like costs the mean is nearly the best load itself.
    { short: 4, left: 4, dearer: ['maximum', 'last'], asCheap: ['mean'] },
  ])('than by $dearer, at $short too few and $left left over', (given) => {
    const study = loadStudy(WORLD, given, RUNS);
    for (const way of given.dearer) {
      expect(study.dearer[way].mean, way).toBeGreaterThan(2 * study.dearer[way].error);
    }
    for (const way of given.asCheap) {
      expect(study.dearer[way].mean, way).toBeGreaterThan(-2 * study.dearer[way].error);
    }
  });
});
