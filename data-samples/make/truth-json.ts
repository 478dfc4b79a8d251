import { hookupLogit, type Rigged } from './chances.ts';
import { logistic } from './draws.ts';
import type { Bite, FishedTrip } from './fish-trip.ts';
import type { ComparisonTruth, World } from './world.ts';

/**
 * `truth.json`: the parameters the season was drawn from, and what they mean for the bites drawn.
 * `true_difference` is A − B in the chance of a hookup, each bite of A or B taken as A, then as B.
 */
export function truthJson(world: World, fished: readonly FishedTrip[]): string {
  const document = {
    made_by: 'data-samples/make/make-season.ts',
    seed: world.seed,
    comparisons: world.comparisons.map((comparison) => comparisonTruth(world, fished, comparison)),
    world: { ...world, comparisons: undefined },
  };
  return `${JSON.stringify(document, null, 2)}\n`;
}

function comparisonTruth(
  world: World,
  fished: readonly FishedTrip[],
  { factor, between, verdict, why }: ComparisonTruth,
): Record<string, unknown> {
  const bites = fished.flatMap((day) => day.bites.map((bite) => ({ day, bite })));
  const concerned = bites.filter(({ bite }) => between.includes(levelOf(bite, factor)));
  const [a, b] = between.map((level) => {
    const chances = concerned.map(({ day, bite }) => {
      const logit = hookupLogit(world, day.trip, withLevel(bite, factor, level));
      return logistic(logit + day.trip.dayHookup);
    });
    return chances.reduce((sum, chance) => sum + chance, 0) / chances.length;
  }) as [number, number];
  const bitesOf = (level: string) =>
    concerned.filter(({ bite }) => levelOf(bite, factor) === level).length;
  return {
    factor,
    between,
    measure: 'hookup_rate',
    bites: between.map(bitesOf),
    true_difference: Number((a - b).toFixed(4)),
    verdict,
    why,
  };
}

function levelOf(bite: Bite, factor: ComparisonTruth['factor']): string {
  return String(factor === 'hook_model' ? bite.soak.hook_model : bite[factor]);
}

/** The bite's gear with one factor changed; line class and hook model move no chance in these worlds. */
function withLevel(bite: Bite, factor: ComparisonTruth['factor'], level: string): Rigged {
  if (factor === 'leader_lb') return { ...bite, leader_lb: Number(level) };
  if (factor === 'hook_size' || factor === 'line_type') return { ...bite, [factor]: level };
  return bite;
}
