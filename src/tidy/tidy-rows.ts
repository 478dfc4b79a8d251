import type { Fight } from './fight-time.ts';
import type { JoinedBite } from './join-bites.ts';
import type { PlacedSoak } from './place-soaks.ts';
import type { LineAge } from './spool-history.ts';

/** A soak with the hours it really fished. */
export interface TidySoak extends PlacedSoak {
  readonly fights: readonly Fight[];
  /** Hours with a bait in the water and no fish on; never below zero; null: not recorded. */
  readonly lineHours: number | null;
  readonly lineAge: LineAge | null;
}

/** A bite with everything its soak, its rod and the sky say about it. */
export type TidyBite = Readonly<JoinedBite>;
