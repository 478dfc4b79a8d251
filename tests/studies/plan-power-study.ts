import { type ComparisonPlan, planComparison } from '../../src/decide/plan-answer.ts';
import { planPower } from '../../src/estimate/plan-power.ts';
import type { Random } from '../../src/stats/random.ts';
import { sameClusterDifference } from '../../src/stats/same-cluster-difference.ts';
import { sameClusterRateRatio } from '../../src/stats/same-cluster-ratio.ts';
import { drawLog, drawPlanned, type PlanWorld, truth } from './plan-power-world.ts';

/** What a plan promised, and what came of it. */
export interface PowerMet {
  readonly trips: number;
  readonly promised: number;
  readonly met: number;
}

/** A plan made from the log of so many trips. */
export function planFrom(world: PlanWorld, logTrips: number, random: Random): ComparisonPlan {
  const plan = planComparison(drawLog(world, logTrips, random), {
    factor: world.design === 'sides' ? 'line_type' : 'area',
    levels: ['a', 'b'],
    measure: world.kind === 'share' ? 'hookup_rate' : 'bites_per_line_hour',
    difference: world.difference,
    power: 0.8,
    level: 0.95,
    trips: null,
    seed: 1,
    only: {},
    from: null,
    to: null,
  });
  if (plan.kind === 'not-estimable') throw new Error(plan.reason);
  return plan;
}

/** How often a season of so many trips tells the difference, beside what the plan says of it. */
export function powerMet(
  world: PlanWorld,
  plan: ComparisonPlan,
  {
    trips,
    runs,
    random,
  }: { readonly trips: number; readonly runs: number; readonly random: Random },
): PowerMet {
  let told = 0;
  for (let run = 0; run < runs; run++) {
    if (tells(world, drawPlanned(world, trips, random))) told += 1;
  }
  return { trips, promised: planPower(plan.basis, plan.target, trips), met: told / runs };
}

/** Whether the same-day lens leaves out "no difference" on the side where the truth lies. */
function tells(world: PlanWorld, pairs: ReturnType<typeof drawPlanned>): boolean {
  const [a, b] = truth(world);
  const lens = world.kind === 'share' ? sameClusterDifference : sameClusterRateRatio;
  const found = lens(pairs, { level: 0.95 });
  if (found.kind === 'not-estimable') return false;
  const none = world.kind === 'share' ? 0 : 1;
  return a > b ? found.lower > none : found.upper < none;
}
