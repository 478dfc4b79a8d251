/** Where to look for a root, and how close is close enough. */
export interface RootSearch {
  readonly lower: number;
  readonly upper: number;
  /** Absolute error allowed in the root; 0 (the default) means to the last digits of a double. */
  readonly tolerance?: number;
}

const MOST_STEPS = 500;

/**
 * The place between `lower` and `upper` where a continuous function crosses zero. The function may
 * be infinite anywhere, not NaN; of several roots one is found. An end where it is exactly 0 is
 * returned as it stands.
 * @throws RangeError when both ends have the same sign or the function gives NaN, which are
 * mistakes of the caller and never results.
 * Source: Chandrupatla 1997, Adv. Eng. Software 28:145 (bisection that takes the inverse quadratic
 * step wherever that step is safe).
 */
export function findRoot(f: (x: number) => number, search: RootSearch): number {
  let [held, last] = [search.lower, search.upper];
  let [fHeld, fLast] = [value(f, held), value(f, last)];
  if (fHeld === 0) return held;
  if (fLast === 0) return last;
  if (fHeld > 0 === fLast > 0)
    throw new RangeError(`No sign change between ${held} (${fHeld}) and ${last} (${fLast}).`);
  let share = 0.5;
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = last + share * (held - last);
    const fNext = value(f, next);
    if (fNext === 0) return next;
    const sameSide = fNext > 0 === fLast > 0;
    const [old, fOld] = sameSide ? [last, fLast] : [held, fHeld];
    if (!sameSide) [held, fHeld] = [last, fLast];
    [last, fLast] = [next, fNext];
    const best = Math.abs(fHeld) < Math.abs(fLast) ? held : last;
    const slack = 2 * Number.EPSILON * Math.abs(best) + (search.tolerance ?? 0) / 2;
    const smallest = Math.max(slack, Number.MIN_VALUE) / Math.abs(held - last);
    if (smallest > 0.5) return best;
    share = safeShare({ x: last, f: fLast }, { x: held, f: fHeld }, { x: old, f: fOld });
    share = Math.min(1 - smallest, Math.max(smallest, share));
  }
  return last;
}

/**
 * The root of a function that does not fall as x grows, sought outward from `start` in doubling
 * steps until it is enclosed. ±Infinity where no sign change turns up before |x − start| passes
 * 10⁶ first steps.
 */
export function findRootOutward(f: (x: number) => number, start: number, firstStep = 1): number {
  const here = value(f, start);
  if (here === 0) return start;
  const direction = here < 0 ? 1 : -1;
  let inner = start;
  for (let step = firstStep; step < 1e6 * firstStep; step *= 2) {
    const outer = start + direction * step;
    if (value(f, outer) > 0 !== here > 0)
      return findRoot(f, { lower: Math.min(inner, outer), upper: Math.max(inner, outer) });
    inner = outer;
  }
  return direction * Number.POSITIVE_INFINITY;
}

interface Point {
  readonly x: number;
  readonly f: number;
}

/** How far to go from `last` towards `held`: the inverse quadratic step if it is safe, else half. */
function safeShare(last: Point, held: Point, old: Point): number {
  const xi = (last.x - held.x) / (old.x - held.x);
  const phi = (last.f - held.f) / (old.f - held.f);
  if (!(phi * phi < xi && (1 - phi) ** 2 < 1 - xi)) return 0.5;
  const linear = (last.f / (held.f - last.f)) * (old.f / (held.f - old.f));
  const bend = (last.f / (old.f - last.f)) * (held.f / (old.f - held.f));
  const share = linear + ((old.x - last.x) / (held.x - last.x)) * bend;
  return Number.isFinite(share) ? share : 0.5;
}

function value(f: (x: number) => number, x: number): number {
  const y = f(x);
  if (Number.isNaN(y)) throw new RangeError(`The function whose root is sought is NaN at ${x}.`);
  return y;
}
