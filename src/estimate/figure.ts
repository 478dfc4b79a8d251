import type { GroupRate } from './group-rate.ts';

/** A figure, and what it divides: the part of a {@link GroupRate} that its method works out. */
export type Figure = Pick<
  GroupRate,
  'rate' | 'numerator' | 'denominator' | 'trips' | 'design_effect'
>;
