import { type ColumnSpec, GEAR, NOTES, TRIP_ID } from './column-spec.ts';

const { required: _, ...OPTIONAL_TRIP_ID } = TRIP_ID;

const DATE: ColumnSpec = { name: 'date', kind: 'date', required: true };
const MONEY = { kind: 'number', range: [0, 1_000_000_000] } as const;
const COUNT = { kind: 'number', whole: true, range: [0, 1_000_000] } as const;

/** The columns of `spools.csv`. */
export const SPOOL_COLUMNS: readonly ColumnSpec[] = [
  ...gear('rod').map((spec) => ({ ...spec, required: true as const })),
  {
    ...DATE,
    also: [
      'day',
      'spool_date',
      'spooled_on',
      'date_spooled',
      'filled_on',
      'respooled',
      'spooled',
      'date_filled',
      'changed',
    ],
  },
  ...gear('line_type').map((spec) => ({
    ...spec,
    required: true as const,
    also: [...(spec.also ?? []), 'type', 'material'],
  })),
  ...gear('line_class_lb').map((spec) => ({
    ...spec,
    also: [...(spec.also ?? []), 'lb', 'lbs', 'pounds'],
  })),
  { name: 'cost', ...MONEY, also: ['price', 'amount', 'spool_cost', 'total_cost', 'paid'] },
  { name: 'reason', kind: 'word', also: ['why', 'reason_for_change', 'cause'] },
  NOTES,
];

/** The columns of `bait-buys.csv`. */
export const BAIT_BUY_COLUMNS: readonly ColumnSpec[] = [
  { ...DATE, also: ['day', 'buy_date', 'purchase_date', 'bought_on', 'date_bought'] },
  ...gear('bait').map((spec) => ({ ...spec, required: true as const })),
  {
    name: 'count',
    required: true,
    ...COUNT,
    also: ['qty', 'quantity', 'bought', 'how_many', 'no', 'no_of_baits', 'number_bought', 'pieces'],
  },
  {
    name: 'unit_cost',
    ...MONEY,
    also: ['cost_each', 'price_each', 'unit_price', 'each', 'cost_per_bait', 'price_per_bait'],
  },
  { name: 'died', ...COUNT, also: ['dead', 'deaths', 'losses', 'no_died', 'died_off', 'die_off'] },
  { name: 'ran_out', kind: 'yes-no', also: ['out_of_bait', 'well_empty', 'sold_out', 'emptied'] },
  OPTIONAL_TRIP_ID,
  { name: 'source', kind: 'word', also: ['supplier', 'bought_from', 'from', 'seller', 'where'] },
  NOTES,
];

function gear(name: string): readonly ColumnSpec[] {
  return GEAR.filter((spec) => spec.name === name);
}
