import type { Basis } from '../base/estimate.ts';
import type { TwoRates } from './difference-two-rates.ts';
import type { Level } from './interval-level.ts';
import { total } from './mantel-haenszel-strata.ts';

/** A stratum of rates with what every Mantel–Haenszel formula takes from it. */
export interface WeighedRates extends TwoRates {
  /** t₁t₂/t, the weight of a difference. */
  readonly weight: number;
  /** Each group's events carried to the weight: x₁t₂/t and x₂t₁/t. */
  readonly first: number;
  readonly second: number;
}

/**
 * The strata with exposure in both groups, weighed; the others carry no weight in any formula.
 * @throws RangeError for a negative number or NaN, which are mistakes of the caller.
 */
export function weighedRates(strata: readonly TwoRates[]): WeighedRates[] {
  for (const stratum of strata) checkRates(stratum);
  return strata
    .filter(({ exposure1, exposure2 }) => exposure1 > 0 && exposure2 > 0)
    .map((stratum) => {
      const share1 = stratum.exposure1 / (stratum.exposure1 + stratum.exposure2);
      const share2 = stratum.exposure2 / (stratum.exposure1 + stratum.exposure2);
      const [first, second] = [stratum.events1 * share2, stratum.events2 * share1];
      return { ...stratum, weight: stratum.exposure1 * share2, first, second };
    });
}

/** Events (`n`) and exposure of both groups behind a comparison of rates over strata. */
export function basisOfRates(
  used: readonly TwoRates[],
  { level, method }: Level & { readonly method: string },
): Basis {
  const n = total(used, ({ events1, events2 }) => events1 + events2);
  const exposure = total(used, ({ exposure1, exposure2 }) => exposure1 + exposure2);
  return { level, method, n, exposure, notes: [] };
}

function checkRates({ events1, exposure1, events2, exposure2 }: TwoRates): void {
  const numbers = [events1, exposure1, events2, exposure2];
  if (!numbers.every((value) => value >= 0 && Number.isFinite(value)))
    throw new RangeError(
      `Events and exposures are 0 or more, not ${events1} in ${exposure1} and ${events2} in ${exposure2}.`,
    );
}
