import { describe, expect, test } from 'vitest';
import type { CompareRequest } from '../../src/estimate/compare-levels.ts';
import { differencesWithin, differenceWithin } from '../../src/estimate/difference-within.ts';
import { lensAdjusted } from '../../src/estimate/lens-adjusted.ts';
import { judgeTogether, levelsTogether } from '../../src/estimate/levels-together.ts';
import type { FactorName } from '../../src/tally/factors.ts';
import { WHOLE_LOG } from '../../src/tally/question.ts';
import type { TallyRow } from '../../src/tally/tallies.ts';
import { expectClose, type Json, loadReference } from '../helpers/reference.ts';
import { makeTally } from './make-tallies.ts';
import { type SoakColumns, seasonOfColumns } from './season-of-columns.ts';

interface Inputs {
  readonly formula: string;
  readonly data: SoakColumns;
  readonly factor: string;
  readonly levels: readonly string[];
}

/** Factors of the log by the names they have in R. */
const FACTORS: Readonly<Record<string, FactorName>> = {
  line: 'line_type',
  reach: 'reach',
  bait: 'bait',
  month: 'month',
};

function requestOf({ formula, factor }: Inputs): CompareRequest {
  const names = (formula.split('~')[1] ?? '').split('+').map((name) => name.trim());
  const adjust = names.flatMap((name) => (name === factor ? [] : (FACTORS[name] ?? [])));
  return { ...WHOLE_LOG, adjust, level: 0.95 };
}

const measureOf = (id: string) => (id.startsWith('rate') ? 'bites_per_line_hour' : 'hookup_rate');

describe('from the rows of a log, against R (29-several-levels.R)', () => {
  const cases = loadReference<Inputs, Record<string, Json>>('29-several-levels');

  test.each(cases.filter(({ expected }) => 'pairs' in expected))(
    'all levels together, $id: $description',
    ({ id, inputs, expected, tolerance }) => {
      const { levels, data } = inputs;
      const compared = {
        factor: FACTORS[inputs.factor] as FactorName,
        levels,
        measure: measureOf(id),
      } as const;
      const judged = levelsTogether(seasonOfColumns(data), compared, requestOf(inputs));
      expect(judged.thin).toEqual([]);
      expectClose(judged, expected, tolerance);
    },
  );

  test.each(cases.filter(({ expected }) => 'rows' in expected))(
    'within each reach, $id: $description',
    ({ id, inputs, expected, tolerance }) => {
      const [b = '', a = ''] = inputs.levels;
      const contrast = {
        factor: FACTORS[inputs.factor] as FactorName,
        levels: [a, b],
        measure: measureOf(id),
      } as const;
      const tables = differencesWithin(seasonOfColumns(inputs.data), contrast, requestOf(inputs));
      const [table, ...others] = tables;
      expect(others).toEqual([]);
      expectClose(table, expected, tolerance);
    },
  );
});

const HOOKUPS = { factor: 'bait', measure: 'hookup_rate' } as const;

/** Twelve trips, each with bites on every bait of its month; hooked by a fixed pattern. */
function tallies(
  baits: readonly string[],
  fished: (bait: string, month: string) => boolean = () => true,
): TallyRow[] {
  return Array.from({ length: 12 }, (_, at) => at).flatMap((at) => {
    const month = at < 6 ? '2031-04' : '2031-05';
    return baits
      .filter((bait) => fished(bait, month))
      .map((bait, place) => {
        const hooked = bait === 'all' ? 6 : 1 + ((at + 2 * place) % 5);
        return makeTally({ trip_id: `T${at}`, bait, month, bites: 6, hooked });
      });
  });
}

const judge = (rows: readonly TallyRow[], levels: readonly string[]) =>
  judgeTogether(rows, { ...HOOKUPS, levels }, { adjust: ['month'], level: 0.95 });

describe('all levels together, where some cannot be judged', () => {
  test('a level on too little is left out and named', () => {
    const few = makeTally({ trip_id: 'T1', bait: 'eel', month: '2031-04', bites: 3, hooked: 1 });
    const { thin, levels, pairs } = judge(
      [...tallies(['scad', 'mullet']), few],
      ['scad', 'eel', 'mullet'],
    );
    expect(thin).toEqual([{ level: 'eel', bites: 3, trips: 1 }]);
    expect(levels).toEqual(['scad', 'mullet']);
    expect(pairs.map((pair) => pair.levels)).toEqual([['mullet', 'scad']]);
  });

  test('of two levels the pair is the adjusted lens of the two', () => {
    const rows = tallies(['scad', 'mullet']);
    const [pair] = judge(rows, ['scad', 'mullet']).pairs;
    const contrast = { ...HOOKUPS, levels: ['mullet', 'scad'] } as const;
    const lens = lensAdjusted(rows, contrast, { level: 0.95, adjust: ['month'] });
    expect(pair?.difference).toMatchObject({ ...lens.difference });
    expect(pair?.together).toMatchObject({ level: 0.95, kind: 'estimated' });
    expect(pair?.pHolm).toBe(pair?.p);
  });

  test('a pair that never met in one month is tied and does not count among the looks', () => {
    const rows = tallies(
      ['scad', 'mullet', 'eel'],
      (bait, month) => bait === 'scad' || (bait === 'mullet') === (month === '2031-04'),
    );
    const { pairs, refused } = judge(rows, ['scad', 'mullet', 'eel']);
    expect(refused).toBeNull();
    const tied = pairs.find(({ levels }) => levels.join() === 'eel,mullet');
    expect(tied?.difference).toMatchObject({
      kind: 'not-estimable',
      reason:
        'What was fished with eel and with mullet was never fished in the same month: the bait and the month are tied together.',
    });
    expect(tied?.pHolm).toBeNull();
    const others = pairs.filter((pair) => pair !== tied);
    expect(others.map(({ together }) => together.level)).toEqual([0.975, 0.975]);
  });

  test('levels of which no two ever met are refused together', () => {
    const months = ['2031-04', '2031-05', '2031-06'];
    const rows = ['scad', 'mullet', 'eel'].flatMap((bait, of) =>
      tallies([bait]).map((row, at) => ({
        ...row,
        trip_id: `T${of} ${at}`,
        month: months[of] ?? '',
      })),
    );
    const { refused, pairs, test: joint } = judge(rows, ['scad', 'mullet', 'eel']);
    expect(refused).toBe(
      'What was fished with scad, with mullet and with eel was never fished in the same month: the bait and the month are tied together.',
    );
    expect(pairs).toEqual([]);
    expect(joint.kind).toBe('not-estimable');
  });

  test('more than twelve levels are refused with the way on', () => {
    const baits = Array.from({ length: 13 }, (_, at) => `bait ${at}`);
    expect(judge(tallies(baits), baits).refused).toMatch(/13 levels .* name up to 12/);
  });

  test('a level on which all were hooked: figures by the penalised fit, no joint test', () => {
    const judged = judge(tallies(['scad', 'mullet', 'all']), ['scad', 'mullet', 'all']);
    expect(judged.notes).toHaveLength(1);
    expect(judged.test).toMatchObject({ kind: 'not-estimable' });
    expect(judged.pairs.map(({ difference }) => difference.kind)).toEqual(
      new Array(3).fill('estimated'),
    );
  });

  test('an empty log', () => {
    expect(judge([], ['scad', 'mullet', 'eel']).refused).toBe(
      'Fewer than two of them rest on 10 bites over 5 trips.',
    );
  });
});

describe('within the levels of something else, where some cannot be judged', () => {
  const contrast = { ...HOOKUPS, levels: ['mullet', 'scad'] } as const;
  const within = (rows: readonly TallyRow[], levels: readonly string[]) =>
    differenceWithin(rows, contrast, { by: 'month', levels, adjust: ['month'], level: 0.95 });

  test('a level with too little of one of the two says so and stays out of the model', () => {
    const rows = tallies(['scad', 'mullet']);
    const june = makeTally({ trip_id: 'T1', bait: 'scad', month: '2031-06', bites: 9, hooked: 4 });
    const { rows: shown, refused } = within([...rows, june], ['2031-04', '2031-05', '2031-06']);
    expect(refused).toBeNull();
    expect(shown.map(({ difference }) => difference.kind)).toEqual([
      'estimated',
      'estimated',
      'not-estimable',
    ]);
    expect(shown[2]?.difference).toMatchObject({
      reason: 'One of the two rests on fewer than 10 bites or 5 trips there.',
    });
  });

  test('with one level only nothing can be set against anything', () => {
    const rows = tallies(['scad', 'mullet']).filter((row) => row.month === '2031-04');
    const { refused, test: joint } = within(rows, ['2031-04']);
    expect(refused).toBe('It takes two levels where both rest on 10 bites over 5 trips.');
    expect(joint.kind).toBe('not-estimable');
  });

  test('a level that nobody fished is not listed', () => {
    const rows = tallies(['scad', 'mullet']);
    expect(within(rows, ['2031-04', '2031-05', '2031-09']).rows).toHaveLength(2);
  });
});
