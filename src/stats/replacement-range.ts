import { findRoot } from './root.ts';

/** How far above the least cost still counts as near it. */
const NEAR = 0.05;
const FARTHEST = 1e300;

/**
 * The ages around `best` at which a cost rate stays within 5 % of its least value, for a cost rate
 * that falls up to `best` and rises from there. A flat curve gives a wide range, which is what a
 * reader must know before keeping to the best age; `upper` is Infinity where the rise never comes.
 * Source: common practice, no source.
 */
export function costRange(
  costRate: (age: number) => number,
  best: number,
): { readonly lower: number; readonly upper: number } {
  const most = (1 + NEAR) * costRate(best);
  const excess = (logFactor: number): number => costRate(best * Math.exp(logFactor)) - most;
  const edge = (direction: 1 | -1): number => {
    let inner = 0;
    for (let reach = 0.25; best * Math.exp(reach) < FARTHEST; reach *= 2) {
      const outer = direction * reach;
      if (excess(outer) > 0)
        return (
          best *
          Math.exp(
            findRoot(excess, { lower: Math.min(inner, outer), upper: Math.max(inner, outer) }),
          )
        );
      inner = outer;
    }
    return direction > 0 ? Number.POSITIVE_INFINITY : 0;
  };
  return { lower: edge(-1), upper: edge(1) };
}
