import type { Estimate } from '../base/estimate.ts';
import { agrestiCoull } from '../stats/interval-proportion-agresti-coull.ts';
import { clopperPearson } from '../stats/interval-proportion-clopper-pearson.ts';
import { jeffreys } from '../stats/interval-proportion-jeffreys.ts';
import { wilson } from '../stats/interval-proportion-wilson.ts';

/** How an interval may be made; the first of each list is the default. */
export const PROPORTION_METHODS = [
  'wilson-trip',
  'wilson',
  'clopper-pearson',
  'jeffreys',
  'agresti-coull',
] as const;
export const RATE_METHODS = ['ratio-trip', 'garwood', 'ratio-log-t', 'bootstrap-bca'] as const;

export type ProportionMethod = (typeof PROPORTION_METHODS)[number];
export type RateMethod = (typeof RATE_METHODS)[number];

/** The methods for a proportion that take every bite as independent of the others on its trip. */
export const PLAIN_PROPORTIONS: Readonly<
  Record<
    Exclude<ProportionMethod, 'wilson-trip'>,
    (x: number, n: number, options: { readonly level: number }) => Estimate
  >
> = {
  wilson,
  'clopper-pearson': clopperPearson,
  jeffreys,
  'agresti-coull': agrestiCoull,
};
