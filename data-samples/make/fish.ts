import type { HookedIn, LostTo, Outcome, ReleaseCondition } from '../../src/read/rows.ts';
import type { Random } from '../../src/stats/random.ts';
import { at } from './at.ts';
import { chance, logNormal, weighted } from './draws.ts';
import type { MonthTruth, SpeciesTruth, World } from './world.ts';

/** What became of one bite. */
export interface Fate {
  readonly outcome: Outcome;
  readonly species: string;
  readonly lost_to: LostTo | null;
  /** null: never hooked. */
  readonly fight_min: number | null;
  readonly drop_back_s: number;
  readonly hooked_in: HookedIn | null;
  readonly release_condition: ReleaseCondition | null;
  readonly length_cm: number | null;
  readonly weight_kg: number | null;
}

/** What a bite's fate hangs on. */
export interface Struck {
  readonly month: MonthTruth;
  readonly hooked: boolean;
  readonly lineBroke: boolean;
  readonly line_type: string;
  readonly leader_lb: number;
}

/** Follows one bite to its end. */
export function fateOf(world: World, random: Random, struck: Struck): Fate {
  const { handling } = world;
  const shares = Object.entries(world.species).map(([name, { share }]) => [
    name,
    share[struck.month.season],
  ]);
  const species = weighted(random, Object.fromEntries(shares)) as string;
  const truth = at(world.species, species);
  const dropBack = logNormal(random, handling.drop_back_s_median, handling.drop_back_log_sd);
  const drop_back_s = Math.max(1, Math.round(dropBack));
  const nothing = { lost_to: null, fight_min: null, hooked_in: null, release_condition: null };
  const unmeasured = { length_cm: null, weight_kg: null };
  if (!struck.hooked) return { outcome: 'missed', species, drop_back_s, ...nothing, ...unmeasured };

  const { fight } = at(world.line_types, struck.line_type);
  const whole = logNormal(random, truth.fight_min_median * fight, handling.fight_log_sd);
  const lost_to = lossOf(world, random, { ...struck, truth });
  if (lost_to !== null) {
    const fight_min = minutes(whole * (0.1 + 0.8 * random.uniform()));
    return { outcome: 'lost', species, drop_back_s, ...nothing, lost_to, fight_min, ...unmeasured };
  }
  const fight_min = minutes(whole);
  const hooked_in = placeOf(world, random, drop_back_s);
  const kept = chance(random, truth.kept);
  const release_condition = kept ? null : conditionOf(world, random, { hooked_in, fight_min });
  const outcome = kept ? 'kept' : 'released';
  const ending = { outcome, lost_to, hooked_in, release_condition } as const;
  return { species, fight_min, drop_back_s, ...ending, ...sizeOf(truth, random) };
}

function minutes(fight: number): number {
  return Math.max(1, Math.round(fight));
}

/** How a hooked fish was lost, or null: each danger in turn. */
function lossOf(
  world: World,
  random: Random,
  struck: Struck & { readonly truth: SpeciesTruth },
): LostTo | null {
  if (struck.lineBroke) return 'line_broke';
  const { hook_failed, predator, other_loss } = world.handling;
  const bitten = at(world.leaders.bitten_through, String(struck.leader_lb));
  const dangers: readonly (readonly [LostTo, number])[] = [
    ['leader_parted', struck.truth.toothy ? bitten : 0.01],
    ['pulled', at(world.line_types, struck.line_type).pulled],
    ['hook_failed', hook_failed],
    ['predator', predator],
    ['other', other_loss],
  ];
  for (const [loss, probability] of dangers) if (chance(random, probability)) return loss;
  return null;
}

function placeOf(world: World, random: Random, dropBack: number): HookedIn {
  const { hooked_in, deep_after_15_s } = world.handling;
  const deep = hooked_in.deep * (dropBack > 15 ? deep_after_15_s : 1);
  const corner = 1 - hooked_in.mouth - deep - hooked_in.foul;
  return weighted(random, {
    corner,
    mouth: hooked_in.mouth,
    deep,
    foul: hooked_in.foul,
  }) as HookedIn;
}

function conditionOf(
  world: World,
  random: Random,
  { hooked_in, fight_min }: { hooked_in: HookedIn; fight_min: number },
): ReleaseCondition {
  const { dead, bleeding, tired_per_fight_min } = world.handling;
  const where = hooked_in === 'deep' ? 'deep' : 'elsewhere';
  if (chance(random, dead[where])) return 'dead';
  if (chance(random, bleeding[where])) return 'bleeding';
  return chance(random, Math.min(0.9, tired_per_fight_min * fight_min)) ? 'tired' : 'strong';
}

function sizeOf(truth: SpeciesTruth, random: Random): { length_cm: number; weight_kg: number } {
  const length = logNormal(random, truth.length_cm_median, 0.09);
  return {
    length_cm: Math.round(length),
    weight_kg: logNormal(random, truth.kg_at_1_m * (length / 100) ** 3, 0.08),
  };
}
