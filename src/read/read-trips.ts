import { rowReader } from './row-reader.ts';
import type { TripRow } from './rows.ts';
import type { TableColumns } from './table-columns.ts';

/** Binds the columns of `trips.csv`; the result reads the row at hand. */
export function tripReader(columns: TableColumns): () => TripRow {
  return rowReader<TripRow>(columns.cells, {
    trip_id: columns.requiredWord('trip_id'),
    date: columns.requiredDate('date'),
    lines_in: columns.clock('lines_in'),
    lines_out: columns.clock('lines_out'),
    hours_fished: columns.number('hours_fished'),
    lines_fished: columns.number('lines_fished'),
    vessel: columns.word('vessel'),
    trip_kind: columns.word('trip_kind'),
    area: columns.word('area'),
    lat: columns.latLon('lat'),
    lon: columns.latLon('lon'),
    depth_m: columns.number('depth_m'),
    wind_kn: columns.number('wind_kn'),
    wind_from_deg: columns.bearing('wind_from_deg'),
    wave_m: columns.number('wave_m'),
    current_kn: columns.number('current_kn'),
    current_to_deg: columns.bearing('current_to_deg'),
    water_temp_c: columns.number('water_temp_c'),
    clarity: columns.word('clarity'),
    sky: columns.word('sky'),
    anglers: columns.number('anglers'),
    notes: columns.notes(),
  });
}
