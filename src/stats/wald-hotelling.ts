import type { Matrix } from 'ml-matrix';
import { at, type Column, combine, dot } from './design-columns.ts';
import { solveUpperTransposed } from './pivoted-qr.ts';
import { type ClusterCovariance, sumByCluster } from './sandwich-cluster.ts';
import { inverseRoot } from './sandwich-root.ts';

/** What one contrast does in every cluster, were the model true. */
interface Reach {
  /** Adjusted rows times the contrast. */
  readonly a: Column;
  /** Clusters × coefficients: what the fit takes back of it. */
  readonly z: Matrix;
}

/**
 * Degrees of freedom η of the Wishart distribution with the same total variance as the
 * cluster-robust covariance of several contrasts, were the model true. For one contrast it is
 * Satterthwaite's; null when no residual takes part.
 * Source: Pustejovsky & Tipton 2018, J Bus Econ Stat 36:672, eq. 15 to 17. Sums over pairs of clusters
 * are gathered in matrices of the size of the coefficients.
 */
export function hotellingDf(
  covariance: ClusterCovariance,
  contrasts: readonly Column[],
): number | null {
  const plain = contrasts.map((contrast) => reachOf(covariance, contrast));
  const q = contrasts.length;
  const expected = Float64Array.from({ length: q * q }, (_, cell) => {
    const [s, t] = [plain[Math.floor(cell / q)] as Reach, plain[cell % q] as Reach];
    return total(ownOf(covariance, s, t)) - s.z.dot(t.z);
  });
  const size = Float64Array.from(plain, (_, i) => Math.sqrt(Math.max(0, at(expected, i * q + i))));
  if (size.some((value) => value === 0)) return null;
  const shape = expected.map(
    (v, cell) => v / (at(size, Math.floor(cell / q)) * at(size, cell % q)),
  );
  const root = inverseRoot(shape, new Float64Array(q).fill(1));
  const whitened = contrasts.map((_, s) => {
    const weights = contrasts.map((_, t) => at(root, s * q + t) / at(size, t));
    return reachOf(covariance, combine(contrasts, weights, contrasts[0]?.length ?? 0));
  });
  let variance = 0;
  for (const s of whitened) for (const t of whitened) variance += varianceOf(covariance, s, t);
  return variance > 0 ? (q * (q + 1)) / variance : null;
}

function reachOf(covariance: ClusterCovariance, contrast: Column): Reach {
  const { model, adjusted } = covariance;
  const c = solveUpperTransposed(model.r, contrast);
  const a = combine(adjusted, c, model.rows.length);
  return { a, z: sumByCluster(model.q, a, covariance) };
}

/** Σ over each cluster's rows of aₛ·aₜ. */
const ownOf = (covariance: ClusterCovariance, s: Reach, t: Reach): number[] =>
  sumByCluster([s.a], t.a, covariance).getColumn(0);

const total = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0);

/** Variance of entry (s, t) of the whitened covariance matrix. */
function varianceOf(covariance: ClusterCovariance, s: Reach, t: Reach): number {
  const cross = t.z.transpose().mmul(s.z);
  const [st, ss, tt] = [ownOf(covariance, s, t), ownOf(covariance, s, s), ownOf(covariance, t, t)];
  let sum = cross.dot(cross.transpose()) + cross.dot(cross);
  for (let g = 0; g < covariance.clusters; g++) {
    const [zs, zt] = [Float64Array.from(s.z.getRow(g)), Float64Array.from(t.z.getRow(g))];
    sum += at(st, g) * (at(st, g) - 2 * dot(zs, zt));
    sum += at(ss, g) * at(tt, g) - at(ss, g) * dot(zt, zt) - at(tt, g) * dot(zs, zs);
  }
  return sum;
}
