import { describe, test } from 'vitest';
import { normalCritical } from '../../src/stats/interval-level.ts';
import {
  agrestiCoull,
  agrestiCoullLimits,
} from '../../src/stats/interval-proportion-agresti-coull.ts';
import { clopperPearson } from '../../src/stats/interval-proportion-clopper-pearson.ts';
import { jeffreys, jeffreysLimits } from '../../src/stats/interval-proportion-jeffreys.ts';
import { wilson, wilsonContinuity } from '../../src/stats/interval-proportion-wilson.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

interface Counts {
  x: number;
  n: number;
  level: number;
}

describe('reference cases 01-proportions (R stats, second route Hmisc)', () => {
  test.each(loadReference<Counts>('01-proportions'))('$id', ({ inputs, expected, tolerance }) => {
    const { x, n, level } = inputs;
    const cut = agrestiCoull(x, n, { level });
    const got = {
      estimate: x / n,
      z: normalCritical(level),
      wilson: wilson(x, n, { level }),
      wilsonContinuity: wilsonContinuity(x, n, { level }),
      clopperPearson: clopperPearson(x, n, { level }),
      jeffreys: jeffreysLimits(x, n, level),
      jeffreysBoundaryModified: jeffreys(x, n, { level }),
      agrestiCoull: {
        ...agrestiCoullLimits(x, n, level),
        lowerTruncated: cut.kind === 'estimated' ? cut.lower : null,
        upperTruncated: cut.kind === 'estimated' ? cut.upper : null,
      },
    };
    expectClose(got, expected, tolerance);
  });
});
