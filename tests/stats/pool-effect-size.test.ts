import { describe, expect, test } from 'vitest';
import {
  logitProportion,
  logOddsRatio,
  logRate,
  logRateRatio,
  logRiskRatio,
  riskDifference,
} from '../../src/stats/pool-effect-size.ts';
import { expectClose, loadReference } from '../helpers/reference.ts';

type Sized = ReturnType<typeof logRate>;

/** Effects and variances of studies as two lists. */
const listed = (sizes: readonly Sized[]) => ({
  effects: sizes.map((size) => (size.kind === 'estimated' ? size.effect : null)),
  variances: sizes.map((size) => (size.kind === 'estimated' ? size.variance : null)),
});

describe('reference cases 11-meta (R formulas, metafor escalc)', () => {
  type Tables = { events1: number[]; n1: number[]; events2: number[]; n2: number[] };
  const cases = loadReference<Tables>('11-meta').filter(({ inputs }) => 'events1' in inputs);
  test.each(cases)('$id', ({ inputs, expected, tolerance }) => {
    const { events1, n1, events2, n2 } = inputs;
    const over = (size: typeof logRiskRatio) =>
      listed(
        events1.map((events, i) => {
          const second = { events: events2[i] as number, n: n2[i] as number };
          return size({ events, n: n1[i] as number }, second);
        }),
      );
    const [ratio, odds, difference] = [logRiskRatio, logOddsRatio, riskDifference].map(over);
    const got = {
      logRiskRatio: ratio?.effects,
      varLogRiskRatio: ratio?.variances,
      logOddsRatio: odds?.effects,
      varLogOddsRatio: odds?.variances,
      riskDifference: difference?.effects,
      varRiskDifference: difference?.variances,
    };
    expectClose(got, expected, tolerance);
  });
});

describe('reference cases 24-pooling (metafor escalc)', () => {
  test.each(loadReference<{ events: number[]; n: number[] }>('24-pooling', 'one-group'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const sizes = inputs.events.map((events, i) =>
        logitProportion({ events, n: inputs.n[i] as number }),
      );
      const { effects, variances } = listed(sizes);
      expectClose({ logit: effects, variance: variances }, expected, tolerance);
    },
  );

  test.each(loadReference<{ events: number[]; exposure: number[] }>('24-pooling', 'one-rate'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const sizes = inputs.events.map((events, i) =>
        logRate({ events, exposure: inputs.exposure[i] as number }),
      );
      const { effects, variances } = listed(sizes);
      expectClose({ logRate: effects, variance: variances }, expected, tolerance);
    },
  );

  test.each(loadReference<Record<string, number[]>>('24-pooling', 'two-rates'))(
    '$id',
    ({ inputs, expected, tolerance }) => {
      const at = (name: string, i: number): number => inputs[name]?.[i] as number;
      const sizes = [0, 1, 2, 3].map((i) =>
        logRateRatio(
          { events: at('events1', i), exposure: at('exposure1', i) },
          { events: at('events2', i), exposure: at('exposure2', i) },
        ),
      );
      const { effects, variances } = listed(sizes);
      expectClose({ logRateRatio: effects, variance: variances }, expected, tolerance);
    },
  );
});

test('a group without units or exposure has no effect', () => {
  const some = { events: 2, n: 5 };
  const none = { events: 0, n: 0 };
  for (const size of [logRiskRatio, logOddsRatio, riskDifference]) {
    expect(size(some, none)).toMatchObject({ kind: 'not-estimable' });
    expect(size(none, some)).toMatchObject({ kind: 'not-estimable' });
  }
  expect(logitProportion(none)).toMatchObject({ kind: 'not-estimable' });
  const idle = { events: 0, exposure: 0 };
  expect(logRate(idle)).toMatchObject({ kind: 'not-estimable' });
  expect(logRateRatio({ events: 1, exposure: 2 }, idle)).toMatchObject({ kind: 'not-estimable' });
});
