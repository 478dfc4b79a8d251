/** A distribution function at one point: both tails, and their logarithms where they underflow. */
export interface Tails {
  /** P(X ≤ x). */
  readonly lower: number;
  /** P(X > x), not taken as 1 − lower where that would lose digits. */
  readonly upper: number;
  readonly logLower: number;
  readonly logUpper: number;
}

/** Which tail a probability means: `lower` is P(X ≤ x), `upper` is P(X > x). */
export type Tail = 'lower' | 'upper';

/** Both tails from one that was worked out, and from its logarithm. */
export function tailsFrom(tail: Tail, logProbability: number): Tails {
  const near = Math.min(0, logProbability);
  const [probability, rest] = [Math.exp(near), Math.max(0, -Math.expm1(near))];
  const logRest = probability > 0.5 ? Math.log(rest) : Math.log1p(-probability);
  return tail === 'lower'
    ? { lower: probability, upper: rest, logLower: near, logUpper: logRest }
    : { lower: rest, upper: probability, logLower: logRest, logUpper: near };
}

/** The same distribution seen from the other side, x → −x. */
export function mirrored({ lower, upper, logLower, logUpper }: Tails): Tails {
  return { lower: upper, upper: lower, logLower: logUpper, logUpper: logLower };
}

/**
 * Solves log tail(u) = log p by Newton steps. Both tails of every distribution here are log-concave
 * in the coordinate used, so that steps never leave the right side once they are on it.
 * @param logTail logarithm of the tail and its slope at u
 * @param start first guess of u
 */
export function solveTail(
  logTail: (u: number) => { readonly value: number; readonly slope: number },
  target: number,
  start: number,
): number {
  let u = start;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const { value, slope } = logTail(u);
    const step = (target - value) / slope;
    u += step;
    const close = Math.abs(target - value) <= CLOSE;
    if (close || !(Math.abs(step) > 4 * Number.EPSILON * (1 + Math.abs(u)))) return u;
  }
  return u;
}

/** Where a continued fraction stops: its last factor is 1 to the rounding of a double. */
export const SETTLED = 1.5 * Number.EPSILON;

/** Newton doubles its digits each round: so near in ln p, the last step leaves nothing to gain. */
const CLOSE = 1e-8;
const MOST_ROUNDS = 200;

/**
 * The tail and probability to solve for, the smaller of the two, because that one has the digits.
 * @throws RangeError for a probability outside 0 to 1.
 */
export function smallerTail(p: number, tail: Tail): { tail: Tail; p: number } {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`A probability lies between 0 and 1, not at ${p}.`);
  if (p <= 0.5) return { tail, p };
  return { tail: tail === 'lower' ? 'upper' : 'lower', p: 1 - p };
}
