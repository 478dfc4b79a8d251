import { type Refusal, refuse } from '../base/estimate.ts';
import { chiSquareTails, normalCdf } from './distributions.ts';

/** Groups in order: of each, how many of its total had the event, and the score it stands at. */
export interface ScoredGroup {
  readonly events: number;
  readonly total: number;
  readonly score: number;
}

export interface ChiSquareTest {
  readonly chiSquare: number;
  readonly df: number;
  /** null on 0 degrees of freedom, where nothing is tested. */
  readonly p: number | null;
}

/** Does a proportion rise or fall with a score, such as line age or hook size? */
export interface Trend {
  readonly kind: 'tested';
  /** Above 0: the proportion rises with the score. */
  readonly z: number;
  readonly p: number;
  /** Change of the proportion with one unit of score, by least squares weighted by totals. */
  readonly slope: number;
  /** z²(N − 1)/N, the form of Mantel. */
  readonly chiSquareMantel: number;
  /** Any difference at all between the groups. */
  readonly heterogeneity: ChiSquareTest;
  /** What the straight line leaves of it. */
  readonly departure: ChiSquareTest;
}

/**
 * The Cochran–Armitage test for a trend in proportions, two-sided, without continuity correction.
 * It takes every count as independent: bites of one trip are alike, so p is too small there.
 * Groups with a total of 0 are left out. Not estimable with all or no events, or with one score
 * only. Throws on counts that are no counts.
 * Source: Cochran 1954, Biometrics 10:417; Armitage 1955, Biometrics 11:375; Mantel 1963, J. Am.
 * Stat. Assoc. 58:690.
 */
export function cochranArmitage(all: readonly ScoredGroup[]): Trend | Refusal {
  for (const { events, total } of all)
    if (!(events >= 0 && events <= total && Number.isFinite(total)))
      throw new RangeError(`${events} events of ${total} cannot be.`);
  const groups = all.filter(({ total }) => total > 0);
  const sum = (of: (group: ScoredGroup) => number): number =>
    groups.reduce((so_far, group) => so_far + of(group), 0);
  const total = sum((g) => g.total);
  const share = sum((g) => g.events) / total;
  if (!(share > 0 && share < 1)) return refuse('All or none had the event, so nothing can rise.');
  const meanScore = sum((g) => g.total * g.score) / total;
  const spread = sum((g) => g.total * (g.score - meanScore) ** 2);
  if (!(spread > 0)) return refuse('All groups stand at one score.');
  const covered = sum((g) => (g.events - share * g.total) * (g.score - meanScore));
  const variance = share * (1 - share);
  const z = covered / Math.sqrt(variance * spread);
  const different = sum((g) => (g.events - share * g.total) ** 2 / g.total) / variance;
  return {
    kind: 'tested',
    z,
    p: 2 * normalCdf(-Math.abs(z)),
    slope: covered / spread,
    chiSquareMantel: (z * z * (total - 1)) / total,
    heterogeneity: tested(different, groups.length - 1),
    departure: tested(Math.max(0, different - z * z), groups.length - 2),
  };
}

function tested(chiSquare: number, df: number): ChiSquareTest {
  return { chiSquare, df, p: df > 0 ? chiSquareTails(chiSquare, df).upper : null };
}
