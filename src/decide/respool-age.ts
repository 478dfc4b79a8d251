import type { Estimate } from '../base/estimate.ts';
import type { LineWear } from '../estimate/wear-by-line-type.ts';
import { FIGHTS, fromWearLaw, type WearLaw } from '../estimate/wear-power-law.ts';
import { respoolAgeByClusters } from '../stats/replacement-bootstrap.ts';
import { bestRespoolAge, minimalRepairCostRate } from '../stats/replacement-minimal-repair.ts';
import { type KnownPrices, knownPrices, type RespoolPrices } from './respool-prices.ts';

/** Fewer breaks than this say nothing of when to respool. */
export const FEWEST_BREAKS = 5;

/** When to respool one line type. */
export type RespoolAge = AdvisedAge | NoAdvisedAge;

export interface AdvisedAge {
  readonly kind: 'advised';
  /** In fights, with its interval from resampled trips; the upper end may be Infinity. */
  readonly age: Estimate;
  readonly ageFights: number;
  /** Ages in fights at which the cost is within 5 % of the least. */
  readonly nearBest: { readonly lower: number; readonly upper: number };
  /** Cost per fight at the advised age, with its interval from resampled trips. */
  readonly leastCostPerFight: Estimate;
  readonly law: WearLaw;
  readonly prices: KnownPrices;
}

/** No age, and why, in a sentence or two; `isWear` where only the prices are missing. */
export interface NoAdvisedAge {
  readonly kind: 'no-age';
  readonly reason: string;
  readonly isWear: boolean;
}

/**
 * The age in fights at which a filling costs least, or why none can be named: fewer than five
 * breaks, breaks that do not surely come faster with age (beta's lower limit not above 1), or no
 * prices. The cost per fight is (filling + lost fish × breaks by that age) / age.
 * Source: Barlow & Hunter 1960, Oper. Res. 8:90 (policy II, minimal repair); the bound of five
 * breaks: common practice, no source.
 */
export function respoolAge(
  line: LineWear,
  prices: RespoolPrices,
  options: { readonly level: number; readonly seed: number },
): RespoolAge {
  const none = whyNoAge(line);
  if (none !== null || line.law.kind === 'not-estimable') {
    return { kind: 'no-age', reason: none ?? '', isWear: false };
  }
  const { law } = line;
  const known = knownPrices(prices, line.lineType);
  if (typeof known === 'string') return { kind: 'no-age', reason: known, isWear: true };
  const { spoolCost, lostFish: breakCost } = known;
  const best = bestRespoolAge({ shape: law.shape, theta: law.theta, spoolCost, breakCost });
  if (best.kind === 'never') return { kind: 'no-age', reason: best.reason, isWear: false };
  const { drawn, draws } = law;
  const age = respoolAgeByClusters(law.stretches, {
    ...options,
    drawn,
    draws,
    scale: FIGHTS,
    spoolCost,
    breakCost,
  });
  if (age.kind === 'not-estimable') return { kind: 'no-age', reason: age.reason, isWear: false };
  const part = (fitted: { shape: number; theta: number }) => ({
    shape: fitted.shape,
    theta: fitted.theta,
    spoolCost,
    breakCost,
  });
  return {
    kind: 'advised',
    age,
    ageFights: best.age,
    nearBest: best.nearBest,
    leastCostPerFight: fromWearLaw(law, (drawn) => minimalRepairCostRate(part(drawn), best.age)),
    law,
    prices: known,
  };
}

/** Why wear itself gives no age; null where it does. */
function whyNoAge({ lineType, breaks, fights, law }: LineWear): string | null {
  if (fights === 0) return `No fight on ${lineType} is logged on a line of known age.`;
  if (breaks < FEWEST_BREAKS) {
    const counted = breaks === 0 ? 'No line' : `Only ${breaks}`;
    const broke = breaks === 0 ? 'broke' : breaks === 1 ? 'line broke' : 'lines broke';
    return `${counted} ${broke} in ${fights} fights on ${lineType}: too few to say when to respool.`;
  }
  if (law.kind === 'not-estimable') return law.reason;
  const { beta } = law;
  if (beta.kind === 'not-estimable') return beta.reason;
  if (beta.lower > 1) return null;
  if (beta.upper < 1) {
    return (
      `On ${lineType}, new line breaks more often than old, so filling by age would not help: ` +
      'look at knots and at how a reel is filled.'
    );
  }
  return (
    `On ${lineType}, age does not explain the breaks: with ${breaks} of them it cannot be told ` +
    'whether old line breaks more often than new, so no respool age is named.'
  );
}
