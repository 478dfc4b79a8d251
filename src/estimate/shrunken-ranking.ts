import { betaBinomialFit } from '../stats/empirical-bayes-beta-binomial.ts';
import { gammaPoissonFit } from '../stats/empirical-bayes-gamma-poisson.ts';
import type { ShrunkenOption } from '../stats/empirical-bayes-option.ts';
import {
  probabilityBestProportion,
  probabilityBestRate,
  type Standing,
} from '../stats/probability-best.ts';
import type { GroupRate } from './group-rate.ts';
import { isProportion } from './proportion.ts';

/** A level with its raw figure and what is left of it once luck is taken into account. */
export interface RankedLevel {
  readonly raw: GroupRate;
  readonly shrunken: { readonly estimate: number; readonly lower: number; readonly upper: number };
  /** Probability that this level is truly the best of those ranked. */
  readonly probabilityBest: number;
  /** Probability that it is within the margin of the best. */
  readonly probabilityNearBest: number;
}

/** Levels ranked fairly, best first; or why they cannot be. */
export interface ShrunkenRanking {
  readonly levels: readonly RankedLevel[];
  readonly refused: string | null;
  readonly notes: readonly string[];
}

/** Intervals of shrunken figures hold this much; shorter than 95 % by the house's own rule. */
const RANKING_LEVEL = 0.9;

/**
 * Draws every level's figure towards the common one by how little it rests on, and says how
 * probably each is the best. Counts are effective ones, divided by the design effect of their own
 * trips, or fish of one day would count as if caught on many.
 * @param rates one measure, one row a level; rows without a figure are left out.
 * @param margin how near the best still counts as near: a difference, or a share of a rate.
 * Source: the functions of the statistics core named `empirical-bayes-*` and `probability-best`.
 */
export function shrunkenRanking(rates: readonly GroupRate[], margin: number): ShrunkenRanking {
  const given = rates.filter((row) => row.rate.kind === 'estimated' && row.denominator > 0);
  const [first] = given;
  if (first === undefined) return { levels: [], refused: 'Nothing was counted.', notes: [] };
  return isProportion(first.measure) ? rankShares(given, margin) : rankRates(given, margin);
}

function rankShares(given: readonly GroupRate[], margin: number): ShrunkenRanking {
  const trials = given.map((row) => ({
    successes: row.numerator / effectOf(row),
    trials: row.denominator / effectOf(row),
  }));
  const fit = betaBinomialFit(trials, { level: RANKING_LEVEL });
  if (fit.kind === 'not-estimable') return { levels: [], refused: fit.reason, notes: [] };
  const standings = probabilityBestProportion(fit.options, { difference: margin });
  return ranked(given, { options: fit.options, standings, notes: fit.notes });
}

function rankRates(given: readonly GroupRate[], margin: number): ShrunkenRanking {
  const events = given.map((row) => ({
    events: row.numerator / effectOf(row),
    exposure: row.denominator / effectOf(row),
  }));
  const fit = gammaPoissonFit(events, { level: RANKING_LEVEL });
  if (fit.kind === 'not-estimable') return { levels: [], refused: fit.reason, notes: [] };
  const standings = probabilityBestRate(fit.options, { share: margin });
  return ranked(given, { options: fit.options, standings, notes: fit.notes });
}

function effectOf(row: GroupRate): number {
  return Math.max(1, row.design_effect ?? 1);
}

function ranked(
  given: readonly GroupRate[],
  found: {
    readonly options: readonly ShrunkenOption[];
    readonly standings: readonly Standing[];
    readonly notes: readonly string[];
  },
): ShrunkenRanking {
  const levels = given.flatMap((raw, at): RankedLevel[] => {
    const option = found.options[at];
    const standing = found.standings[at];
    if (option === undefined || standing === undefined) return [];
    const { posteriorMean, lower, upper } = option;
    return [
      {
        raw,
        shrunken: { estimate: posteriorMean, lower, upper },
        probabilityBest: standing.best,
        probabilityNearBest: standing.nearBest,
      },
    ];
  });
  levels.sort((a, b) => b.shrunken.estimate - a.shrunken.estimate);
  return { levels, refused: null, notes: found.notes };
}
