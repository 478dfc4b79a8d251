import type { EffortUnit } from '../tidy/effort.ts';
import { remembered } from '../tidy/remember.ts';
import { lightAt } from '../tidy/sunlight.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type EffortPiece, wholePiece } from './effort-pieces.ts';
import { type FactorName, factorOf } from './factors.ts';
import { NOT_RECORDED } from './level-order.ts';

/** Effort that cannot be divided by a factor has no level of it. */
export const UNDIVIDED = -1;

/** The levels of one factor over a whole season, as numbers, in the order of its rows. */
export interface LevelColumns {
  readonly labels: LabelNumbers;
  readonly ofBite: Int32Array;
  /** Of whole units; UNDIVIDED where there is none. */
  readonly ofUnit: Int32Array;
  /** 1 where a bite's level is also that of the effort its figure per line-hour rests on. */
  readonly onEffort: Uint8Array;
}

/** Gives each label a number, from 0 in the order they are met. */
export class LabelNumbers {
  private readonly numbers = new Map<string, number>();
  private readonly labels: string[] = [];

  numberOf(label: string): number {
    const known = this.numbers.get(label);
    if (known !== undefined) return known;
    this.numbers.set(label, this.labels.length);
    return this.labels.push(label) - 1;
  }

  label(number: number): string {
    return this.labels[number] ?? '';
  }
}

/** The levels of a factor, worked out once for a season. */
export function levelColumns(season: TidySeason, name: FactorName): LevelColumns {
  return remembered(season, { levels: name }, () => {
    const { units, unitOfBite } = season.effort;
    const labels = new LabelNumbers();
    const { ofBite } = factorOf(name);
    return {
      labels,
      ofBite: Int32Array.from(season.bites, (bite) => labels.numberOf(levelText(ofBite(bite)))),
      ofUnit: Int32Array.from(units, (unit) => levelOfEffort(name, wholePiece(unit), labels)),
      onEffort: Uint8Array.from(season.bites, (bite, at) => {
        const unit = units[unitOfBite[at] ?? -1];
        return unit !== undefined && sharesLevel(name, { bite, unit, season }) ? 1 : 0;
      }),
    };
  });
}

/** The number of a piece's level, UNDIVIDED where the effort cannot be divided by the factor. */
export function levelOfEffort(name: FactorName, piece: EffortPiece, labels: LabelNumbers): number {
  const level = factorOf(name).ofEffort(piece);
  return level === undefined ? UNDIVIDED : labels.numberOf(levelText(level));
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
