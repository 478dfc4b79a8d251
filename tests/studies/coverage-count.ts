import type { Estimate } from '../../src/base/estimate.ts';

/** How often an interval held the truth. */
export interface Cover {
  /** Seasons that gave an interval, and those that gave none. */
  readonly intervals: number;
  readonly none: number;
  readonly covered: number;
  /** Intervals wholly below, and wholly above, the truth. */
  readonly tooLow: number;
  readonly tooHigh: number;
}

const NONE_YET: Cover = { intervals: 0, none: 0, covered: 0, tooLow: 0, tooHigh: 0 };

/** Counts, under each name, whether figures hold their truths. */
export class CoverCount {
  readonly #covers = new Map<string, Cover>();

  add(name: string, figure: Estimate, truth: number): void {
    const so = this.#covers.get(name) ?? NONE_YET;
    if (figure.kind !== 'estimated' || !Number.isFinite(figure.upper - figure.lower)) {
      this.#covers.set(name, { ...so, none: so.none + 1 });
      return;
    }
    const tooLow = figure.upper < truth;
    const tooHigh = figure.lower > truth;
    this.#covers.set(name, {
      ...so,
      intervals: so.intervals + 1,
      covered: so.covered + Number(!tooLow && !tooHigh),
      tooLow: so.tooLow + Number(tooLow),
      tooHigh: so.tooHigh + Number(tooHigh),
    });
  }

  get covers(): ReadonlyMap<string, Cover> {
    return this.#covers;
  }
}

/** Share of intervals that held the truth; 0 where there were none. */
export function shareCovered({ covered, intervals }: Cover): number {
  return intervals === 0 ? 0 : covered / intervals;
}
