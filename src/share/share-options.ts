import type { GridSize } from './cwp-grid.ts';
import type { GearCode } from './gear-codes.ts';
import type { Licence } from './licences.ts';
import type { PeriodKind } from './period.ts';
import type { Thresholds } from './thresholds.ts';

/** Noise on counts: ε, and the most bites one trip may add. */
export interface NoiseChoice {
  readonly epsilon: number;
  readonly clip: number;
}

/** What the owner has chosen for a package, in whole. */
export interface ShareChoices {
  readonly gridDeg: GridSize;
  readonly period: PeriodKind;
  readonly thresholds: Thresholds;
  /** Whether the owner of the only boat agrees to be the only one in a row. */
  readonly consent: boolean;
  readonly gear: GearCode;
  /** null: none was chosen. */
  readonly licence: Licence | null;
  /** null: counts are exact. */
  readonly noise: NoiseChoice | null;
}
