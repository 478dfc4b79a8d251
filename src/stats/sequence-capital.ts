/** One of the bounded values on whose mean is bet, e.g. a trip's difference. */
export interface WeighedValue {
  /** Between −1 and 1. */
  readonly value: number;
  /** What share of a full bet is put on it, 0 to 1, known before the value is. */
  readonly share: number;
}

/**
 * The bets: ten fixed ones, evenly spaced on the log scale, with equal parts of the capital. A bet
 * pays best near mean/variance of the values; differences of 2 to 50 points between rates whose
 * trip-level variance is 1/30 to 1/4 lie in this range. The grid is no condition of validity: any
 * fixed bets are fair.
 */
const BETS = Array.from({ length: 10 }, (_, j) => 0.1 * 40 ** (j / 9));

/** So many factors are multiplied before a logarithm is taken; none of them passes 1 + 2·4. */
const BLOCK = 32;

/**
 * ln of the capital of a bettor who started with 1 and bet, value after value, that their mean is
 * above `mean` (−1 to 1). Each bet is as high as allowed: never more than can be lost, 1/(1 + mean)
 * of the capital. Falls as `mean` rises. If the mean is no higher than `mean`, the bets are fair or
 * worse, and the capital ever reaches 1/α with probability α at most, however often one looks.
 * Source: Ville 1939 (the inequality); Howard, Ramdas, McAuliffe & Sekhon 2021, Ann. Stat. 49:1055
 * (mixtures of martingales); Waudby-Smith & Ramdas 2024, J. R. Stat. Soc. B 86:1 (betting on
 * bounded means).
 */
export function logCapitalAbove(values: readonly WeighedValue[], mean: number): number {
  const most = 1 / (1 + mean);
  const logs = BETS.map((bet) => logCapitalOf(values, Math.min(bet, most), mean));
  const highest = Math.max(...logs);
  if (highest === Number.NEGATIVE_INFINITY) return highest;
  const sum = logs.reduce((total, log) => total + Math.exp(log - highest), 0);
  return highest + Math.log(sum / BETS.length);
}

/** Of one bet alone. */
function logCapitalOf(values: readonly WeighedValue[], bet: number, mean: number): number {
  let log = 0;
  let product = 1;
  for (let i = 0; i < values.length; i++) {
    const { value, share } = values[i] as WeighedValue;
    // Rounding must not turn "all is lost" into a negative capital.
    product *= Math.max(0, 1 + bet * share * (value - mean));
    if (i % BLOCK === BLOCK - 1) {
      log += Math.log(product);
      product = 1;
    }
  }
  return log + Math.log(product);
}
