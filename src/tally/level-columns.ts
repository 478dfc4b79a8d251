import type { EffortUnit } from '../tidy/effort.ts';
import { remembered } from '../tidy/remember.ts';
import { lightAt } from '../tidy/sunlight.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type EffortPiece, wholePiece } from './effort-pieces.ts';
import { type FactorName, factorOf } from './factors.ts';
import { NOT_RECORDED } from './level-order.ts';

/** The levels of one factor over a whole season, in the order of its bites and effort units. */
export interface LevelColumns {
  readonly ofBite: readonly string[];
  /** Of whole units; null: this effort cannot be divided by the factor. */
  readonly ofUnit: readonly (string | null)[];
  /** Whether a bite's level is also that of the effort its figure per line-hour rests on. */
  readonly onEffort: readonly boolean[];
}

/** The levels of a factor, worked out once for a season. */
export function levelColumns(season: TidySeason, name: FactorName): LevelColumns {
  return remembered(season, { levels: name }, () => {
    const { units, unitOfBite } = season.effort;
    const { ofBite } = factorOf(name);
    return {
      ofBite: season.bites.map((bite) => levelText(ofBite(bite))),
      ofUnit: units.map((unit) => levelOfEffort(name, wholePiece(unit))),
      onEffort: season.bites.map((bite, at) => {
        const unit = units[unitOfBite[at] ?? -1];
        return unit !== undefined && sharesLevel(name, { bite, unit, season });
      }),
    };
  });
}

/** The level of a piece of effort; null where the effort cannot be divided by the factor. */
export function levelOfEffort(name: FactorName, piece: EffortPiece): string | null {
  const level = factorOf(name).ofEffort(piece);
  return level === undefined ? null : levelText(level);
}

/** Whether the line-hours a bite rests on are counted in the bite's own level. */
function sharesLevel(
  name: FactorName,
  {
    bite,
    unit,
    season,
  }: { readonly bite: TidyBite; readonly unit: EffortUnit; readonly season: TidySeason },
): boolean {
  const { scope, ofBite, ofEffort } = factorOf(name);
  if (scope === 'outcome') return true;
  if (scope === 'clock') return clockLevels(bite, unit, season)[name] === ofBite(bite);
  const isAwayFromSpread = unit.position !== null && unit.position.name !== bite.position;
  if (scope === 'line' && isAwayFromSpread) return false;
  return ofBite(bite) === ofEffort(wholePiece(unit));
}

/**
 * Hour and light of the last minute of effort at a bite: a bite at the very end of a soak belongs
 * to the minute before, and one outside the unit's hours to none of them.
 */
function clockLevels(
  { instant, trip }: TidyBite,
  { start, end }: EffortUnit,
  { clock }: TidySeason,
): Readonly<Partial<Record<FactorName, string | number>>> {
  if (instant === null || start === null || end === null) return {};
  if (instant < start || instant > end) return {};
  const minute = instant === end && end > start ? end - 1 : instant;
  const { lat, lon } = trip;
  const hour = { hour_of_day: clock.hourAt(minute) };
  return lat === null || lon === null ? hour : { ...hour, light: lightAt(minute, lat, lon) };
}

function levelText(level: string | number | null): string {
  return level === null ? NOT_RECORDED : String(level);
}
