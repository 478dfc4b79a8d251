import { addScaled, at, type Column, dot } from './design-columns.ts';
import { pivotedQr, solveUpper } from './pivoted-qr.ts';

/** Rounding allowed before a value counts as above 0; the vectors handed in have length 1. */
const TINY = 1e-10;

/**
 * The shortest vector Σ μᵢ·zᵢ with every μᵢ at least 1. Zero (as far as numbers go) when the unit
 * vectors zᵢ balance out; otherwise the vector v returned has v·zᵢ ≥ 0 for all i and v·zᵢ > 0 for
 * some: a direction along which none of them loses and some gain for ever.
 * Finite active-set iteration; `vectors` must not be empty.
 * Source: Lawson & Hanson 1974, Solving Least Squares Problems, ch. 23; that exactly one of the two
 * cases holds is Stiemke's theorem (1915).
 */
export function shortestPositiveSum(vectors: readonly Column[]): Column {
  const first = vectors[0] as Column;
  const goal = new Float64Array(first.length);
  for (const vector of vectors) addScaled(goal, -1, vector);
  const extra = new Float64Array(vectors.length);
  let active: number[] = [];
  for (let round = 0; round < 20 * first.length + 20; round++) {
    const rest = residual(vectors, { goal, extra, active });
    const entering = steepest(vectors, rest, active);
    if (entering === null) return rest.map((value) => -value);
    active = solveActive(vectors, { goal, extra, active: [...active, entering] });
  }
  return residual(vectors, { goal, extra, active }).map((value) => -value);
}

interface State {
  readonly goal: Column;
  /** μ − 1 for each vector, changed in place. */
  readonly extra: Column;
  readonly active: number[];
}

/** goal − Σ extra·z. */
function residual(vectors: readonly Column[], { goal, extra, active }: State): Column {
  const rest = goal.slice();
  for (const index of active) addScaled(rest, -at(extra, index), vectors[index] as Column);
  return rest;
}

/** The idle vector that would shorten the residual most, or null when none would. */
function steepest(vectors: readonly Column[], rest: Column, active: number[]): number | null {
  const busy = new Set(active);
  const limit = TINY * Math.max(1, Math.sqrt(dot(rest, rest)));
  let best: number | null = null;
  let most = limit;
  for (const [index, vector] of vectors.entries()) {
    const gain = busy.has(index) ? 0 : dot(vector, rest);
    if (gain > most) [best, most] = [index, gain];
  }
  return best;
}

/** Least squares on the active vectors, dropping those that would need a negative weight. */
function solveActive(vectors: readonly Column[], state: State): number[] {
  let active = state.active;
  while (active.length > 0) {
    const qr = pivotedQr(active.map((index) => vectors[index] as Column));
    const kept = qr.kept.map((place) => active[place] as number);
    for (const place of qr.aliased) state.extra[active[place] as number] = 0;
    const image = Float64Array.from(qr.q, (direction) => dot(direction, state.goal));
    const weights = solveUpper(qr.r, image);
    const { step, blocking } = longestStep(state.extra, kept, weights);
    for (const [place, index] of kept.entries()) {
      const now = at(state.extra, index);
      state.extra[index] = now + step * (at(weights, place) - now);
    }
    if (blocking === null) return kept;
    state.extra[blocking] = 0;
    active = kept.filter((index) => index !== blocking);
  }
  return active;
}

/** How far the weights may move towards the solution, and the one that reaches 0 first if any. */
function longestStep(extra: Column, kept: readonly number[], weights: Column) {
  let step = 1;
  let blocking: number | null = null;
  for (const [place, index] of kept.entries()) {
    const target = at(weights, place);
    const now = at(extra, index);
    const reach = target > 0 ? 1 : now / (now - target || 1);
    if (target <= 0 && reach <= step) [step, blocking] = [reach, index];
  }
  return { step, blocking };
}
