import { groupBy } from '../base/group-by.ts';
import type { EpochMinute } from '../base/zone.ts';
import type { BiteRow } from '../read/rows.ts';
import type { Reach, Side } from '../settings/settings.ts';
import { FILLED_CELLS, type FilledCell } from './filled-cells.ts';
import { instantsOnTrip } from './place-in-trip.ts';
import type { JoinContext, PlacedSoak, Provenance } from './place-soaks.ts';
import type { LineAge } from './spool-history.ts';
import { type Light, lightAt } from './sunlight.ts';
import type { TidyTrip } from './tidy-trips.ts';
import { disagreement, JoinWarnings } from './tidy-warnings.ts';

/** A bite placed in real time, joined to its soak, with its empty cells filled where known. */
export interface JoinedBite extends BiteRow {
  readonly trip: TidyTrip;
  readonly instant: EpochMinute | null;
  /** Index of the soak it came on, among the season's soaks; null where it meets none. */
  readonly soak: number | null;
  readonly side: Side | null;
  readonly reach: Reach | null;
  /** Of its soak: bites.csv has no such column. */
  readonly hook_model: string | null;
  /** Where each filled cell came from; null where it is not recorded. */
  readonly from: Readonly<Record<FilledCell, Provenance | null>>;
  /** Hour of the boat's clock, 0 to 23. */
  readonly hourOfDay: number | null;
  readonly light: Light | null;
  /** Filled in once all bites are joined; in place, or a long log would need twice the memory. */
  lineAge: LineAge | null;
}

/** Bites joined to soaks, and a warning for each own cell that its soak contradicts. */
export interface JoinedBites {
  readonly bites: readonly JoinedBite[];
  readonly warnings: JoinWarnings;
}

/**
 * Joins each bite to the soak of its trip and position that was open at its minute, both ends
 * included, the later soak if two. A bite without a time meets the only soak of its trip and
 * position, if there is only one; a soak logged by hours alone is met when it is the only such one.
 */
export function joinBites(
  rows: readonly BiteRow[],
  soaks: readonly PlacedSoak[],
  context: JoinContext,
): JoinedBites {
  const soaksAt = indexSoaks(soaks);
  const warnings = new JoinWarnings();
  const bites = rows.flatMap((row) => {
    const trip = context.trips.get(row.trip_id);
    if (trip === undefined) return [];
    const here = (row.position && soaksAt.get(row.trip_id)?.get(row.position)) || [];
    const placed = placeBite(row, { trip, here, soaks, context });
    return [fillBite(row, { trip, soaks, ...placed }, context, warnings)];
  });
  return { bites, warnings };
}

type SoakIndex = Map<string, Map<string, number[]>>;

function indexSoaks(soaks: readonly PlacedSoak[]): SoakIndex {
  const ofTrips = groupBy(soaks.keys(), (at) => soaks[at]?.trip_id ?? '');
  return new Map(
    [...ofTrips].map(([trip, ats]) => [trip, groupBy(ats, (at) => soaks[at]?.position ?? '')]),
  );
}

interface Place {
  readonly instant: EpochMinute | null;
  readonly soak: number | null;
}

function placeBite(
  row: BiteRow,
  {
    trip,
    here,
    soaks,
    context,
  }: {
    trip: TidyTrip;
    here: readonly number[];
    soaks: readonly PlacedSoak[];
    context: JoinContext;
  },
): Place {
  const [only] = here;
  if (row.time === null) {
    return { instant: null, soak: only !== undefined && here.length === 1 ? only : null };
  }
  const instants = instantsOnTrip(trip, row.time, context.clock);
  const candidates =
    trip.start === null
      ? [...instants, ...context.clock.instants(trip.date, row.time + 1440)]
      : instants;
  for (const instant of candidates) {
    const open = latestOpen(here, soaks, instant);
    if (open !== null) return { instant, soak: open };
  }
  const byHours = here.filter((at) => soaks[at]?.start === null && soaks[at]?.grossHours !== null);
  return { instant: instants[0], soak: byHours.length === 1 ? (byHours[0] ?? null) : null };
}

function latestOpen(
  here: readonly number[],
  soaks: readonly PlacedSoak[],
  instant: EpochMinute,
): number | null {
  let latest: number | null = null;
  let latestStart = Number.NEGATIVE_INFINITY;
  for (const at of here) {
    const soak = soaks[at];
    if (soak?.start == null || soak.end === null) continue;
    if (soak.start <= instant && instant <= soak.end && soak.start >= latestStart) {
      latest = at;
      latestStart = soak.start;
    }
  }
  return latest;
}

function fillBite(
  row: BiteRow,
  place: Place & { readonly trip: TidyTrip; readonly soaks: readonly PlacedSoak[] },
  context: JoinContext,
  warnings: JoinWarnings,
): JoinedBite {
  const soak = place.soak === null ? undefined : place.soaks[place.soak];
  const filled = {} as Record<FilledCell, string | number | null>;
  const from = {} as Record<FilledCell, Provenance | null>;
  for (const cell of FILLED_CELLS) {
    const own = row[cell];
    const lent = soak?.[cell] ?? null;
    filled[cell] = own ?? lent;
    from[cell] = own !== null ? 'logged' : lent !== null ? lender(soak, cell) : null;
    if (own !== null && lent !== null && own !== lent) {
      const said = { own, lent, soakLine: soak?.line ?? 0 };
      warnings.add(() => disagreement(row, cell, said));
    }
  }
  const spool = context.spools.on(filled.rod as string | null, place.trip.date);
  for (const cell of ['line_type', 'line_class_lb'] as const) {
    if (filled[cell] !== null || spool === null || spool[cell] === null) continue;
    filled[cell] = spool[cell];
    from[cell] = 'spool';
  }
  const { side, reach } = context.positionOf(row.position);
  const known = filled as Pick<BiteRow, FilledCell>;
  // Field by field: an object put together from another gets a shape of its own from the engine,
  // which takes three times the memory of the bite itself.
  return {
    line: row.line,
    trip_id: row.trip_id,
    outcome: row.outcome,
    count: row.count,
    bite_id: row.bite_id,
    time: row.time,
    position: row.position,
    side,
    reach,
    bait: known.bait,
    rod: known.rod,
    line_type: known.line_type,
    line_class_lb: known.line_class_lb,
    hook_size: known.hook_size,
    hook_model: soak?.hook_model ?? null,
    leader_lb: known.leader_lb,
    species: row.species,
    lost_to: row.lost_to,
    fight_min: row.fight_min,
    drop_back_s: row.drop_back_s,
    hooked_in: row.hooked_in,
    release_condition: row.release_condition,
    length_cm: row.length_cm,
    weight_kg: row.weight_kg,
    angler: row.angler,
    notes: row.notes,
    from,
    trip: place.trip,
    instant: place.instant,
    soak: place.soak,
    hourOfDay: place.instant === null ? null : context.clock.hourAt(place.instant),
    light: lightOver(place),
    lineAge: null,
  };
}

function lightOver({
  instant,
  trip: { lat, lon },
}: {
  readonly instant: EpochMinute | null;
  readonly trip: TidyTrip;
}): Light | null {
  return instant === null || lat === null || lon === null ? null : lightAt(instant, lat, lon);
}

/** A line that the soak itself had from its spool is the spool's word, not the soak's. */
function lender(soak: PlacedSoak | undefined, cell: FilledCell): Provenance {
  if (cell === 'line_type' && soak?.line_type_from === 'spool') return 'spool';
  if (cell === 'line_class_lb' && soak?.line_class_from === 'spool') return 'spool';
  return 'soak';
}
