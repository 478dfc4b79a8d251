import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/** Where to look for a minimum, and how close is close enough. */
export interface MinimumSearch {
  readonly lower: number;
  readonly upper: number;
  /** Absolute error allowed in the place; below about 1e-8 of its size nothing more is gained. */
  readonly tolerance?: number;
}

const GOLDEN = (3 - Math.sqrt(5)) / 2;
const MOST_STEPS = 200;

/**
 * The place of a minimum of `f` between two bounds, for a function with a single dip there; of
 * several dips one is found. Values of +Infinity are walked away from.
 * Source: Brent 1973, Algorithms for Minimization without Derivatives, ch. 5 (golden section, with
 * the parabola through the three best points wherever that is safe).
 */
export function minimise(
  f: (x: number) => number,
  { lower, upper, tolerance = 0 }: MinimumSearch,
): { readonly x: number; readonly value: number } {
  let [from, to] = [lower, upper];
  let best = { x: from + GOLDEN * (to - from), value: 0 };
  best.value = f(best.x);
  let [second, third] = [best, best];
  let [step, stepBefore] = [0, 0];
  for (let round = 0; round < MOST_STEPS; round++) {
    const middle = (from + to) / 2;
    const least = 1e-9 * Math.abs(best.x) + tolerance / 3 + Number.MIN_VALUE;
    if (Math.abs(best.x - middle) + (to - from) / 2 <= 2 * least) break;
    const parabolic = parabolaStep(best, second, third);
    const place = best.x + parabolic;
    const safe =
      Math.abs(parabolic) < Math.abs(stepBefore) / 2 && place > from + least && place < to - least;
    stepBefore = safe ? step : (best.x < middle ? to : from) - best.x;
    step = safe ? parabolic : GOLDEN * stepBefore;
    const x = best.x + (Math.abs(step) >= least ? step : least * (Math.sign(step) || 1));
    const tried = { x, value: f(x) };
    if (tried.value <= best.value) {
      if (x < best.x) to = best.x;
      else from = best.x;
      [third, second, best] = [second, best, tried];
    } else {
      if (x < best.x) from = x;
      else to = x;
      if (tried.value <= second.value || second === best) [third, second] = [second, tried];
      else if (tried.value <= third.value || third === best || third === second) third = tried;
    }
  }
  return best;
}

interface Point {
  readonly x: number;
  readonly value: number;
}

/** From `best` to the bottom of the parabola through three points; NaN where there is none. */
function parabolaStep(best: Point, second: Point, third: Point): number {
  const r = (best.x - second.x) * (best.value - third.value);
  const q = (best.x - third.x) * (best.value - second.value);
  return ((best.x - third.x) * q - (best.x - second.x) * r) / (2 * (r - q));
}

/** A function's value with its first and second derivatives at one place. */
export interface Curvature {
  readonly value: number;
  readonly gradient: readonly number[];
  readonly hessian: readonly (readonly number[])[];
}

/**
 * The minimum of a convex function of several numbers by Newton steps, each halved until the
 * function falls. `at` gives a `value` of Infinity or NaN outside its domain.
 * null: no minimum was reached, because there is none at finite numbers. Where two of the numbers do
 * the same work, null or one of the many minima.
 * Source: Boyd & Vandenberghe 2004, Convex Optimization, algorithm 9.5.
 */
export function minimiseConvex(
  at: (x: readonly number[]) => Curvature,
  start: readonly number[],
): readonly number[] | null {
  let x = start;
  let here = at(x);
  for (let round = 0; round < MOST_STEPS; round++) {
    const cholesky = new CholeskyDecomposition(new Matrix(here.hessian.map((row) => [...row])));
    if (!cholesky.isPositiveDefinite()) return null;
    const step = cholesky.solve(Matrix.columnVector([...here.gradient])).to1DArray();
    // Newton steps square their error: below this the next one changes no digit.
    const last = step.every((s, j) => Math.abs(s) <= 1e-10 * (1e-3 + Math.abs(x[j] as number)));
    let share = 1;
    let next = moved(x, step, share);
    let there = at(next);
    const allowed = here.value + 1e-12 * Math.abs(here.value);
    while (!(there.value <= allowed) && share > 1e-12) {
      share /= 2;
      next = moved(x, step, share);
      there = at(next);
    }
    if (!(there.value <= allowed)) return null;
    [x, here] = [next, there];
    if (last) return x;
  }
  return null;
}

const moved = (x: readonly number[], step: readonly number[], share: number): number[] =>
  x.map((value, j) => value - share * (step[j] as number));
