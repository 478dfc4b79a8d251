import { type BaitDemand, fits, type LoadLimits, savingsUpTo } from './load-allocation-basket.ts';

/** More part-loads than this are too many to go through. */
const MOST_STATES = 20_000;
const MOST_LOAD = 5_000;

/** Loads of the first few baits, with what they take and save together. */
interface State {
  readonly loads: readonly number[];
  readonly space: number;
  readonly spent: number;
  readonly saving: number;
}

/**
 * The loads of greatest saving within the limits, by going through all of them bait after bait and
 * dropping every part-load that another one beats in room, money and saving at once. `most` bounds
 * each load from above. null: too many part-loads remain.
 * Source: dynamic programming with dominance, Nemhauser & Ullmann 1969, Manage. Sci. 15:494.
 */
export function exactLoads(
  baits: readonly BaitDemand[],
  most: readonly number[],
  limits: LoadLimits,
): readonly number[] | null {
  let states: State[] = [{ loads: [], space: 0, spent: 0, saving: 0 }];
  for (const [i, bait] of baits.entries()) {
    const top = most[i] as number;
    if (top > MOST_LOAD || states.length * (top + 1) > 10 * MOST_STATES) return null;
    const savings = savingsUpTo(bait, top);
    const grown = states.flatMap((state) => extended(state, bait, { savings, limits }));
    states = undominated(grown);
    if (states.length > MOST_STATES) return null;
  }
  return states.reduce((best, state) => (state.saving > best.saving ? state : best)).loads;
}

/** One part-load with every load of the next bait that still fits. */
function extended(
  state: State,
  bait: BaitDemand,
  { savings, limits }: { readonly savings: readonly number[]; readonly limits: LoadLimits },
): State[] {
  const grown: State[] = [];
  let saving = state.saving;
  for (let load = 0; load <= savings.length; load++) {
    if (load > 0) saving += savings[load - 1] as number;
    const space = state.space + load * bait.space;
    const spent = state.spent + load * bait.price;
    if (!fits({ space, spent }, limits)) break;
    grown.push({ loads: [...state.loads, load], space, spent, saving });
  }
  return grown;
}

/**
 * Those that no other beats: in order of room, the best of each keeps a staircase of money against
 * saving, and a state stays only if it stands above the stair at its money.
 */
function undominated(states: readonly State[]): State[] {
  const ordered = [...states].sort(
    (a, b) => a.space - b.space || a.spent - b.spent || b.saving - a.saving,
  );
  const stair: State[] = [];
  return ordered.filter((state) => {
    const after = firstDearer(stair, state.spent);
    const below = stair[after - 1];
    if (below !== undefined && below.saving >= state.saving) return false;
    let end = after;
    while (end < stair.length && (stair[end] as State).saving <= state.saving) end++;
    const start = below?.spent === state.spent ? after - 1 : after;
    stair.splice(start, end - start, state);
    return true;
  });
}

/** Place of the first state of a stair, in order of money, that is dearer than `spent`. */
function firstDearer(stair: readonly State[], spent: number): number {
  let [low, high] = [0, stair.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((stair[middle] as State).spent <= spent) low = middle + 1;
    else high = middle;
  }
  return low;
}
