/** A smoothed series: one value for each point, in order of x. */
export interface Smoothed {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

export interface LowessOptions {
  /** Share of the points that each local line is drawn through; 2/3 by default. */
  readonly share?: number;
  /** How often points far off the curve lose weight and the curve is drawn again; 3 by default. */
  readonly rounds?: number;
  /** Points nearer than this to the last one fitted are put on a straight line between fits; 0. */
  readonly delta?: number;
}

/**
 * Cleveland's robust locally weighted regression: a straight line around every point through its
 * nearest neighbours, near ones weighing more, with points far off the curve played down.
 * `x` and `y` are of one length and need no order; x may repeat. An empty series comes back empty,
 * a single point as it is. Throws on numbers that are none.
 * Source: Cleveland 1979, J. Am. Stat. Assoc. 74:829; Cleveland 1981, Am. Stat. 35:54 (LOWESS).
 */
export function lowess(
  x: readonly number[],
  y: readonly number[],
  { share = 2 / 3, rounds = 3, delta = 0 }: LowessOptions = {},
): Smoothed {
  if (x.length !== y.length || [...x, ...y].some((value) => !Number.isFinite(value)))
    throw new RangeError('lowess needs as many finite x as y.');
  const order = x.map((_, i) => i).sort((a, b) => (x[a] as number) - (x[b] as number));
  const points: Points = {
    x: order.map((i) => x[i] as number),
    y: order.map((i) => y[i] as number),
  };
  const n = x.length;
  if (n < 2) return points;
  const neighbours = Math.max(Math.min(Math.floor(share * n + 1e-7), n), 2);
  const size = points.y.reduce((sum, value) => sum + Math.abs(value), 0) / n;
  let trust: readonly number[] = points.y.map(() => 1);
  for (let round = 0; ; round++) {
    const fitted = fitAll(points, trust, { neighbours, delta });
    if (round === rounds) return { x: points.x, y: fitted };
    const residuals = fitted.map((value, i) => Math.abs((points.y[i] as number) - value));
    const typical = 6 * median(residuals);
    const mean = residuals.reduce((sum, value) => sum + value, 0) / n;
    // A curve through more than half of the points leaves no scale to judge the others by, and what
    // is left by a curve through all of them is rounding.
    if (typical < 1e-7 * mean || mean < 1e-13 * size) return { x: points.x, y: fitted };
    trust = residuals.map((residual) => bisquare(residual, typical));
  }
}

interface Points {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

function fitAll(
  points: Points,
  trust: readonly number[],
  { neighbours, delta }: { readonly neighbours: number; readonly delta: number },
): number[] {
  const { x } = points;
  const n = x.length;
  const fitted = new Array<number>(n).fill(0);
  let left = 0;
  let last = -1;
  for (let i = 0; i < n; ) {
    const here = x[i] as number;
    const right = (): number => left + neighbours - 1;
    while (right() < n - 1 && here - (x[left] as number) > (x[right() + 1] as number) - here)
      left++;
    const reach = Math.max(here - (x[left] as number), (x[right()] as number) - here);
    fitted[i] = localLine(points, trust, { at: i, left, reach });
    joinUp(fitted, x, { from: last, to: i });
    last = i;
    // Ties share the fit; points within delta wait to be joined up.
    let next = i + 1;
    for (; next < n && (x[next] as number) <= here + delta; next++)
      if (x[next] === here) {
        fitted[next] = fitted[i] as number;
        last = next;
      }
    i = Math.max(last + 1, next - 1);
  }
  return fitted;
}

/** Puts the points strictly between two fitted ones on the straight line that joins them. */
function joinUp(
  fitted: number[],
  x: readonly number[],
  { from, to }: { readonly from: number; readonly to: number },
): void {
  if (from < 0) return;
  const width = (x[to] as number) - (x[from] as number);
  for (let j = from + 1; j < to; j++) {
    const share = ((x[j] as number) - (x[from] as number)) / width;
    fitted[j] = share * (fitted[to] as number) + (1 - share) * (fitted[from] as number);
  }
}

/** The height at one point of the line through its neighbours; its own y if none has weight. */
function localLine(
  { x, y }: Points,
  trust: readonly number[],
  { at, left, reach }: { readonly at: number; readonly left: number; readonly reach: number },
): number {
  const here = x[at] as number;
  const weights: number[] = [];
  // Ties with the farthest neighbour count too, and exact ties alone where reach is 0.
  for (let j = left; j < x.length && (x[j] as number) - here <= 0.999 * reach; j++)
    weights.push(tricube(Math.abs((x[j] as number) - here), reach) * (trust[j] as number));
  const total = weights.reduce((sum, w) => sum + w, 0);
  if (total <= 0) return y[at] as number;
  const meanOf = (value: (j: number) => number): number =>
    weights.reduce((sum, w, k) => sum + w * value(left + k), 0) / total;
  const centre = meanOf((j) => x[j] as number);
  const spread = meanOf((j) => ((x[j] as number) - centre) ** 2);
  const height = meanOf((j) => y[j] as number);
  const range = (x.at(-1) as number) - (x[0] as number);
  if (Math.sqrt(spread) <= 0.001 * range) return height;
  const slope = meanOf((j) => ((x[j] as number) - centre) * (y[j] as number)) / spread;
  return height + slope * (here - centre);
}

function tricube(distance: number, reach: number): number {
  if (distance <= 0.001 * reach) return 1;
  return distance > 0.999 * reach ? 0 : (1 - (distance / reach) ** 3) ** 3;
}

function bisquare(residual: number, reach: number): number {
  if (residual <= 0.001 * reach) return 1;
  return residual > 0.999 * reach ? 0 : (1 - (residual / reach) ** 2) ** 2;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] as number;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] as number) + upper) / 2;
}
