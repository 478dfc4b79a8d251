import { PORT_VELLAMY } from './port-vellamy.ts';
import type { MonthTruth, TripKindTruth, World } from './world.ts';

/** Smaller boats than Quillandra: never more than four kite lines, and no tournaments. */
const SMALL_BOAT_TRIPS: Readonly<Record<string, TripKindTruth>> = {
  charter: { share: 0.8, hours: [5, 6], kite_lines: [3, 4], flat_lines: [1, 2], anglers: [2, 4] },
  scouting: { share: 0.2, hours: [4, 5], kite_lines: [2, 3], flat_lines: [1, 1], anglers: [1, 2] },
};

/** The boat Marrowind out of Linnet Quay, north of Port Vellamy: fewer bites, sharper hooking. */
export const LINNET_QUAY: World = {
  ...PORT_VELLAMY,
  name: 'Linnet Quay 2024/25',
  vessel: 'Marrowind',
  trip_prefix: 'LQ',
  seed: 7,
  months: shorter({ '2024-11': 10, '2024-12': 12, '2025-01': 11, '2025-02': 9, '2025-03': 8 }),
  trip_kinds: SMALL_BOAT_TRIPS,
  areas: {
    'North Horn': { share: 0.6, lat: -12.13, lon: 54.66, depth_m: [50, 120], bites: 1 },
    'Bank Edge': { share: 0.4, lat: -12.36, lon: 54.58, depth_m: [60, 110], bites: 1.05 },
  },
  bites: { ...PORT_VELLAMY.bites, per_line_hour: 0.4, day_shape: 1.6 },
  hookup: { ...PORT_VELLAMY.hookup, base_logit: 2.3 },
  line_types: withBraid({ hookup_logit: -0.05 }),
  line_class_lb: [{ from: '2024-11-01', lb: 30 }],
  changes: {
    K1: [{ from: '2024-12-07', line_type: 'braid' }],
    K3: [{ from: '2024-12-07', line_type: 'braid' }],
    K5: [{ from: '2025-02-01', line_type: 'braid' }],
  },
  comparisons: [],
};

/** The boat Teal Hesper out of Sable Roads, to the south: busier, and rougher on the bite. */
export const SABLE_ROADS: World = {
  ...PORT_VELLAMY,
  name: 'Sable Roads 2024/25',
  vessel: 'Teal Hesper',
  trip_prefix: 'SR',
  seed: 11,
  months: shorter({ '2024-10': 9, '2024-11': 10, '2024-12': 11, '2025-01': 12, '2025-02': 10 }),
  trip_kinds: SMALL_BOAT_TRIPS,
  areas: {
    Ninefold: { share: 0.5, lat: -12.57, lon: 54.62, depth_m: [80, 160], bites: 0.95 },
    'Low Comb': { share: 0.5, lat: -13.18, lon: 54.74, depth_m: [70, 200], bites: 1.1 },
  },
  bites: { ...PORT_VELLAMY.bites, per_line_hour: 0.62, day_shape: 1.1 },
  hookup: { ...PORT_VELLAMY.hookup, base_logit: 1.8 },
  line_types: withBraid({ hookup_logit: -0.35 }),
  line_class_lb: [{ from: '2024-10-01', lb: 20 }],
  changes: {
    K2: [{ from: '2024-11-09', line_type: 'braid' }],
    K6: [{ from: '2024-11-09', line_type: 'braid' }],
    F2: [{ from: '2024-12-28', line_type: 'braid' }],
  },
  comparisons: [],
};

/** The same months, with this many trips in each. */
function shorter(trips: Readonly<Record<string, number>>): MonthTruth[] {
  return PORT_VELLAMY.months.flatMap((month) => {
    const count = trips[month.month];
    return count === undefined ? [] : [{ ...month, trips: count }];
  });
}

function withBraid(change: { readonly hookup_logit: number }): World['line_types'] {
  const { mono, braid } = PORT_VELLAMY.line_types;
  return { mono, braid: { ...braid, ...change } } as World['line_types'];
}
