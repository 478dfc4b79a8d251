/** Round numbers for an axis, and how many decimals they need. */
export interface Ticks {
  readonly domain: readonly [number, number];
  readonly values: readonly number[];
  readonly decimals: number;
}

/** Steps an axis may take, times a power of ten. */
const STEPS = [1, 2, 5, 10] as const;

/**
 * A domain widened to round numbers with ticks on them.
 *
 * @param range the smallest and largest value to show; equal ends are given room.
 * @param most the greatest number of steps that there is room for; at least 1.
 */
export function roundTicks(range: readonly [number, number], most: number): Ticks {
  const [low, high] = range[0] < range[1] ? range : [range[0] - 0.5, range[0] + 0.5];
  const rough = (high - low) / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * (STEPS.find((candidate) => candidate * power >= rough * (1 - 1e-9)) ?? 10);
  const first = Math.floor(low / step + 1e-9);
  const last = Math.ceil(high / step - 1e-9);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const values = Array.from({ length: last - first + 1 }, (_, i) => tidy((first + i) * step));
  return { domain: [values[0] ?? low, values.at(-1) ?? high], values, decimals };
}

/** Takes off the tail that binary fractions leave: 0.30000000000000004 is 0.3. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}
