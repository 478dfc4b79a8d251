import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { mersenne } from 'pure-rand/generator/mersenne';
import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus';
import { normalQuantile } from './distributions.ts';

/** Below this mean a count is drawn by walking up its probabilities, above it by halving. */
const WALK_LIMIT = 30;

/**
 * A seeded stream of random numbers: the same seed gives the same numbers on every machine.
 * Each call moves the stream on, so the order of calls is part of the result.
 */
export class Random {
  readonly #generator;

  /** @param seed whole number from 0 to 4294967295; anything else throws. */
  constructor(seed: number) {
    if (!Number.isInteger(seed) || seed < 0 || seed > 0xffffffff)
      throw new RangeError(`A seed is a whole number from 0 to 4294967295, not ${seed}.`);
    // Seeds 1, 2, 3 put straight into the fast generator give streams that move together; a second
    // generator scrambles them first.
    const scrambler = mersenne(seed);
    this.#generator = xoroshiro128plusFromState(Array.from({ length: 4 }, () => scrambler.next()));
  }

  /** A number in [0, 1), all multiples of 2⁻⁵³ equally likely. */
  uniform(): number {
    return uniformFloat64(this.#generator);
  }

  /** A whole number from 0 to `count` − 1, each equally likely; `count` at least 1. */
  integer(count: number): number {
    check(count >= 1, `A choice is made among at least 1, not ${count}.`);
    return uniformInt(this.#generator, 0, count - 1);
  }

  /** A draw from the standard normal distribution, by inversion: one uniform a draw. */
  normal(): number {
    return normalQuantile(this.#open());
  }

  /**
   * A draw from the gamma distribution of this shape (above 0) and scale 1; mean = shape.
   * Source: Marsaglia & Tsang 2000; below shape 1 by their power of a uniform.
   */
  gamma(shape: number): number {
    check(shape > 0 && Number.isFinite(shape), `A gamma shape is above 0, not ${shape}.`);
    if (shape < 1) return this.gamma(shape + 1) * this.#open() ** (1 / shape);
    const d = shape - 1 / 3;
    for (;;) {
      const x = this.normal();
      const v = (1 + x / Math.sqrt(9 * d)) ** 3;
      if (v > 0 && Math.log(this.#open()) < x * x * 0.5 + d * (1 - v + Math.log(v))) return d * v;
    }
  }

  /** A draw from the beta distribution; both parameters above 0. */
  beta(a: number, b: number): number {
    const first = this.gamma(a);
    return first / (first + this.gamma(b));
  }

  /**
   * A Poisson count of this mean, 0 or more (a mean of 0 gives 0).
   * Source: Ahrens & Dieter 1974: the time of the m-th arrival is gamma; what lies before or after
   * it is again binomial or Poisson, so a large mean is cut down in a few steps.
   */
  poisson(mean: number): number {
    check(mean >= 0 && Number.isFinite(mean), `A Poisson mean is 0 or more, not ${mean}.`);
    if (mean < WALK_LIMIT) return this.#walk(Math.exp(-mean), (k) => mean / k);
    const m = Math.floor(mean * 0.875);
    const arrival = this.gamma(m);
    return arrival > mean ? this.binomial(m - 1, mean / arrival) : m + this.poisson(mean - arrival);
  }

  /**
   * Successes in `n` trials (a whole number, 0 or more) of probability `p` (0 to 1).
   * Source: Ahrens & Dieter 1974: the middle order statistic of n uniforms is beta, and tells on
   * which side of p half of them lie.
   */
  binomial(n: number, p: number): number {
    check(Number.isInteger(n) && n >= 0, `Binomial trials are a whole number, not ${n}.`);
    check(p >= 0 && p <= 1, `A probability lies between 0 and 1, not ${p}.`);
    if (p > 0.5) return n - this.binomial(n, 1 - p);
    if (n * p < WALK_LIMIT) {
      const odds = p / (1 - p);
      return this.#walk(Math.exp(n * Math.log1p(-p)), (k) => (odds * (n + 1 - k)) / k, n);
    }
    const middle = 1 + Math.floor(n / 2);
    const value = this.beta(middle, n + 1 - middle);
    return value >= p
      ? this.binomial(middle - 1, p / value)
      : middle + this.binomial(n - middle, Math.min(1, (p - value) / (1 - value)));
  }

  /**
   * A count that varies more than Poisson: mean `mean`, variance mean + mean²/size (NB2);
   * `size` above 0.
   */
  negativeBinomial(mean: number, size: number): number {
    return this.poisson((this.gamma(size) * mean) / size);
  }

  /** The numbers 0 to `count` − 1 in random order (Fisher–Yates shuffle). */
  permutation(count: number): number[] {
    const order = Array.from({ length: count }, (_, index) => index);
    for (let last = count - 1; last > 0; last--) {
      const other = this.integer(last + 1);
      const held = order[last] as number;
      order[last] = order[other] as number;
      order[other] = held;
    }
    return order;
  }

  /** A uniform above 0, for logarithms, powers and inversion. */
  #open(): number {
    return this.uniform() + 2 ** -54;
  }

  /** Inverts a count distribution from P(0) and the ratios P(k)/P(k − 1). */
  #walk(atZero: number, ratio: (k: number) => number, most = Number.POSITIVE_INFINITY): number {
    let left = this.uniform() - atZero;
    let probability = atZero;
    let count = 0;
    while (left >= 0 && count < most && (probability > 0 || count === 0)) {
      count++;
      probability *= ratio(count);
      left -= probability;
    }
    return count;
  }
}

function check(holds: boolean, message: string): void {
  if (!holds) throw new RangeError(message);
}
