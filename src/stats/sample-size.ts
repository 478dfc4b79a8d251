/** How much each of two groups needs, in its own unit: bites, hooked fish, line-hours. */
export interface SampleSize {
  readonly kind: 'planned';
  readonly a: GroupSize;
  readonly b: GroupSize;
}

/** The size of one group. */
export interface GroupSize {
  /** As the formula gives it, not rounded: what a design effect is multiplied with. */
  readonly units: number;
  /** Rounded up. */
  readonly wholeUnits: number;
}

/** The two sizes from that of group A and the share of group B for each unit of A. */
export function sampleSize(unitsA: number, allocation: number): SampleSize {
  return { kind: 'planned', a: groupSize(unitsA), b: groupSize(unitsA * allocation) };
}

/** A size with its rounded-up form; a size that is whole but for rounding errors stays. */
export function groupSize(units: number): GroupSize {
  return { units, wholeUnits: Math.ceil(units - 1e-9) };
}
