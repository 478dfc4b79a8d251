import { type Basis, notEstimable } from '../base/estimate.ts';
import { basisOfTwo, type TwoProportions, whyNoComparison } from './difference-two-proportions.ts';
import type { Level } from './interval-level.ts';
import { type LogNormalRatio, logNormalRatio } from './ratio-of-log-normal.ts';

/**
 * The odds ratio of two independent proportions, first over second (above 0), with Woolf's interval
 * on the log scale. An empty cell (a group with no events, or with nothing else): not estimable.
 * Source: Woolf 1955, Ann Hum Genet 19:251.
 */
export function woolfOddsRatio(counts: TwoProportions, { level }: Level): LogNormalRatio {
  const basis = basisOfTwo(counts, { level, method: 'woolf' });
  const reason = whyNoComparison(counts);
  if (reason !== null) return notEstimable(reason, basis);
  const cells = cellsOf(counts);
  if (cells.some((cell) => cell === 0))
    return notEstimable(
      'A group is all or none, and this method needs events and non-events in both.',
      basis,
    );
  return fromCells(cells, basis);
}

/**
 * The same after half a unit is added to each cell, which gives limits to every table, at the price
 * of an estimate drawn toward 1. Only a group without units is not estimable.
 * Source: Haldane 1956, Ann Hum Genet 20:309; Anscombe 1956.
 */
export function haldaneOddsRatio(counts: TwoProportions, { level }: Level): LogNormalRatio {
  const basis = basisOfTwo(counts, { level, method: 'woolf-haldane' });
  const reason = whyNoComparison(counts);
  if (reason !== null) return notEstimable(reason, basis);
  const [a, b, c, d] = cellsOf(counts);
  return fromCells([a + 0.5, b + 0.5, c + 0.5, d + 0.5], basis);
}

type Cells = readonly [number, number, number, number];

const cellsOf = ({ x1, n1, x2, n2 }: TwoProportions): Cells => [x1, n1 - x1, x2, n2 - x2];

function fromCells([a, b, c, d]: Cells, basis: Basis): LogNormalRatio {
  const logVariance = 1 / a + 1 / b + 1 / c + 1 / d;
  return logNormalRatio({ estimate: a / b / (c / d), logVariance }, basis);
}
