import type { BaitBuyRow, BiteRow, SoakRow, SpoolRow, TripRow } from '../../src/read/rows.ts';
import type { SeasonLog } from '../../src/read/season-log.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../src/settings/settings.ts';

/** The cells a test cares about; every other cell is not recorded. */
export interface LogParts {
  readonly settings?: Partial<Settings>;
  readonly trips: readonly (Partial<TripRow> & Pick<TripRow, 'trip_id' | 'date'>)[];
  readonly soaks?: readonly (Partial<SoakRow> & Pick<SoakRow, 'trip_id' | 'position'>)[];
  readonly bites?: readonly (Partial<BiteRow> & Pick<BiteRow, 'trip_id' | 'outcome'>)[];
  readonly spools?: readonly (Partial<SpoolRow> & Pick<SpoolRow, 'rod' | 'date' | 'line_type'>)[];
  readonly baitBuys?: readonly BaitBuyRow[];
}

/** A season log built in memory, as the reader would hand it on. */
export function makeLog(parts: LogParts): SeasonLog {
  return {
    name: 'test season',
    settings: { ...DEFAULT_SETTINGS, ...parts.settings },
    trips: parts.trips.map((row, at) => ({ ...EMPTY_TRIP, line: at + 2, ...row })),
    soaks: parts.soaks?.map((row, at) => ({ ...EMPTY_SOAK, line: at + 2, ...row })) ?? null,
    bites: (parts.bites ?? []).map((row, at) => ({ ...EMPTY_BITE, line: at + 2, ...row })),
    spools: parts.spools?.map((row, at) => ({ ...EMPTY_SPOOL, line: at + 2, ...row })) ?? null,
    baitBuys: parts.baitBuys ?? null,
    account: { files: [], problems: [], problemCounts: [], setAside: [] },
  };
}

/** Minutes after midnight of `7:30`. */
export function clock(text: string): number {
  const [hours = 0, minutes = 0] = text.split(':').map(Number);
  return hours * 60 + minutes;
}

const EMPTY_TRIP = {
  lines_in: null,
  lines_out: null,
  hours_fished: null,
  lines_fished: null,
  vessel: null,
  trip_kind: null,
  area: null,
  lat: null,
  lon: null,
  depth_m: null,
  wind_kn: null,
  wind_from_deg: null,
  wave_m: null,
  current_kn: null,
  current_to_deg: null,
  water_temp_c: null,
  clarity: null,
  sky: null,
  anglers: null,
  notes: null,
};

const EMPTY_SOAK = {
  bait: null,
  rod: null,
  line_type: null,
  line_class_lb: null,
  hook_size: null,
  hook_model: null,
  leader_lb: null,
  time_in: null,
  time_out: null,
  hours: null,
  baits_used: 1,
  notes: null,
};

const EMPTY_BITE = {
  count: 1,
  bite_id: null,
  time: null,
  position: null,
  bait: null,
  rod: null,
  line_type: null,
  line_class_lb: null,
  hook_size: null,
  leader_lb: null,
  species: null,
  lost_to: null,
  fight_min: null,
  drop_back_s: null,
  hooked_in: null,
  release_condition: null,
  length_cm: null,
  weight_kg: null,
  angler: null,
  notes: null,
};

const EMPTY_SPOOL = { line_class_lb: null, cost: null, reason: null, notes: null };
