import type { BiteRow } from './rows.ts';
import type { TableColumns } from './table-columns.ts';
import type { TripIndex } from './trip-index.ts';
import { HOOKED_IN_WORDS, LOST_TO_WORDS, RELEASE_CONDITION_WORDS } from './words-bite.ts';
import { OUTCOME_WORDS } from './words-outcome.ts';

/** Binds the columns of `bites.csv`; the result reads the row at hand. */
export function biteReader(columns: TableColumns, trips: TripIndex): () => BiteRow {
  const { cells } = columns;
  const count = columns.number('count');
  const read = {
    trip_id: cells.required('trip_id', trips.reader('bite'), ''),
    outcome: columns.requiredChoice('outcome', OUTCOME_WORDS, 'missed'),
    count: () => count() ?? 1,
    bite_id: columns.id('bite_id'),
    time: columns.clock('time'),
    position: columns.position('position'),
    bait: columns.listed('bait'),
    rod: columns.word('rod'),
    line_type: columns.listed('line_type'),
    line_class_lb: columns.number('line_class_lb'),
    hook_size: columns.hookSize('hook_size'),
    leader_lb: columns.number('leader_lb'),
    species: columns.listed('species'),
    lost_to: columns.choice('lost_to', LOST_TO_WORDS),
    fight_min: columns.number('fight_min'),
    drop_back_s: columns.number('drop_back_s'),
    hooked_in: columns.choice('hooked_in', HOOKED_IN_WORDS),
    release_condition: columns.choice('release_condition', RELEASE_CONDITION_WORDS),
    length_cm: columns.number('length_cm'),
    weight_kg: columns.number('weight_kg'),
    angler: columns.word('angler'),
    notes: columns.notes(),
  };
  return () => ({
    line: cells.line,
    trip_id: read.trip_id(),
    outcome: read.outcome(),
    count: read.count(),
    bite_id: read.bite_id(),
    time: read.time(),
    position: read.position(),
    bait: read.bait(),
    rod: read.rod(),
    line_type: read.line_type(),
    line_class_lb: read.line_class_lb(),
    hook_size: read.hook_size(),
    leader_lb: read.leader_lb(),
    species: read.species(),
    lost_to: read.lost_to(),
    fight_min: read.fight_min(),
    drop_back_s: read.drop_back_s(),
    hooked_in: read.hooked_in(),
    release_condition: read.release_condition(),
    length_cm: read.length_cm(),
    weight_kg: read.weight_kg(),
    angler: read.angler(),
    notes: read.notes(),
  });
}
