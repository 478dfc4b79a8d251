import { type Interval, type Refusal, refuse } from '../base/estimate.ts';
import { chiSquareQuantile } from './distributions.ts';
import { type Level, tailArea } from './interval-level.ts';
import type { WearStretch } from './power-law-history.ts';

/** Exact results on the shape of a power-law process, which hold for systems watched alike. */
export interface ExactShape {
  readonly kind: 'fitted';
  /** Maximum likelihood: breaks / Σ ln(end/age). */
  readonly shape: number;
  /** Unbiased: (breaks − 1) / Σ ln(end/age); null for a single break. */
  readonly modifiedShape: number | null;
  /** 1 − modifiedShape: how fast the time between breaks grows; null for a single break. */
  readonly growthSlope: number | null;
  readonly limits: Interval;
}

/**
 * The shape in closed form, with limits that are exact at any number of breaks, for spools all
 * watched from new to one and the same age with breaks at exact ages: given their number, 2·breaks·
 * shape/estimate is chi-square on 2·breaks degrees of freedom.
 * Not estimable for spools watched to unequal ages (use the profile limits of `fitPowerLaw`),
 * without breaks, or with all breaks at the end itself.
 * Source: Crow 1974; MIL-HDBK-189C (from memory); NIST/SEMATECH e-Handbook 8.4.5.2 (modified form).
 */
export function exactShape(
  stretches: readonly WearStretch[],
  { level }: Level,
): ExactShape | Refusal {
  const end = stretches[0]?.to;
  if (end === undefined || stretches.some(({ from, to }) => from !== 0 || to !== end))
    return refuse('The spools were not all watched to the same age.');
  const ages = stretches.flatMap((stretch) => stretch.breaks);
  const total = ages.reduce((sum, age) => sum + Math.log(end / age), 0);
  if (ages.length === 0) return refuse('Nothing broke, so nothing tells how wear grows.');
  if (total === 0) return refuse('Everything broke at the oldest age watched.');
  const shape = ages.length / total;
  const modifiedShape = ages.length > 1 ? (ages.length - 1) / total : null;
  const tail = tailArea(level);
  const at = (probability: number): number =>
    (shape * chiSquareQuantile(probability, 2 * ages.length)) / (2 * ages.length);
  return {
    kind: 'fitted',
    shape,
    modifiedShape,
    growthSlope: modifiedShape === null ? null : 1 - modifiedShape,
    limits: { lower: at(tail), upper: at(1 - tail) },
  };
}
