import { Matrix } from 'ml-matrix';
import { type Refusal, refuse } from '../base/estimate.ts';
import { at, type Column, pick } from './design-columns.ts';
import type { FittedModel } from './glm-model.ts';
import { inverseUpper } from './pivoted-qr.ts';
import { adjustCr2, adjustCr3, loneDirections } from './sandwich-adjust.ts';
import { type Block, gather } from './sandwich-block.ts';

/**
 * How the residuals of a cluster are adjusted for the fit having followed them.
 * CR0 not at all; CR1 = CR0·G/(G−1); CR1S = CR1·(N−1)/(N−p), N rows; CR2 by (I − H)^(−1/2), unbiased
 * when the model holds; CR3 by (I − H)^(−1), like leaving clusters out; CR3J = CR3·(G−1)/G.
 */
export type ClusterType = 'CR0' | 'CR1' | 'CR1S' | 'CR2' | 'CR3' | 'CR3J';

/** A covariance of the coefficients that lets rows of one cluster be alike in any way. */
export interface ClusterCovariance {
  readonly kind: 'cluster';
  readonly type: ClusterType;
  readonly model: FittedModel;
  /** Rows and columns in the order of the model's names. */
  readonly matrix: Matrix;
  /** Number of clusters G among the rows used, and the cluster (0 to G − 1) of each of them. */
  readonly clusters: number;
  readonly clusterOf: Int32Array;
  /** The orthonormal weighted columns after adjustment, as the model's `q`. */
  readonly adjusted: readonly Column[];
  /** Directions of the coefficients that a single cluster decides by itself. */
  readonly lone: readonly LoneDirection[];
}

/** A unit direction, in the coordinates of `q`, of which only one cluster knows anything. */
export interface LoneDirection {
  readonly cluster: string;
  readonly direction: Column;
}

/**
 * Cluster-robust ("sandwich") covariance of a fitted model.
 * @param clusters the cluster of every design row, e.g. the trip
 * @param type the adjustment; CR2 is taken on the response scale with the model's working weights
 * @returns not fitted with a reason when all rows are of one cluster. Fewer clusters than columns
 * still give a matrix, with few degrees of freedom and named lone directions.
 * Source: Liang & Zeger 1986, Biometrika 73:13; Bell & McCaffrey 2002, Survey Methodology 28:169;
 * Pustejovsky & Tipton 2018, J Bus Econ Stat 36:672 (CR2 for weighted models).
 */
export function clusterCovariance(
  model: FittedModel,
  clusters: ArrayLike<string | number>,
  type: ClusterType,
): ClusterCovariance | Refusal {
  const groups = groupRows(model, clusters);
  if (groups.size < 2) return refuse('All rows are of one trip; a spread needs two.');
  const clusterOf = new Int32Array(model.rows.length);
  const adjusted = model.q.map((column) => column.slice());
  const lone: LoneDirection[] = [];
  for (const [index, [cluster, rows]] of [...groups].entries()) {
    for (const row of rows) clusterOf[row] = index;
    const q = gather(model.q, rows);
    for (const direction of loneDirections(q)) lone.push({ cluster, direction });
    if (type === 'CR2') scatter(adjusted, rows, adjustCr2(q, pick(model.variance, rows)));
    if (type === 'CR3' || type === 'CR3J') scatter(adjusted, rows, adjustCr3(q).adjusted);
  }
  const scores = sumByCluster(adjusted, model.residual, { clusterOf, clusters: groups.size });
  const back = inverseUpper(model.r);
  const moves = back.mmul(scores.transpose());
  const matrix = moves.mmul(moves.transpose()).mul(scale(type, model, groups.size));
  return { kind: 'cluster', type, model, matrix, clusters: groups.size, clusterOf, adjusted, lone };
}

/** Places (among the rows used) of each cluster, in order of first appearance. */
function groupRows(model: FittedModel, clusters: ArrayLike<string | number>) {
  const groups = new Map<string, number[]>();
  for (const [place, row] of model.rows.entries()) {
    const name = String(clusters[row]);
    const rows = groups.get(name);
    if (rows === undefined) groups.set(name, [place]);
    else rows.push(place);
  }
  return groups;
}

function scatter(columns: readonly Column[], rows: readonly number[], block: Block): void {
  for (let j = 0; j < columns.length; j++) {
    const column = columns[j] as Column;
    for (let place = 0; place < rows.length; place++)
      column[at(rows, place)] = at(block.values, place * block.columns + j);
  }
}

/** Clusters × columns: Σ over the cluster's rows of column · factor. */
export function sumByCluster(
  columns: readonly Column[],
  factor: Column,
  { clusterOf, clusters }: { readonly clusterOf: Int32Array; readonly clusters: number },
): Matrix {
  const sums = columns.map((column) => {
    const sum = new Float64Array(clusters);
    for (let row = 0; row < column.length; row++) {
      const cluster = at(clusterOf, row);
      sum[cluster] = at(sum, cluster) + at(column, row) * at(factor, row);
    }
    return sum;
  });
  const matrix = Matrix.zeros(clusters, columns.length);
  for (let j = 0; j < sums.length; j++)
    for (let cluster = 0; cluster < clusters; cluster++)
      matrix.set(cluster, j, at(sums[j] as Column, cluster));
  return matrix;
}

function scale(type: ClusterType, model: FittedModel, clusters: number): number {
  const rows = model.rows.length;
  const spare = rows - model.q.length;
  if (type === 'CR1') return clusters / (clusters - 1);
  if (type === 'CR3J') return (clusters - 1) / clusters;
  // Without spare rows CR1S has no finite factor; the residuals it would multiply are all 0.
  const small = spare > 0 ? (rows - 1) / spare : 1;
  return type === 'CR1S' ? (clusters / (clusters - 1)) * small : 1;
}
