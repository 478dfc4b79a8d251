import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Life } from '../../src/stats/kaplan-meier-lives.ts';
import { logRank } from '../../src/stats/log-rank.ts';
import { expectClose, loadCheckValue, loadData, loadReference } from '../helpers/reference.ts';
import { livesFrom, type SurvivalInputs } from '../helpers/survival-inputs.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

const CONTROL = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23];

/** The group of each life: given in full, else the column of survival::lung that the id names. */
function groupsOf(id: string, { group }: SurvivalInputs): readonly string[] {
  if (group !== undefined) return group;
  const data = loadData('lung');
  return (id.endsWith('ecog') ? data['ph.ecog'] : data.sex) ?? [];
}

describe('reference cases 09-survival (own R formulas; second route R survival::survdiff)', () => {
  test.each(loadReference<SurvivalInputs>('09-survival', 'logrank-'))(
    '$id',
    ({ id, inputs, expected, tolerance }) => {
      const labels = groupsOf(id, inputs);
      const groups = [...new Set(labels)].filter((label) => label !== '').sort();
      const lives = livesFrom(inputs);
      const split = groups.map((label) => lives.filter((_, i) => labels[i] === label));
      const n = split.map((members) => members.length);
      expectClose({ ...logRank(split), groups, n }, expected, tolerance);
    },
  );
});

test('logrank-6mp: 6-MP against placebo, Freireich et al. 1963 (16.79 is the usual textbook value)', () => {
  const treated = livesFrom(loadCheckValue<SurvivalInputs>('km-6mp').inputs);
  const control = CONTROL.map((time) => ({ time, event: true }));
  const { expected, tolerance } = loadCheckValue('logrank-6mp');
  const got = logRank([treated, control]);
  if (got.kind !== 'tested') throw new Error(got.reason);
  expectClose({ ...got, chi2: got.chiSquare }, expected, tolerance);
});

const someLives = fc.array(
  fc.record({ time: fc.integer({ min: 1, max: 15 }), event: fc.boolean() }),
  { minLength: 2, maxLength: 20 },
);

describe('laws', () => {
  test('observed and expected have one sum, and the order of groups and lives does not matter', () => {
    fc.assert(
      fc.property(someLives, someLives, someLives, (a, b, c) => {
        const got = logRank([a, b, c]);
        if (got.kind !== 'tested') return;
        const total = (counts: readonly number[]) => counts.reduce((sum, count) => sum + count, 0);
        expect(total(got.expected)).toBeCloseTo(total(got.observed), 9);
        const turned = logRank([[...c].reverse(), a, b]);
        expect(turned.kind === 'tested' && turned.chiSquare).toBeCloseTo(got.chiSquare, 7);
      }),
    );
  });

  test('any stretching of time that keeps the order leaves the test as it is', () => {
    fc.assert(
      fc.property(someLives, someLives, (a, b) => {
        const stretched = [a, b].map((lives) =>
          lives.map(({ time, event }) => ({ time: time ** 3, event })),
        );
        expect(logRank(stretched)).toEqual(logRank([a, b]));
      }),
    );
  });

  test('a group set against its own double shows no difference', () => {
    fc.assert(
      fc.property(someLives, (lives) => {
        const got = logRank([lives, lives]);
        if (got.kind === 'tested') expect(got.chiSquare).toBeCloseTo(0, 12);
      }),
    );
  });
});

describe('what cannot be said', () => {
  const censored: Life[] = [3, 5].map((time) => ({ time, event: false }));
  const ended: Life[] = [6, 7].map((time) => ({ time, event: true }));

  test('no events, a single group, no group', () => {
    expect(logRank([censored, censored])).toMatchObject({
      reason: 'Nothing happened in any group.',
    });
    expect(logRank([ended]).kind).toBe('not-estimable');
    expect(logRank([]).kind).toBe('not-estimable');
  });

  test('groups that were never under watch together, and groups that ended all at once', () => {
    const reason =
      'Whenever something happened, only one group was left or everything ended at once.';
    expect(logRank([censored, ended])).toMatchObject({ reason });
    const atOnce = [{ time: 4, event: true }];
    expect(logRank([atOnce, atOnce])).toMatchObject({ reason });
  });

  test('an empty group is left out of the degrees of freedom', () => {
    const got = logRank([ended, [{ time: 9, event: true }], []]);
    expect(got).toMatchObject({ kind: 'tested', df: 1 });
  });
});
