import type { AskedPart } from '../../estimate/asked-rows.ts';
import { askedBites } from '../../estimate/asked-rows.ts';
import { DROP_BACK_BINS, dropBackBin, FIGHT_BINS, fightBin } from '../../estimate/release-bins.ts';
import type { HookedIn, ReleaseCondition } from '../../read/rows.ts';
import { HOOKED_IN, RELEASE_CONDITIONS } from '../../read/rows.ts';
import { type FactorName, factorOf } from '../../tally/factors.ts';
import { inOrderOf, NOT_RECORDED } from '../../tally/level-order.ts';
import type { TidyBite } from '../../tidy/tidy-rows.ts';
import type { TidySeason } from '../../tidy/tidy-season.ts';
import { levelName } from './level-words.ts';

/** What is looked at in a fish, and the words for it. */
export interface OutcomeAsked<Outcome extends string> {
  readonly outcomes: readonly Outcome[];
  readonly outcomeOf: (bite: TidyBite) => Outcome | null;
  /** The two that a picture draws: the one to wish for, and the ones to fear, put together. */
  readonly wished: Outcome;
  readonly feared: readonly Outcome[];
  /** `hooked deep or foul`, after "were". */
  readonly fearedWords: string;
  /** `hooked in the corner`, after "were". */
  readonly wishedWords: string;
  /** Whose outcome may be logged: `hooked fish`. */
  readonly fish: string;
  readonly isAsked: (bite: TidyBite) => boolean;
  /** What to say where nothing of it is logged. */
  readonly notLogged: string;
}

/** Where fish were hooked. */
export const HOOK_PLACE: OutcomeAsked<HookedIn> = {
  outcomes: HOOKED_IN,
  outcomeOf: ({ hooked_in }) => hooked_in,
  wished: 'corner',
  feared: ['deep', 'foul'],
  fearedWords: 'hooked deep or foul',
  wishedWords: 'hooked in the corner',
  fish: 'hooked fish',
  isAsked: ({ outcome }) => outcome !== 'missed',
  notLogged:
    'Where fish were hooked is not recorded: log hooked_in in bites.csv (corner, mouth, deep, foul).',
};

/** How fish went back. */
export const RELEASE_STATE: OutcomeAsked<ReleaseCondition> = {
  outcomes: RELEASE_CONDITIONS,
  outcomeOf: ({ release_condition }) => release_condition,
  wished: 'strong',
  feared: ['bleeding', 'dead'],
  fearedWords: 'bleeding or dead',
  wishedWords: 'strong',
  fish: 'released fish',
  isAsked: ({ outcome }) => outcome === 'released',
  notLogged:
    'How fish went back is not recorded: log release_condition in bites.csv (strong, tired, bleeding, dead).',
};

/** How fish are divided, with the words for it. */
export interface FishGrouping {
  /** Name of its column in the CSV file. */
  readonly column: string;
  /** Heading, with the unit. */
  readonly head: string;
  /** `drop-back time`, as a sentence says it. */
  readonly noun: string;
  readonly groupOf: (bite: TidyBite) => string;
  readonly order: (a: string, b: string) => number;
  readonly nameOf: (group: string) => string;
  /** Before a group in a sentence: `on`, `with`, `after`. */
  readonly preposition: string;
}

/** Fish by a factor of the log. */
export function byFactor(
  factor: FactorName,
  words: { readonly noun: string; readonly preposition: string },
  season: TidySeason,
): FishGrouping {
  const { ofBite, order } = factorOf(factor);
  return {
    ...words,
    column: factor,
    head: words.noun,
    groupOf: (bite) => String(ofBite(bite) ?? NOT_RECORDED),
    order: order(season.log.settings),
    nameOf: (group) => levelName(factor, group),
  };
}

const plain = (group: string) => group;

/** Fish by how long line was given before the strike. */
export const BY_DROP_BACK: FishGrouping = {
  column: 'drop_back',
  head: 'drop-back',
  noun: 'drop-back time',
  groupOf: ({ drop_back_s }) => dropBackBin(drop_back_s) ?? NOT_RECORDED,
  order: inOrderOf(DROP_BACK_BINS),
  nameOf: plain,
  preposition: 'after drop-backs of',
};

/** Fish by how long they were fought. */
export const BY_FIGHT: FishGrouping = {
  column: 'fight',
  head: 'fight',
  noun: 'fight time',
  groupOf: ({ fight_min }) => fightBin(fight_min) ?? NOT_RECORDED,
  order: inOrderOf(FIGHT_BINS),
  nameOf: plain,
  preposition: 'after fights of',
};

/** Fish of a part of the log whose outcome may be logged. */
export function askedFish<Outcome extends string>(
  season: TidySeason,
  part: AskedPart,
  { isAsked }: OutcomeAsked<Outcome>,
): TidyBite[] {
  return askedBites(season, part).filter(isAsked);
}
