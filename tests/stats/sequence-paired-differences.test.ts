import { describe, expect, test } from 'vitest';
import { Random } from '../../src/stats/random.ts';
import {
  type PairedSequence,
  type PairedTrip,
  type SequenceStep,
  sequenceOfPairedDifferences,
} from '../../src/stats/sequence-paired-differences.ts';
import { NO_SEQUENCE_OF_PAIRED_RATES } from '../../src/stats/sequence-paired-rates.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

function sequence(trips: readonly PairedTrip[], level = 0.95): PairedSequence {
  const found = sequenceOfPairedDifferences(trips, { level });
  if (found.kind === 'not-estimable') throw new Error(found.reason);
  return found;
}

const trip = (successesA: number, unitsA: number, successesB: number, unitsB: number) => ({
  successesA,
  unitsA,
  successesB,
  unitsB,
});

describe('reference cases 24-sequence (R products and uniroot)', () => {
  type Inputs = Record<keyof PairedTrip, number[]> & { level: number };
  test.each(loadReference<Inputs>('24-sequence'))('$id', (reference) => {
    const { successesA, unitsA, successesB, unitsB, level } = reference.inputs;
    const trips = [unitsA].flat().map((n, i) => {
      const at = (values: number[]): number => [values].flat()[i] as number;
      return trip(at(successesA), n, at(successesB), at(unitsB));
    });
    const { steps, firstClear, clearSince } = sequence(trips, level);
    const list = (name: keyof SequenceStep): number[] => steps.map((step) => step[name]);
    const got = {
      trip: list('trip'),
      estimate: list('estimate'),
      mantelHaenszel: list('mantelHaenszel'),
      lower: list('lower'),
      upper: list('upper'),
      firstClear,
      clearSince,
    };
    expectClose(got, reference.expected, reference.tolerance);
  });
});

/** A season whose days swing, with few or many bites, and A better by `gap` on the log odds. */
function season(random: Random, { trips, gap }: { trips: number; gap: number }): PairedTrip[] {
  const expit = (x: number): number => 1 / (1 + Math.exp(-x));
  return Array.from({ length: trips }, () => {
    const crowd = Math.exp(0.7 * random.normal());
    const day = 0.4 + random.normal();
    const [pA, pB] = [gap / 2, -gap / 2].map((side) => expit(day + side + 0.7 * random.normal()));
    const [nA, nB] = [1 + random.poisson(5 * crowd), 1 + random.poisson(2 * crowd)];
    return trip(random.binomial(nA, pA as number), nA, random.binomial(nB, pB as number), nB);
  });
}

describe('simulated seasons, seed 20', () => {
  const random = new Random(20);
  const alike = Array.from({ length: 250 }, () => sequence(season(random, { trips: 50, gap: 0 })));

  test('with no difference, 0 stays inside at all fifty looks in 95 % of seasons or more', () => {
    const wrong = alike.filter(({ firstClear }) => firstClear !== null).length;
    // Four standard errors of 250 seasons above 5 %.
    expect(wrong / 250).toBeLessThan(0.05 + 4 * Math.sqrt((0.05 * 0.95) / 250));
  });

  test('it is not hopelessly wide: under 36 points after fifty trips', () => {
    const widths = alike.map(({ steps }) => {
      const { lower, upper } = steps.at(-1) as SequenceStep;
      return upper - lower;
    });
    expect(widths.reduce((sum, width) => sum + width, 0) / 250).toBeLessThan(0.36);
  });

  test('a difference of 25 points is clear within a hundred trips, and stays so', () => {
    const apart = Array.from({ length: 25 }, () =>
      sequence(season(random, { trips: 100, gap: 1.5 })),
    );
    const settled = apart.filter(({ clearSince }) => clearSince !== null).length;
    expect(settled).toBeGreaterThan(22);
  });
});

describe('laws', () => {
  const random = new Random(7);
  const trips = season(random, { trips: 40, gap: 0.8 });
  const { steps } = sequence(trips);
  const last = steps.at(-1) as SequenceStep;

  test('the estimate lies between the limits at every look, and the limits between −1 and 1', () => {
    for (const { lower, estimate, upper } of steps) {
      expect(lower).toBeGreaterThanOrEqual(-1);
      expect(estimate).toBeGreaterThan(lower);
      expect(upper).toBeGreaterThan(estimate);
      expect(upper).toBeLessThanOrEqual(1);
    }
  });

  test('naming A and B the other way round turns the signs', () => {
    const turned = sequence(
      trips.map((t) => trip(t.successesB, t.unitsB, t.successesA, t.unitsA)),
    ).steps.at(-1) as SequenceStep;
    expect(turned.lower).toBeCloseTo(-last.upper, 8);
    expect(turned.estimate).toBeCloseTo(-last.estimate, 12);
  });

  test('at the end the order of the trips does not matter', () => {
    const backwards = sequence(trips.toReversed()).steps.at(-1) as SequenceStep;
    expect(backwards.lower).toBeCloseTo(last.lower, 7);
    expect(backwards.upper).toBeCloseTo(last.upper, 7);
  });

  test('a step never changes once it has been read: later trips are not looked at', () => {
    expect(sequence(trips.slice(0, 15)).steps).toEqual(steps.slice(0, 15));
  });

  test('99 % contains 95 % contains 90 %', () => {
    const [wide, middle, narrow] = [0.99, 0.95, 0.9].map((level) => sequence(trips, level).steps);
    middle?.forEach(({ lower, upper }, i) => {
      expect(wide?.[i]?.lower).toBeLessThanOrEqual(lower);
      expect(narrow?.[i]?.upper).toBeLessThanOrEqual(upper);
    });
  });

  test('one trip with a thousand bites outweighs no other trip beyond the ceiling', () => {
    const small = Array.from({ length: 20 }, () => trip(3, 4, 2, 4));
    const with1000 = sequence([...small, trip(200, 500, 400, 500)]).steps.at(-1) as SequenceStep;
    expect(with1000.estimate).toBeCloseTo((20 * 0.25 - 0.4) / 21, 9);
    expect(with1000.mantelHaenszel).toBeLessThan(-0.2);
  });
});

describe('at the edges', () => {
  test('no trip fished both', () => {
    for (const trips of [[], [trip(2, 3, 0, 0)], [trip(0, 0, 1, 4), trip(1, 1, 0, 0)]])
      expect(sequenceOfPairedDifferences(trips, { level: 0.95 })).toEqual({
        kind: 'not-estimable',
        reason: expect.stringContaining('No trip fished both'),
      });
  });

  test.each([
    ['every trip the same difference', trip(3, 4, 1, 4), 0.5],
    ['no difference ever', trip(2, 4, 2, 4), 0],
    ['all with A, none with B', trip(4, 4, 0, 4), 1],
    ['none with either', trip(0, 4, 0, 4), 0],
  ])('%s: an interval that shrinks, never one of no width', (_, same, difference) => {
    const { steps, clearSince } = sequence(Array.from({ length: 30 }, () => same));
    const [early, late] = [steps[9], steps[29]] as [SequenceStep, SequenceStep];
    expect(late.estimate).toBeCloseTo(difference, 12);
    expect(late.upper - late.lower).toBeLessThan(early.upper - early.lower);
    expect(late.upper - late.lower).toBeGreaterThan(0.1);
    expect(clearSince === null).toBe(difference === 0);
  });

  test('a thousand trips neither overflow nor give what is no number', () => {
    const long = Array.from({ length: 1000 }, (_, i) => trip(i % 999 === 0 ? 0 : 4, 4, 0, 4));
    const { steps } = sequence(long.slice(0, 400).concat(long.slice(996)));
    for (const { lower, upper } of steps) expect(upper - lower).toBeGreaterThan(0);
  });

  test('successes that are no share of their units are a mistake of the caller', () => {
    for (const wrong of [trip(3, 2, 1, 4), trip(-1, 2, 1, 4), trip(1, 2, Number.NaN, 4)])
      expect(() => sequenceOfPairedDifferences([wrong], { level: 0.95 })).toThrow('successes');
  });

  test('rates within trips: a refusal with its reason', () => {
    expect(NO_SEQUENCE_OF_PAIRED_RATES).toEqual({
      kind: 'not-estimable',
      reason: expect.stringContaining('no ceiling'),
    });
  });
});
