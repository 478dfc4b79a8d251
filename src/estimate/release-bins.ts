/** A stretch of whole numbers with its name; `most` is included, null has no end. */
interface Bin {
  readonly name: string;
  readonly most: number | null;
}

const DROP_BACK: readonly Bin[] = [
  { name: '0–5 s', most: 5 },
  { name: '6–10 s', most: 10 },
  { name: '11–15 s', most: 15 },
  { name: 'over 15 s', most: null },
];

const FIGHT: readonly Bin[] = [
  { name: 'up to 5 min', most: 5 },
  { name: '6–10 min', most: 10 },
  { name: '11–20 min', most: 20 },
  { name: '21–30 min', most: 30 },
  { name: 'over 30 min', most: null },
];

/** Names of the bins of drop-back time, short to long. */
export const DROP_BACK_BINS: readonly string[] = DROP_BACK.map(({ name }) => name);
/** Names of the bins of fight time, short to long. */
export const FIGHT_BINS: readonly string[] = FIGHT.map(({ name }) => name);

/**
 * The bin of a drop-back time in seconds, rounded to whole ones first; null stays null.
 * Source of the bins: Prince and others 2007, Fish. Manag. Ecol. 14:173.
 */
export function dropBackBin(seconds: number | null): string | null {
  return binOf(DROP_BACK, seconds);
}

/** The bin of a fight in minutes, rounded to whole ones first. Bins: common practice, no source. */
export function fightBin(minutes: number | null): string | null {
  return binOf(FIGHT, minutes);
}

function binOf(bins: readonly Bin[], value: number | null): string | null {
  if (value === null) return null;
  const whole = Math.round(value);
  return bins.find(({ most }) => most === null || whole <= most)?.name ?? null;
}
