import { inverse, Matrix } from 'ml-matrix';
import { type Refusal, refuse } from '../base/estimate.ts';
import { chiSquareTails } from './distributions.ts';
import { type Life, riskTable } from './kaplan-meier-lives.ts';

/** Do several groups of lives end alike? One entry a group in `observed` and `expected`. */
export interface LogRank {
  readonly kind: 'tested';
  readonly observed: readonly number[];
  /** Events each group would have had if every life at risk had shared them alike. */
  readonly expected: readonly number[];
  readonly variance: readonly (readonly number[])[];
  readonly chiSquare: number;
  /** Groups that could have gone either way at some event, less one. */
  readonly df: number;
  readonly p: number;
}

/**
 * The log-rank test of two or more groups of lives, with the hypergeometric variance (tied events
 * count as drawn without replacement). It looks for one group ending earlier throughout; curves
 * that cross can hide from it. Not estimable without any event, or where fewer than two groups had
 * a life under watch when something happened.
 * Source: Mantel 1966, Cancer Chemother. Rep. 50:163; Peto & Peto 1972, J. R. Stat. Soc. A 135:185.
 */
export function logRank(groups: readonly (readonly Life[])[]): LogRank | Refusal {
  const { observed, expected, variance } = tally(groups);
  if (observed.every((count) => count === 0)) return refuse('Nothing happened in any group.');
  const able = variance.flatMap((row, g) => ((row[g] as number) > 0 ? [g] : []));
  const free = able.slice(0, -1);
  if (free.length === 0)
    return refuse(
      'Whenever something happened, only one group was left or everything ended at once.',
    );
  const difference = free.map((g) => (observed[g] as number) - (expected[g] as number));
  const block = new Matrix(free.map((g) => free.map((h) => variance[g]?.[h] as number)));
  const d = Matrix.rowVector(difference);
  const chiSquare = d.mmul(inverse(block)).mmul(d.transpose()).get(0, 0);
  const df = free.length;
  const p = chiSquareTails(chiSquare, df).upper;
  return { kind: 'tested', observed, expected, variance, chiSquare, df, p };
}

function tally(groups: readonly (readonly Life[])[]) {
  const observed = groups.map((lives) => lives.filter((life) => life.event).length);
  const expected = groups.map(() => 0);
  const variance = groups.map(() => groups.map(() => 0));
  const ends = groups.map((lives) => lives.map((life) => life.time).sort((a, b) => a - b));
  const gone = groups.map(() => 0);
  for (const { time, atRisk, events } of riskTable(groups.flat())) {
    const shares = ends.map((times, g) => {
      while ((times[gone[g] as number] as number) < time) (gone[g] as number)++;
      return (times.length - (gone[g] as number)) / atRisk;
    });
    const spread = atRisk > 1 ? (events * (atRisk - events)) / (atRisk - 1) : 0;
    shares.forEach((share, g) => {
      (expected[g] as number) += events * share;
      shares.forEach((other, h) => {
        ((variance[g] as number[])[h] as number) += spread * share * ((g === h ? 1 : 0) - other);
      });
    });
  }
  return { observed, expected, variance };
}
