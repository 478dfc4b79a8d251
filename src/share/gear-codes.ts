/**
 * Gears of hooks and lines by their three-letter code.
 * Source: FAO ISSCFG, International Standard Statistical Classification of Fishing Gear, group 09.
 */
export const GEAR_CODES = {
  LHP: 'handlines and hand-operated pole-and-lines (09.1)',
  LHM: 'mechanized lines and pole-and-lines (09.2)',
  LVT: 'vertical lines (09.4)',
  LTL: 'trolling lines (09.5)',
  LX: 'hooks and lines, not elsewhere included (09.9)',
} as const;

/** A gear of the list. */
export type GearCode = keyof typeof GEAR_CODES;

/** The codes in the order of the list. */
export const GEAR_CODE_NAMES = Object.keys(GEAR_CODES) as readonly GearCode[];

/** Where rods held or set by hand are counted, unless the owner says otherwise; common practice, no source. */
export const DEFAULT_GEAR: GearCode = 'LHP';
