import type { PlanKept } from '../decide/plan-compared.ts';
import { lensRecord } from './compare-record.ts';

/** How a plan was kept, as the document carries it. */
export function keptRecord(kept: PlanKept) {
  return {
    design: kept.design,
    trips_planned: kept.tripsPlanned,
    trips_made: kept.tripsMade,
    trips_open: kept.tripsOpen,
    missing: kept.missing.map(({ scheduled, reason }) => ({
      trip_number: scheduled.tripNumber,
      date: scheduled.date,
      trip_id: scheduled.tripId,
      reason,
    })),
    trips_beside: kept.tripsBeside,
    bites: kept.bites,
    departures: kept.departures.map(({ tripNumber, ...departure }) => ({
      trip_number: tripNumber,
      ...departure,
    })),
    bites_without_position: kept.bitesWithoutPlace,
    bites_without_level: kept.bitesWithoutLevel,
    as_fished: lensRecord(kept.asFished),
  };
}
