import type { Estimate } from '../base/estimate.ts';
import { groupBy } from '../base/group-by.ts';
import type { SurvivalCurve } from '../stats/kaplan-meier.ts';
import { type ClusteredLife, clusteredKaplanMeier } from '../stats/kaplan-meier-clustered.ts';
import { kaplanMeierMedian } from '../stats/kaplan-meier-quantile.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type AskedPart, askedBites } from './asked-rows.ts';

/** How long fish of one level were fought, in minutes from the hook-up to the boat. */
export interface FightLength {
  readonly level: string;
  /** Hooked fish with fight minutes; those lost count as fought at least so long. */
  readonly fights: number;
  readonly caught: number;
  readonly trips: number;
  /** Hooked fish of the level whose fight minutes are not recorded, which are left out. */
  readonly notTimed: number;
  /** The minutes by which half are at the boat, in minutes. */
  readonly median: Estimate;
  /** Share not yet at the boat after so many minutes. */
  readonly curve: SurvivalCurve;
}

/**
 * Fight time by a factor (line type, species, …), in the factor's own order; what is not recorded
 * comes last. A fish that was lost is censored: it would have taken at least that long. That
 * reads losses as having nothing to do with how much longer the fight would have gone.
 * Rows of a tallied log that stand for several fish count as so many fights of the same length.
 * @returns one entry a level with a hooked fish; a level without fight minutes has a median that
 * is not estimable.
 */
export function fightLengths(
  season: TidySeason,
  factor: FactorName,
  part: AskedPart & { readonly level: number },
): FightLength[] {
  const { ofBite, order } = factorOf(factor);
  const hooked = askedBites(season, part).filter(({ outcome }) => outcome !== 'missed');
  const groups = groupBy(hooked, (bite) => String(ofBite(bite) ?? NOT_RECORDED));
  return [...groups.keys()].sort(order(season.log.settings)).map((level) => {
    const bites = groups.get(level) ?? [];
    const lives = bites.flatMap(({ fight_min, outcome, count, trip_id }): ClusteredLife[] => {
      if (fight_min === null) return [];
      const life = { time: fight_min, event: outcome !== 'lost', cluster: trip_id };
      return Array.from({ length: count }, () => life);
    });
    const curve = clusteredKaplanMeier(lives, part);
    return {
      level,
      fights: curve.lives,
      caught: curve.events,
      trips: new Set(lives.map(({ cluster }) => cluster)).size,
      notTimed: bites.reduce((sum, { count }) => sum + count, 0) - curve.lives,
      median: kaplanMeierMedian(curve),
      curve,
    };
  });
}
