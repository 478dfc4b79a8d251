/** Least whole knots of force 1 to 12. Source: WMO Beaufort scale. */
const FIRST_KNOTS = [1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64];

/**
 * Beaufort force, 0 to 12, of a wind speed in knots, rounded to whole knots first so that 14 kn
 * logged as miles per hour stays in its band. Source: WMO Beaufort scale.
 */
export function beaufortForce(windKnots: number): number {
  const knots = Math.round(windKnots);
  return FIRST_KNOTS.filter((first) => knots >= first).length;
}

/** `11–16 kn` for force 4; `under 1 kn` for 0 and `64 kn or more` for 12. */
export function beaufortRange(force: number): string {
  const first = FIRST_KNOTS[force - 1];
  const next = FIRST_KNOTS[force];
  if (first === undefined) return 'under 1 kn';
  return next === undefined ? `${first} kn or more` : `${first}–${next - 1} kn`;
}
