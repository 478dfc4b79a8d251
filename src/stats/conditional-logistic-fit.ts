import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import type { Likelihood } from './conditional-logistic-likelihood.ts';
import type { MatchedSet } from './conditional-logistic-sets.ts';
import { minimiseConvex } from './minimise.ts';

/**
 * Information left, as a share of that at 0, below which a coefficient is taken to have no end. With
 * n sets and a finite estimate at least about 4/n of it is left; without one it falls by a factor of
 * e with every step, and rounding would end the search somewhere far out.
 */
const VANISHED = 1e-9;

/**
 * The coefficients of the highest likelihood, sought in units in which the information at 0 has a
 * diagonal of 1, so that neither kilometres nor seconds stall the search. Null where there are none:
 * the likelihood then keeps rising along some direction.
 * @param likelihood of all sets together, at coefficients in the covariates' own units
 * @param atZero the same at coefficients of 0, its information of full rank
 */
export function highestPoint(
  likelihood: (beta: readonly number[]) => Likelihood,
  atZero: Likelihood,
): number[] | null {
  const units = atZero.information.map((line, j) => Math.sqrt(line[j] as number));
  const scaled = (gamma: readonly number[]) => gamma.map((g, j) => g / (units[j] as number));
  const found = minimiseConvex(
    (gamma) => {
      const { logLikelihood, gradient, information } = likelihood(scaled(gamma));
      return {
        value: -logLikelihood,
        gradient: gradient.map((slope, j) => -slope / (units[j] as number)),
        hessian: inUnits(information, units),
      };
    },
    units.map(() => 0),
  );
  if (found === null) return null;
  const coefficients = scaled(found);
  const left = leastEigenvalue(inUnits(likelihood(coefficients).information, units));
  return left < VANISHED * leastEigenvalue(inUnits(atZero.information, units))
    ? null
    : coefficients;
}

/**
 * Why the covariates cannot be told apart, naming the first that adds nothing to those before it, or
 * null when they can. Judged at coefficients of 0, where information is a covariance within sets:
 * what is tied there is tied everywhere.
 */
export function whyTied(
  information: readonly (readonly number[])[],
  names: readonly string[],
): string | null {
  const units = information.map((line, j) => Math.sqrt(line[j] as number));
  const constant = names.filter((_, j) => units[j] === 0);
  if (constant.length > 0)
    return `${constant.join(', ')} never differs within a set, so sets cannot say what it does.`;
  const standard = inUnits(information, units);
  const tied = names.find((_, j) => {
    const leading = standard.slice(0, j + 1).map((line) => line.slice(0, j + 1));
    return leastEigenvalue(leading) < VANISHED;
  });
  if (tied === undefined) return null;
  return `${tied} cannot be told apart from the covariates before it within the sets.`;
}

/** The likelihood of all sets together, which are independent given their numbers of cases. */
export function sumOverSets(
  sets: readonly MatchedSet[],
  beta: readonly number[],
  ofSet: (set: MatchedSet, beta: readonly number[]) => Likelihood,
): Likelihood {
  const parts = sets.map((set) => ofSet(set, beta));
  return {
    logLikelihood: parts.reduce((sum, part) => sum + part.logLikelihood, 0),
    gradient: beta.map((_, j) =>
      parts.reduce((sum, part) => sum + (part.gradient[j] as number), 0),
    ),
    information: beta.map((_, j) =>
      beta.map((__, l) =>
        parts.reduce((sum, part) => sum + (part.information[j]?.[l] as number), 0),
      ),
    ),
  };
}

/** Information about coefficients that are measured in these units; a correlation matrix at 0. */
const inUnits = (information: readonly (readonly number[])[], units: readonly number[]) =>
  information.map((line, j) =>
    line.map((value, l) => value / ((units[j] as number) * (units[l] as number))),
  );

/** Smallest eigenvalue, 0 (to rounding) where some mixture of the covariates is not informed on. */
const leastEigenvalue = (symmetric: readonly (readonly number[])[]): number =>
  Math.min(
    ...new EigenvalueDecomposition(matrixOf(symmetric), { assumeSymmetric: true }).realEigenvalues,
  );

/** Rows of numbers as a matrix to compute with. */
export const matrixOf = (rows: readonly (readonly number[])[]): Matrix =>
  new Matrix(rows.map((row) => [...row]));
