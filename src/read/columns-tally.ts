import type { ColumnSpec } from './column-spec.ts';
import { BITE_COLUMNS } from './columns-bites.ts';
import { OUTCOMES } from './rows.ts';

/** Columns of a bite that a tally cannot hold, because they differ from bite to bite. */
const OF_SINGLE_BITES = new Set([
  'bite_id',
  'time',
  'fight_min',
  'drop_back_s',
  'length_cm',
  'weight_kg',
  'lost_to',
  'hooked_in',
  'release_condition',
]);

/**
 * The columns of `tally.csv`, a sheet of counts per trip. It comes in three forms.
 *
 * Outcomes across: one row for a trip, position and bait, with a count in each of the columns
 * `missed`, `lost`, `released` and `kept`:
 *
 *     trip_id,position,bait,missed,lost,released,kept
 *     T1,starboard-long,mullet,3,1,2,0
 *
 * Baits across: one row for a trip, position and outcome, and every header that is no column of
 * the log is a bait:
 *
 *     trip_id,position,outcome,mullet,squid
 *     T1,starboard-long,missed,3,0
 *
 * One count a row, as in a tallied `bites.csv`: trip, position, bait, outcome and `count`.
 *
 * An empty count is not recorded and stands for no bites of that kind.
 */
export const TALLY_COLUMNS: readonly ColumnSpec[] = [
  ...BITE_COLUMNS.filter((spec) => !OF_SINGLE_BITES.has(spec.name)).map(optionalOutcome),
  ...OUTCOMES.map(
    (name): ColumnSpec => ({
      name,
      kind: 'number',
      whole: true,
      range: [0, 100000],
      also: [`${name}_count`, `no_${name}`, `n_${name}`],
    }),
  ),
];

function optionalOutcome(spec: ColumnSpec): ColumnSpec {
  if (spec.name !== 'outcome') return spec;
  const { required: _, ...optional } = spec;
  return optional;
}
