import { describe, expect, test } from 'vitest';
import { noiseFrom, noiseProbability, noiseVariance } from '../../src/share/geometric-noise.ts';
import { noisyCounts } from '../../src/share/noisy-counts.ts';
import { keyedUniforms } from '../../src/share/pseudonym.ts';
import { expectClose, loadCheckValue } from '../helpers/reference.ts';
import { shareTrip } from './share-trips.ts';

const key = Buffer.alloc(32, 5);

describe('two-sided geometric noise', () => {
  test('chances and variance of Ghosh, Roughgarden & Sundararajan 2009', () => {
    const { inputs, expected, tolerance } = loadCheckValue<
      { epsilon: number[]; sensitivity: number },
      { p0: number[]; pmf_eps1_k0_3: number[]; variance: number[] }
    >('geometric-mechanism');
    const { sensitivity } = inputs;
    const levels = inputs.epsilon.map((epsilon) => ({ epsilon, sensitivity }));
    expectClose(
      levels.map((level) => noiseProbability(0, level)),
      expected.p0,
      tolerance,
    );
    expectClose(levels.map(noiseVariance), expected.variance, tolerance);
    const pmf = [0, 1, 2, 3].map((k) => noiseProbability(k, { epsilon: 1, sensitivity }));
    expectClose(pmf, expected.pmf_eps1_k0_3, tolerance);
  });

  test('law: the chances add up to 1, and one trip more moves each by no more than e^ε', () => {
    const level = { epsilon: 0.7, sensitivity: 4 };
    const chances = Array.from({ length: 801 }, (_, at) => noiseProbability(at - 400, level));
    expect(chances.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
    for (let k = -20; k <= 20; k += 1) {
      const ratio = noiseProbability(k, level) / noiseProbability(k - level.sensitivity, level);
      expect(Math.abs(Math.log(ratio))).toBeLessThanOrEqual(level.epsilon + 1e-12);
    }
  });

  test('drawn noise has those chances', () => {
    const level = { epsilon: 1, sensitivity: 1 };
    const draws = 20_000;
    const drawn = Array.from({ length: draws }, (_, at) =>
      noiseFrom(keyedUniforms(key, [String(at)]), level),
    );
    for (let k = -3; k <= 3; k += 1) {
      const p = noiseProbability(k, level);
      const share = drawn.filter((one) => one === k).length / draws;
      // 4 standard errors of a simulated share.
      expect(Math.abs(share - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / draws));
    }
  });
});

describe('counts of a row with noise', () => {
  const trips = Array.from({ length: 5 }, (_, at) =>
    shareTrip({ trip_id: `T${at}`, missed: 30, catches: { SFA: [2, 3, 4], WAH: [1, 0, 0] } }),
  );
  const species = ['SFA', 'WAH', 'YFT'];

  test('the same row carries the same noise; another key or ε other noise; none is below zero', () => {
    const noise = { epsilon: 0.2, clip: 10 };
    const once = noisyCounts(trips, noise, { key, species });
    expect(noisyCounts([...trips].reverse(), noise, { key, species })).toEqual(once);
    const other = noisyCounts(trips, noise, { key: Buffer.alloc(32, 6), species });
    expect(other).not.toEqual(once);
    const all = [once, other].flatMap(({ missed, catches }) => [
      missed,
      ...[...catches.values()].flatMap((fates) => Object.values(fates)),
    ]);
    expect(all.every((count) => Number.isInteger(count) && count >= 0)).toBe(true);
    expect([...once.catches.keys()]).toEqual(species);
  });

  test('a trip adds no more than it is cut to', () => {
    // At ε 20 a bite, noise is nil and only the cut remains: 40 bites a trip cut to 12.
    const { missed, catches } = noisyCounts(
      trips,
      { epsilon: 20 * 12, clip: 12 },
      { key, species },
    );
    const fish = [...catches.values()].flatMap((fates) => Object.values(fates));
    expect(missed + fish.reduce((sum, count) => sum + count, 0)).toBe(5 * 12);
  });
});
