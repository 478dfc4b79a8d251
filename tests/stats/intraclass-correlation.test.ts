import { describe, expect, test } from 'vitest';
import { intraclassCorrelation } from '../../src/stats/intraclass-correlation.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

type Inputs = { clusterSuccesses: number[]; clusterUnits: number[] };

const paired = (successes: readonly number[], units: readonly number[]) =>
  successes.map((x, i) => ({ successes: x, units: units[i] as number }));

describe('reference cases 08-power (R aov, Smith 1957)', () => {
  test.each(loadReference<Inputs>('08-power', 'icc-'))('$id', (reference) => {
    const { clusterSuccesses, clusterUnits } = reference.inputs;
    const got = intraclassCorrelation(paired(clusterSuccesses, clusterUnits));
    expectClose(got, reference.expected, reference.tolerance);
  });
});

describe('laws', () => {
  test('calling failures successes changes nothing', () => {
    const units = [5, 8, 6, 9, 4, 7];
    const successes = [3, 5, 2, 7, 1, 4];
    const failures = units.map((n, i) => n - (successes[i] as number));
    const [one, other] = [successes, failures].map((x) => intraclassCorrelation(paired(x, units)));
    expect(one).toMatchObject({
      icc: expect.closeTo(other?.kind === 'estimated' ? other.icc : 9, 12),
    });
  });

  test('clusters without units are passed over', () => {
    const counts = paired([1, 4, 2, 0, 3], [4, 4, 4, 4, 4]);
    const empty = { successes: 0, units: 0 };
    expect(intraclassCorrelation([empty, ...counts, empty])).toEqual(intraclassCorrelation(counts));
  });
});

describe('where nothing shows how alike units are', () => {
  test.each([
    ['no cluster', [], [], 'two clusters'],
    ['one cluster', [2], [5], 'two clusters'],
    ['clusters of one', [1, 0, 1], [1, 1, 1], 'two units'],
    ['none succeeded', [0, 0], [4, 6], 'same way'],
    ['all succeeded', [4, 6], [4, 6], 'same way'],
  ])('%s', (_, successes, units, words) => {
    const got = intraclassCorrelation(paired(successes, units));
    expect(got).toEqual({ kind: 'not-estimable', reason: expect.stringContaining(words) });
  });
});
