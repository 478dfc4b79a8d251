import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { at, type Column } from './design-columns.ts';

const MOST_SWEEPS = 60;
/** Rotations no longer matter once an off-diagonal entry is this small beside its diagonal ones. */
const SETTLED = 1e-15;
/** From this size on the library's faster routine takes over. */
const LARGE = 100;
/** A direction keeping less than this share of its variance is one the cluster alone decides. */
const LOST = 1e-10;

/** Eigenvalues of a symmetric matrix; row i of `vectors` is the eigenvector of value i. */
export interface SymmetricEigen {
  readonly values: Column;
  readonly vectors: Column;
}

/**
 * Eigenvalues by Jacobi rotations, which keep small eigenvalues accurate when rows differ by many
 * powers of ten, as working variances of rare and common bites do.
 * @param matrix n × n, symmetric, row after row
 * Source: Golub & Van Loan 1996, Matrix Computations, §8.4; Demmel & Veselić 1992 (from memory).
 */
export function symmetricEigen(matrix: Column, n: number): SymmetricEigen {
  if (n > LARGE) return libraryEigen(matrix, n);
  const a = matrix.slice();
  const vectors = new Float64Array(n * n);
  for (let i = 0; i < n; i++) vectors[i * n + i] = 1;
  let moving = true;
  for (let sweep = 0; sweep < MOST_SWEEPS && moving; sweep++) {
    moving = false;
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < n; j++) moving = rotate(a, vectors, [n, i, j]) || moving;
  }
  return { values: Float64Array.from({ length: n }, (_, i) => at(a, i * n + i)), vectors };
}

function libraryEigen(matrix: Column, n: number): SymmetricEigen {
  const full = Matrix.from1DArray(n, n, [...matrix]);
  const eigen = new EigenvalueDecomposition(full, { assumeSymmetric: true });
  const vectors = Float64Array.from(eigen.eigenvectorMatrix.transpose().to1DArray());
  return { values: Float64Array.from(eigen.realEigenvalues), vectors };
}

/** Turns the plane (i, j) so that entry (i, j) vanishes; tells whether there was anything to do. */
function rotate(a: Column, vectors: Column, [n, i, j]: readonly [number, number, number]): boolean {
  const off = at(a, i * n + j);
  const ii = at(a, i * n + i);
  const jj = at(a, j * n + j);
  if (off === 0 || Math.abs(off) <= SETTLED * Math.sqrt(Math.abs(ii * jj))) return false;
  const ratio = (jj - ii) / (2 * off);
  const tangent = (ratio < 0 ? -1 : 1) / (Math.abs(ratio) + Math.sqrt(1 + ratio * ratio));
  const cosine = 1 / Math.sqrt(1 + tangent * tangent);
  const sine = tangent * cosine;
  for (let k = 0; k < n; k++) {
    const [row, other] = [i * n + k, j * n + k];
    const x = at(a, row);
    const y = at(a, other);
    a[row] = cosine * x - sine * y;
    a[other] = sine * x + cosine * y;
    const v = at(vectors, row);
    const w = at(vectors, other);
    vectors[row] = cosine * v - sine * w;
    vectors[other] = sine * v + cosine * w;
  }
  // Both sides are turned; by symmetry the columns become what the rows have just become.
  for (let k = 0; k < n; k++) {
    a[k * n + i] = at(a, i * n + k);
    a[k * n + j] = at(a, j * n + k);
  }
  a[i * n + j] = 0;
  a[j * n + i] = 0;
  a[i * n + i] = ii - tangent * off;
  a[j * n + j] = jj + tangent * off;
  return true;
}

/**
 * B^(−1/2) of B = D·A·D, D a positive diagonal and A what the fit leaves of the residuals
 * (eigenvalues 0 to 1); directions in which A is zero are left out (Moore–Penrose).
 */
export function inverseRoot(a: Column, diagonal: Column): Column {
  const n = diagonal.length;
  const b = a.slice();
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) b[i * n + j] = at(a, i * n + j) * at(diagonal, i) * at(diagonal, j);
  const { values, vectors } = symmetricEigen(b, n);
  const root = new Float64Array(n * n);
  for (let index = 0; index < n; index++) {
    const vector = vectors.subarray(index * n, index * n + n);
    let whole = 0;
    for (let i = 0; i < n; i++) whole += (at(vector, i) * at(diagonal, i)) ** 2;
    if (at(values, index) <= LOST * whole) continue;
    const factor = 1 / Math.sqrt(at(values, index));
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++)
        root[i * n + j] = at(root, i * n + j) + factor * at(vector, i) * at(vector, j);
  }
  return root;
}
