import { describe, expect, test } from 'vitest';
import { clearance } from '../../src/stats/sequence-clear.ts';

/** Steps on every second trip; a sign says on which side of 0 the interval lies, 0 that it holds 0. */
const steps = (sides: readonly number[]) =>
  sides.map((side, i) => ({ trip: 2 * i, lower: side - 0.5, upper: side + 0.5 }));

describe('first time and for good', () => {
  test.each([
    ['no step', [], null, null],
    ['never clear', [0, 0, 0], null, null],
    ['clear from the start', [1, 1, 1], 0, 0],
    ['clear from the second on', [0, -1, -1], 2, 2],
    ['clear, open, clear again', [0, 1, 0, 1, 1], 2, 6],
    ['clear, then open to the end', [0, 1, 1, 0], 2, null],
    ['clear one way, then the other', [1, 1, -1, -1], 0, 4],
    ['clear at the last look only', [0, 0, 1], 4, 4],
  ])('%s', (_, sides, firstClear, clearSince) => {
    expect(clearance(steps(sides))).toEqual({ firstClear, clearSince });
  });

  test('an interval that ends at 0 holds it', () => {
    const touching = [{ trip: 0, lower: 0, upper: 0.4 }];
    expect(clearance(touching)).toEqual({ firstClear: null, clearSince: null });
  });
});
