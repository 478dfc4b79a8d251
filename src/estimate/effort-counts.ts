import { wholePiece } from '../tally/effort-pieces.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import { MEASURES, type Measure } from '../tally/measures.ts';
import type { Question } from '../tally/question.ts';
import type { TidyBite } from '../tidy/tidy-rows.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';

/** One soak (or one trip, where soaks were not logged) as a model of counts sees it. */
export interface EffortCount {
  readonly trip_id: string;
  readonly count: number;
  readonly lineHours: number;
  readonly levels: Readonly<Partial<Record<FactorName, string>>>;
}

/**
 * What came on each piece of recorded effort: bites (or hooked, caught, released fish) of every
 * soak with line-hours above zero, zeros included, with the soak's own levels.
 */
export function effortCounts(
  season: TidySeason,
  measure: Measure,
  question: Pick<Question, 'only' | 'from' | 'to'> & { readonly factors: readonly FactorName[] },
): EffortCount[] {
  const { units, unitOfBite } = season.effort;
  const counts = new Float64Array(units.length);
  for (const [at, bite] of season.bites.entries()) {
    const unit = unitOfBite[at] ?? null;
    if (unit !== null) counts[unit] = (counts[unit] ?? 0) + countOf(bite, measure);
  }
  const filters = Object.entries(question.only) as [FactorName, readonly string[]][];
  return units.flatMap((unit, at) => {
    const { date, trip_id } = unit.trip;
    if (unit.lineHours <= 0) return [];
    if (question.from !== null && date < question.from) return [];
    if (question.to !== null && date > question.to) return [];
    const piece = wholePiece(unit);
    const levels: Partial<Record<FactorName, string>> = {};
    for (const name of new Set([...question.factors, ...filters.map(([filter]) => filter)])) {
      const level = factorOf(name).ofEffort(piece);
      // A whole trip cannot be divided by what differs between its lines.
      if (level === undefined) return [];
      levels[name] = String(level ?? NOT_RECORDED);
    }
    if (filters.some(([name, kept]) => !kept.includes(levels[name] ?? ''))) return [];
    return [{ trip_id, count: counts[at] ?? 0, lineHours: unit.lineHours, levels }];
  });
}

function countOf(bite: TidyBite, measure: Measure): number {
  const counted = MEASURES[measure].numerator;
  const isHooked = bite.outcome !== 'missed';
  const isCaught = bite.outcome === 'released' || bite.outcome === 'kept';
  const holds = {
    bites: true,
    hooked: isHooked,
    caught: isCaught,
    released: bite.outcome === 'released',
  }[counted];
  return holds ? bite.count : 0;
}
