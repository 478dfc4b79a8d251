import fc from 'fast-check';
import { expect, test } from 'vitest';
import { roundTicks } from '../../src/draw/ticks.ts';

test.each([
  [[0, 100], 5, [0, 20, 40, 60, 80, 100], 0],
  [[0, 0.37], 4, [0, 0.1, 0.2, 0.3, 0.4], 1],
  [[-12, 18], 3, [-20, -10, 0, 10, 20], 0],
  [[0, 0], 4, [-0.5, 0, 0.5], 1],
  [[3, 2600], 3, [0, 1000, 2000, 3000], 0],
] as const)('%j in about %i steps', (range, most, values, decimals) => {
  expect(roundTicks(range, most)).toEqual({
    values,
    decimals,
    domain: [values[0], values.at(-1)],
  });
});

test('ticks cover the range, are evenly apart and not too many', () => {
  const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(
      value,
      fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
      fc.integer({ min: 1, max: 12 }),
      (low, length, most) => {
        const { domain, values } = roundTicks([low, low + length], most);
        const step = (domain[1] - domain[0]) / (values.length - 1);
        expect(domain[0]).toBeLessThanOrEqual(low + step * 1e-6);
        expect(domain[1]).toBeGreaterThanOrEqual(low + length - step * 1e-6);
        expect(values.length).toBeLessThanOrEqual(most + 2);
      },
    ),
  );
});
