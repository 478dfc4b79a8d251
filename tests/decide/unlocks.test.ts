import { describe, expect, test } from 'vitest';
import { type Unlock, unlocksOf } from '../../src/decide/unlocks.ts';
import { makeLog } from '../helpers/make-log.ts';

const found = (unlocks: readonly Unlock[], answer: string) =>
  unlocks.find((unlock) => unlock.answer.includes(answer));

const TRIP = { trip_id: 'T1', date: '2026-03-01' };
const FULL_TRIP = { ...TRIP, wind_kn: 9, lat: -12, lon: 54 };
const FULL_SOAK = {
  trip_id: 'T1',
  position: 'port-long',
  rod: 'K1',
  bait: 'scad',
  hook_size: '7/0',
  hours: 3,
};
const FULL_BITE = {
  trip_id: 'T1',
  outcome: 'released',
  time: 430,
  position: 'port-long',
  species: 'sailfish',
  fight_min: 9,
  hooked_in: 'corner',
  release_condition: 'strong',
} as const;
const SPOOL = { rod: 'K1', date: '2026-02-01', line_type: 'mono' };
const BUY = {
  date: '2026-03-01',
  bait: 'scad',
  count: 12,
  unit_cost: 1,
  died: 0,
  ran_out: false,
  trip_id: 'T1',
  source: null,
  notes: null,
  line: 2,
};
const FULL = {
  trips: [FULL_TRIP],
  soaks: [FULL_SOAK],
  bites: [FULL_BITE],
  spools: [SPOOL],
  baitBuys: [BUY],
};

describe('what more a log could tell', () => {
  test('a fully recorded log: nothing', () => {
    expect(unlocksOf(makeLog(FULL))).toEqual([]);
  });

  test('rows that lack a cell are counted among the rows that could have it', () => {
    const missed = { trip_id: 'T1', outcome: 'missed', time: 440, position: 'port-long' } as const;
    const lost = { ...FULL_BITE, outcome: 'lost', species: null, release_condition: null } as const;
    const unlocks = unlocksOf(makeLog({ ...FULL, bites: [FULL_BITE, missed, lost] }));
    // A missed bite has no sure species and no fight, and only a lost fish was lost to something.
    expect(found(unlocks, 'by species')).toMatchObject({ recorded: 1, rows: 2 });
    expect(found(unlocks, 'how fish were lost')).toMatchObject({ recorded: 0, rows: 1 });
    expect(unlocks).toHaveLength(2);
  });

  test('what is missing most comes first', () => {
    const unlocks = unlocksOf(
      makeLog({ ...FULL, trips: [FULL_TRIP, { ...TRIP, trip_id: 'T2', wind_kn: 9 }], spools: [] }),
    );
    expect(unlocks.map(({ recorded, rows }) => `${recorded} of ${rows}`)).toEqual([
      '0 of 1',
      '1 of 2',
    ]);
  });

  test('files that are not there at all are named by file and columns', () => {
    const unlocks = unlocksOf(makeLog({ trips: [FULL_TRIP], bites: [FULL_BITE] }));
    const files = unlocks.map(({ file }) => file);
    for (const file of ['soaks.csv', 'spools.csv', 'bait-buys.csv']) expect(files).toContain(file);
    expect(found(unlocks, 'what bait costs')).toMatchObject({
      columns: ['date', 'bait', 'count'],
      recorded: 0,
      rows: 0,
    });
    expect(found(unlocks, 'wind')).toBeUndefined();
  });

  test('an empty log asks for files, not for cells of rows it has not', () => {
    const unlocks = unlocksOf(makeLog({ trips: [], soaks: [], bites: [] }));
    expect(unlocks.map(({ file }) => file)).toEqual(['spools.csv', 'bait-buys.csv']);
  });
});
