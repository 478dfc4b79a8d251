import type { WearRequest } from '../estimate/wear-by-line-type.ts';
import { type LineWear, type SeasonWear, wearByLineType } from '../estimate/wear-by-line-type.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type RespoolAge, respoolAge } from './respool-age.ts';
import { type RodDue, rodsDue } from './respool-due.ts';
import { knownPrices, type RespoolPrices, respoolPrices } from './respool-prices.ts';
import { type SeasonCost, seasonCost } from './respool-season-cost.ts';
import { type RespoolAtPrice, respoolAtPrices } from './respool-sensitivity.ts';
import { type RespoolWords, respoolWords } from './respool-sentence.ts';

/** One line type: how it wears, when to respool it, and what it costs. */
export interface LineAdvice {
  readonly line: LineWear;
  readonly prices: RespoolPrices;
  readonly advice: RespoolAge;
  readonly cost: SeasonCost;
  /** The age at other prices of a lost fish; empty where wear gives no age. */
  readonly atPrices: readonly RespoolAtPrice[];
  readonly words: RespoolWords;
  /** All the words in a row. */
  readonly sentence: string;
}

/** When to respool every line type of a log, and which reels are due. */
export interface RespoolAdvice {
  readonly wear: SeasonWear;
  readonly lines: readonly LineAdvice[];
  readonly rods: readonly RodDue[];
}

/** Wear, respool age, season cost and due list, all from one reading of the log. */
export function respoolAdvice(season: TidySeason, request: WearRequest): RespoolAdvice {
  const wear = wearByLineType(season, request);
  const seasonFights = wear.lines.reduce((sum, line) => sum + line.fights, 0);
  const lines = wear.lines.map((line): LineAdvice => {
    const prices = respoolPrices(season, line.lineType);
    const advice = respoolAge(line, prices, request);
    const known = knownPrices(prices, line.lineType);
    const words = respoolWords(line, advice);
    const hasAge = advice.kind === 'advised' || advice.isWear;
    return {
      line,
      prices,
      advice,
      cost: seasonCost(line, advice, { prices, seasonFights }),
      atPrices:
        hasAge && line.law.kind === 'fitted'
          ? respoolAtPrices(line.law, typeof known === 'string' ? null : known)
          : [],
      words,
      sentence: [words.answer, ...words.more].join(' '),
    };
  });
  const advised = new Map(lines.map(({ line, advice }) => [line.lineType, advice]));
  return { wear, lines, rods: rodsDue(season, wear.lines, { advice: advised, to: request.to }) };
}
