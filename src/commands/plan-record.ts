import type { ComparisonPlan } from '../decide/plan-answer.ts';
import { planNotes, planSentence, scheduleSentence } from '../decide/plan-sentence.ts';
import { limitsRecord } from './document.ts';

/** Every figure of a plan as the JSON document carries it. */
export function planRecord(plan: ComparisonPlan) {
  const { basis, target, needed, planned } = plan;
  const { pace, spread, base } = basis;
  const weeks = (trips: number) => trips / pace.tripsPerWeek;
  return {
    factor: plan.factor,
    levels: plan.levels,
    measure: target.measure,
    design: basis.design,
    difference: target.difference,
    power: target.power,
    rates: { a: plan.rates[0], b: plan.rates[1] },
    base: { ...limitsRecord(base), method: base.method, from: basis.baseFrom },
    new_levels: basis.newLevels,
    pace: {
      trips: pace.trips,
      days: pace.days,
      trips_per_week: pace.tripsPerWeek,
      bites_per_trip: pace.bitesPerTrip,
      units_per_trip: pace.unitsPerTrip,
      trips_with_either: pace.tripsWithEither,
      trips_with_both: pace.tripsWithBoth,
      same_day_share: pace.tripsWithEither === 0 ? null : pace.tripsWithBoth / pace.tripsWithEither,
    },
    design_effect: {
      value: spread.designEffect,
      from: spread.from,
      strata: spread.strata,
      correlation: spread.correlation,
    },
    needed:
      needed === null
        ? null
        : { trips: needed, units: needed * pace.unitsPerTrip, weeks: weeks(needed) },
    planned: {
      trips: planned.trips,
      weeks: weeks(planned.trips),
      power: planned.power,
      detectable_difference: plan.detectable,
    },
    curve: plan.curve,
    schedule: {
      seed: plan.seed,
      trips: plan.schedule.map(({ tripNumber, block, lines }) => ({
        trip_number: tripNumber,
        block,
        lines,
      })),
    },
    refused: null,
    sentence: [planSentence(plan), scheduleSentence(plan)].filter((s) => s !== null).join(' '),
    notes: planNotes(plan),
  };
}
