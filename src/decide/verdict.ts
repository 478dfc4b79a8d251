import type { Estimate } from '../base/estimate.ts';
import type { Comparison } from '../estimate/comparison.ts';
import type { Lens, LensName } from '../estimate/lens.ts';
import { isProportion } from '../estimate/proportion.ts';
import type { Settings } from '../settings/settings.ts';
import type { Measure } from '../tally/measures.ts';

export type VerdictWord = 'clear' | 'alike' | 'open' | 'tied';

/** What a comparison comes to. */
export interface Verdict {
  readonly word: VerdictWord;
  /** The lens it rests on; null where the levels cannot be told apart, or nothing was counted. */
  readonly primary: LensName | null;
  /** The smallest difference worth acting on: a proportion, or a share of a rate. */
  readonly margin: number;
  /** Whether the interval excludes no difference at all. */
  readonly isDifference: boolean;
}

const LENSES_BY_CARE: readonly LensName[] = ['adjusted', 'same_day', 'as_logged'];

/** The practical margin of a measure: 5 points of a proportion, a tenth of a rate, or as set. */
export function marginOf(measure: Measure, settings: Settings): number {
  return settings.practical_margin[measure] ?? (isProportion(measure) ? 0.05 : 0.1);
}

/**
 * The verdict on the most careful lens that stands. `tied`: the factor never met a covariate's
 * levels apart from the other. `alike`: the whole interval lies inside the margin, even where it
 * excludes no difference. `clear`: it excludes no difference. Else `open`; so it is, on no lens,
 * where there is no figure to judge by: no bite on one of the two, say.
 */
export function verdictOf(comparison: Comparison, settings: Settings): Verdict {
  const margin = marginOf(comparison.measure, settings);
  const primary = primaryLens(comparison);
  const undecided = { primary: null, margin, isDifference: false };
  if (comparison.tied.length > 0) return { word: 'tied', ...undecided };
  if (primary === null) return { word: 'open', ...undecided };
  const { measure } = comparison;
  const figure = decidingFigure(comparison.lenses[primary], measure);
  const isDifference = leavesOutNone(figure, measure);
  const inside = isInsideMargin(figure, measure, margin);
  return {
    word: inside ? 'alike' : isDifference ? 'clear' : 'open',
    primary,
    margin,
    isDifference,
  };
}

/** The least a lens must rest on to carry the verdict. Common practice, no source. */
const ENOUGH = { bites: 10, trips: 5 };

/** The most careful lens that stands and rests on enough; if none does, the one that has most. */
function primaryLens({ lenses, measure }: Comparison): LensName | null {
  const standing = LENSES_BY_CARE.filter(
    (name) =>
      lenses[name].refused === null && decidingFigure(lenses[name], measure).kind === 'estimated',
  );
  const enough = standing.find(
    (name) => lenses[name].bites >= ENOUGH.bites && lenses[name].trips >= ENOUGH.trips,
  );
  if (enough !== undefined) return enough;
  const [most = null] = [...standing].sort((a, b) => lenses[b].bites - lenses[a].bites);
  return most;
}

/** The figure a verdict is read from: the difference of proportions, the ratio of rates. */
export function decidingFigure(lens: Lens, measure: Measure): Estimate {
  return isProportion(measure) ? lens.difference : lens.ratio;
}

/** Whether the interval excludes no difference at all. */
export function leavesOutNone(figure: Estimate, measure: Measure): boolean {
  if (figure.kind === 'not-estimable') return false;
  const none = isProportion(measure) ? 0 : 1;
  return figure.lower > none || figure.upper < none;
}

/** Whether the whole interval is too small a difference to matter. */
export function isInsideMargin(figure: Estimate, measure: Measure, margin: number): boolean {
  if (figure.kind === 'not-estimable') return false;
  const none = isProportion(measure) ? 0 : 1;
  return figure.lower > none - margin && figure.upper < none + margin;
}
