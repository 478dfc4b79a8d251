import type { FactorName } from '../tally/factors.ts';
import { MEASURES } from '../tally/measures.ts';
import type { TallyRow } from '../tally/tallies.ts';
import type { DroppedCovariate } from './lens.ts';
import { type Compared, eventsAndUnits } from './level-pairs.ts';
import { isProportion } from './proportion.ts';
import { isTiedAmong } from './tied-factors.ts';

/** Factors that are the same thing seen coarser or finer: holding one equal fixes the other. */
const SAME_THING: readonly (readonly [FactorName, FactorName])[] = [
  ['position', 'side'],
  ['position', 'reach'],
  ['month', 'week'],
];

/** What the adjusted lens is fitted on. */
export interface AdjustedRows {
  readonly rows: readonly TallyRow[];
  readonly covariates: readonly FactorName[];
  readonly dropped: readonly DroppedCovariate[];
  /** Those of `dropped` that are one level of a covariate, whose other levels stay. */
  readonly leftOut: readonly LeftOutLevel[];
}

/** A level in which everything ended one way. */
export interface LeftOutLevel extends DroppedCovariate {
  readonly level: string;
}

/** Whether a covariate is the compared factor itself, or the same thing seen coarser or finer. */
export function isSameThing(factor: FactorName, covariate: FactorName): boolean {
  return (
    factor === covariate ||
    SAME_THING.some((pair) => pair.includes(factor) && pair.includes(covariate))
  );
}

/**
 * The tally rows and covariates an adjusted comparison can use: rows of the levels with a
 * denominator; covariates that vary and in which levels meet. A covariate's level in which all bites
 * or none ended one way says nothing about A against B; its rows are set aside and the level is named.
 */
export function adjustedRows(
  rows: readonly TallyRow[],
  contrast: Compared,
  asked: readonly FactorName[],
): AdjustedRows {
  const { factor, levels } = contrast;
  const dropped: DroppedCovariate[] = [];
  const compared = rows.filter(
    (row) => levels.includes(row[factor] ?? '') && eventsAndUnits(row, contrast.measure).units > 0,
  );
  const covariates = asked.filter((covariate) => {
    if (isSameThing(factor, covariate)) return false;
    if (new Set(compared.map((row) => row[covariate])).size < 2) {
      dropped.push({
        covariate,
        reason: 'It has only one level here, so there is nothing to hold equal.',
      });
      return false;
    }
    return !isTiedAmong(compared, contrast, covariate);
  });
  const { kept, leftOut } = withoutOneWayLevels(compared, contrast, covariates);
  const varying = covariates.filter(
    (covariate) => new Set(kept.map((row) => row[covariate])).size > 1,
  );
  const reasons = leftOut.map(({ covariate, reason }) => ({ covariate, reason }));
  return { rows: kept, covariates: varying, dropped: [...dropped, ...reasons], leftOut };
}

/** Sets levels aside until none is left that is all or none; one may make another so. */
function withoutOneWayLevels(
  rows: readonly TallyRow[],
  contrast: Compared,
  covariates: readonly FactorName[],
): { readonly kept: readonly TallyRow[]; readonly leftOut: readonly LeftOutLevel[] } {
  const leftOut: LeftOutLevel[] = [];
  let kept = rows;
  for (;;) {
    const found = covariates.flatMap((covariate) => {
      const level = oneWayLevel(kept, contrast, covariate);
      return level === null ? [] : [{ covariate, level }];
    })[0];
    if (found === undefined) return { kept, leftOut };
    const { covariate, level } = found;
    const of = kept.filter((row) => row[covariate] === level);
    leftOut.push({ covariate, level, reason: oneWayReason(of, contrast, level) });
    kept = kept.filter((row) => row[covariate] !== level);
  }
}

function oneWayLevel(
  rows: readonly TallyRow[],
  { measure }: Compared,
  covariate: FactorName,
): string | null {
  const totals = new Map<string, { events: number; units: number }>();
  for (const row of rows) {
    const level = row[covariate] ?? '';
    const { events, units } = eventsAndUnits(row, measure);
    const sum = totals.get(level) ?? { events: 0, units: 0 };
    totals.set(level, { events: sum.events + events, units: sum.units + units });
  }
  if (totals.size < 2) return null;
  for (const [level, { events, units }] of totals) {
    if (events === 0 || (isProportion(measure) && events === units)) return level;
  }
  return null;
}

function oneWayReason(rows: readonly TallyRow[], { measure }: Compared, level: string): string {
  const events = rows.reduce((sum, row) => sum + eventsAndUnits(row, measure).events, 0);
  const { numerator, denominator } = MEASURES[measure];
  const ended =
    events === 0
      ? `nothing there was ${numerator === 'bites' ? 'bitten' : numerator}`
      : `all ${denominator} there were ${numerator}`;
  return `Level ${level} is left out of this lens: ${ended}, which says nothing about the difference.`;
}
