import { type Refusal, refuse } from '../base/estimate.ts';
import { factorWords } from '../tally/factor-words.ts';
import type { FactorName } from '../tally/factors.ts';

/**
 * How two levels are shared out. `sides`: every trip fishes both, one on each side of the boat, and
 * the sides change. `days`: a whole trip fishes one of them, and trips come in pairs.
 */
export type PlanDesign = 'sides' | 'days';

const SIDES: readonly FactorName[] = [
  'line_type',
  'line_class_lb',
  'hook_size',
  'hook_model',
  'leader_lb',
  'bait',
  'rod',
];
const DAYS: readonly FactorName[] = ['area', 'trip_kind'];
const PLACES: readonly FactorName[] = ['position', 'side', 'reach'];

/** Every factor whose levels a crew can choose, and so a lot can share out. */
export const PLANNED_FACTORS: readonly FactorName[] = [...SIDES, ...DAYS];

/** How the levels of a factor are shared out, or why no plan can do it. */
export function planDesign(factor: FactorName): PlanDesign | Refusal {
  if (SIDES.includes(factor)) return 'sides';
  if (DAYS.includes(factor)) return 'days';
  const name = factorWords(factor);
  if (PLACES.includes(factor))
    return refuse(
      `A ${name} is where a line fishes, and an ordinary day fishes all of them: \`compare\` needs no plan for it.`,
    );
  return refuse(
    `Nobody can choose the ${name} beforehand, so no plan can share it out. ` +
      `Plans are for: ${PLANNED_FACTORS.join(', ')}.`,
  );
}
