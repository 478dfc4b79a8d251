import fc from 'fast-check';

/** A cell of a clean table: text, a number, a clock time (minutes), a date, or not recorded. */
export type CleanCell =
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'clock'; readonly value: number }
  | { readonly kind: 'date'; readonly value: string }
  | { readonly kind: 'empty' };

/** One row by column; `notes` tells rows apart, since their order is shuffled. */
export type CleanRow = Readonly<Record<string, CleanCell>>;

/** The tables of a clean season, under the contract's columns. */
export interface CleanSeason {
  readonly trips: readonly CleanRow[];
  readonly soaks: readonly CleanRow[];
  readonly bites: readonly CleanRow[];
  readonly spools: readonly CleanRow[];
  readonly baitBuys: readonly CleanRow[];
}

const text = (value: string): CleanCell => ({ kind: 'text', value });
const clock = (value: number): CleanCell => ({ kind: 'clock', value });
const oneOf = (...words: string[]) => fc.constantFrom(...words).map(text);
const number = (least: number, most: number, decimals = 0): fc.Arbitrary<CleanCell> =>
  fc
    .integer({ min: least * 10 ** decimals, max: most * 10 ** decimals })
    .map((value) => ({ kind: 'number', value: value / 10 ** decimals }));
const orEmpty = (cell: fc.Arbitrary<CleanCell>): fc.Arbitrary<CleanCell> =>
  fc.oneof(
    { weight: 3, arbitrary: cell },
    { weight: 1, arbitrary: fc.constant({ kind: 'empty' as const }) },
  );
/** Days over 12 only, so that every column decides its own order of day and month. */
const date = fc
  .record({ month: fc.integer({ min: 1, max: 12 }), day: fc.integer({ min: 13, max: 28 }) })
  .map(
    ({ month, day }): CleanCell => ({
      kind: 'date',
      value: `2024-${String(month).padStart(2, '0')}-${day}`,
    }),
  );

const REMARKS = [
  '',
  ', then off',
  '; calm',
  ' said "go"',
  '\nsecond line',
  '\tafter a tab',
  ' | bar',
  ' Île',
];
const notes = (label: string, index: number) =>
  fc.constantFrom(...REMARKS).map((remark) => text(`${label}${index}${remark}`));

const HOOKS = ['7/0', '5/0', '2', '10/0'];
const POSITIONS = ['port-long', 'starboard-short', 'flat-port', 'pitch', 'port-middle'];
const gear = {
  bait: orEmpty(oneOf('mullet', 'goggle-eye', 'squid', 'Île crab')),
  rod: orEmpty(oneOf('R1', 'R2', '3')),
  line_type: orEmpty(oneOf('mono', 'braid')),
  line_class_lb: orEmpty(number(20, 80)),
  hook_size: orEmpty(oneOf(...HOOKS)),
  leader_lb: orEmpty(number(40, 120)),
};

const trip = (index: number) =>
  fc.record({
    trip_id: fc.constant(text(`T${index + 1}`)),
    date,
    lines_in: number(5 * 60 + 1, 8 * 60).map((cell) => clock(minutesOf(cell))),
    lines_out: number(19 * 60, 21 * 60).map((cell) => clock(minutesOf(cell))),
    lines_fished: orEmpty(number(1, 9)),
    vessel: orEmpty(oneOf('Quillandra', 'Sea Wren')),
    area: orEmpty(oneOf('East Drop', 'Île aux Crabes')),
    lat: orEmpty(number(-21, -19, 3)),
    lon: orEmpty(number(56, 58, 3)),
    depth_m: orEmpty(number(10, 90, 1)),
    wind_kn: orEmpty(number(1, 30, 1)),
    wind_from_deg: orEmpty(number(0, 359)),
    water_temp_c: orEmpty(number(22, 29, 1)),
    anglers: orEmpty(number(1, 6)),
    notes: notes('trip', index),
  });

const soak = (index: number, trips: number) =>
  fc.record({
    trip_id: fc.integer({ min: 1, max: trips }).map((n) => text(`T${n}`)),
    position: oneOf(...POSITIONS),
    ...gear,
    time_in: number(8 * 60, 12 * 60).map((cell) => clock(minutesOf(cell))),
    time_out: number(12 * 60, 19 * 60).map((cell) => clock(minutesOf(cell))),
    notes: notes('soak', index),
  });

const bite = (index: number, trips: number) =>
  fc
    .record({
      trip_id: fc.integer({ min: 1, max: trips }).map((n) => text(`T${n}`)),
      outcome: oneOf('missed', 'lost', 'released', 'kept'),
      bite_id: fc.constant(text(`B${index}`)),
      time: orEmpty(number(8 * 60, 19 * 60).map((cell) => clock(minutesOf(cell)))),
      position: orEmpty(oneOf(...POSITIONS)),
      ...gear,
      species: orEmpty(oneOf('sailfish', 'wahoo')),
      fight_min: orEmpty(number(1, 60, 1)),
      weight_kg: orEmpty(number(2, 60, 1)),
      notes: notes('bite', index),
    })
    // A fish that was never hooked is not fought.
    .map((row) =>
      valueIn(row.outcome) === 'missed' ? { ...row, fight_min: { kind: 'empty' as const } } : row,
    );

const spool = (index: number) =>
  fc.record({
    rod: oneOf('R1', 'R2', '3'),
    date,
    line_type: oneOf('mono', 'braid'),
    line_class_lb: orEmpty(number(20, 80)),
    cost: orEmpty(number(5, 90, 2)),
    notes: notes('spool', index),
  });

const baitBuy = (index: number) =>
  fc.record({
    date,
    bait: oneOf('mullet', 'goggle-eye', 'squid'),
    count: number(1, 2000),
    unit_cost: orEmpty(number(0, 5, 2)),
    ran_out: orEmpty(oneOf('yes', 'no')),
    notes: notes('buy', index),
  });

const many = (row: (index: number) => fc.Arbitrary<CleanRow>, least: number, most: number) =>
  fc
    .integer({ min: least, max: most })
    .chain((n) => fc.tuple(...Array.from({ length: n }, (_, index) => row(index))));

/** Any clean season of a few trips: sound cells only, every row with a remark of its own. */
export const cleanSeason: fc.Arbitrary<CleanSeason> = fc
  .integer({ min: 1, max: 4 })
  .chain((trips) =>
    fc.record({
      trips: many(trip, trips, trips),
      soaks: many((index) => soak(index, trips), 0, 5),
      bites: many((index) => bite(index, trips), 0, 8),
      spools: many(spool, 0, 3),
      baitBuys: many(baitBuy, 0, 3),
    }),
  );

function valueIn(cell: CleanCell): string | number {
  return cell.kind === 'empty' ? '' : cell.value;
}

function minutesOf(cell: CleanCell): number {
  return cell.kind === 'number' ? cell.value : 0;
}
