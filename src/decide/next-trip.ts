import type { Question } from '../tally/question.ts';
import { remembered } from '../tidy/remember.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type Stock, stockOf } from './load-stock.ts';
import { type RespoolAdvice, respoolAdvice } from './respool-advice.ts';

/** The part of the log advice is taken from, and how intervals are made. */
export interface AdviceRequest extends Omit<Question, 'by'> {
  readonly level: number;
  readonly seed: number;
}

/** Bait for one trip, bought new, without limits. */
const NEXT_TRIP = {
  nextTrips: 1,
  month: null,
  tank: null,
  budget: null,
  held: {},
  without: [],
} as const;

/** Wear, respool ages and the reels now; worked out once for a season. */
export function respoolNow(season: TidySeason, request: AdviceRequest): RespoolAdvice {
  const { only, from, to, level, seed } = request;
  const asked = { only, from, to, level, seed };
  return remembered(season, { respool: asked }, () => respoolAdvice(season, asked));
}

/** What bait brings, and what to load for the next trip; worked out once for a season. */
export function stockForNextTrip(season: TidySeason, request: AdviceRequest): Stock {
  const { only, from, to, level, seed } = request;
  const asked = { only, from, to, level, seed, ...NEXT_TRIP };
  return remembered(season, { stock: asked }, () => stockOf(season, asked));
}
