import type { Random } from '../../src/stats/random.ts';
import type { Span } from './world.ts';

/** True with this probability. */
export function chance(random: Random, probability: number): boolean {
  return random.uniform() < probability;
}

/** A whole number from the span, each equally likely, both ends included. */
export function whole(random: Random, [low, high]: Span): number {
  return low + random.integer(high - low + 1);
}

/** A lognormal draw with this median and standard deviation of its logarithm. */
export function logNormal(random: Random, median: number, logSd: number): number {
  return median * Math.exp(logSd * random.normal());
}

/** One key, each as likely as its weight says; null where all weights are 0. */
export function weighted(random: Random, weights: Readonly<Record<string, number>>): string | null {
  const total = Object.values(weights).reduce((sum, weight) => sum + weight, 0);
  let left = random.uniform() * total;
  for (const [key, weight] of Object.entries(weights)) {
    left -= weight;
    if (left < 0) return key;
  }
  return null;
}

/** One key of a table, as likely as its share says. */
export function byShare(
  random: Random,
  table: Readonly<Record<string, { readonly share: number }>>,
): string {
  const shares = Object.entries(table).map(([key, { share }]) => [key, share]);
  return weighted(random, Object.fromEntries(shares)) as string;
}

/** One member of a list, each equally likely. */
export function oneOf<T>(random: Random, list: readonly T[]): T {
  return list[random.integer(list.length)] as T;
}

export function logistic(logit: number): number {
  return 1 / (1 + Math.exp(-logit));
}
