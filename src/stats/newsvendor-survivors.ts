import { betaTails } from './distributions.ts';

/**
 * P(at least `need` of `load` baits are still alive), when each survives by itself with chance
 * `survival` (0 to 1). Where deaths come together (oxygen, heat) the true chance is lower.
 * Source: binomial thinning; NIST DLMF 8.17.5.
 */
export function enoughAlive(load: number, need: number, survival: number): number {
  check(load, need, survival);
  if (need === 0) return 1;
  if (need > load) return 0;
  return betaTails(survival, need, load - need + 1).lower;
}

/**
 * The smallest load of which at least `need` are alive with chance `level` (0 to 1, not 1 itself
 * unless all survive). Infinity where no load is enough: none survive, or certainty is asked for.
 * Source: as for `enoughAlive`.
 */
export function loadForSurvivors(
  need: number,
  { survival, level }: { readonly survival: number; readonly level: number },
): number {
  check(need, need, survival);
  if (!(level >= 0 && level <= 1))
    throw new RangeError(`A chance lies between 0 and 1, not at ${level}.`);
  if (need === 0 || level === 0) return 0;
  if (survival === 1) return need;
  if (survival === 0 || level === 1) return Number.POSITIVE_INFINITY;
  let below = need - 1;
  let above = Math.ceil(need / survival);
  while (enoughAlive(above, need, survival) < level) [below, above] = [above, 2 * above];
  while (above - below > 1) {
    const middle = Math.floor((below + above) / 2);
    if (enoughAlive(middle, need, survival) < level) below = middle;
    else above = middle;
  }
  return above;
}

function check(load: number, need: number, survival: number): void {
  for (const count of [load, need])
    if (!(Number.isInteger(count) && count >= 0))
      throw new RangeError(`A number of baits is whole and 0 or more, not ${count}.`);
  if (!(survival >= 0 && survival <= 1))
    throw new RangeError(`A share that survives lies between 0 and 1, not at ${survival}.`);
}
