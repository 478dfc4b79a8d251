import { costRange } from './replacement-range.ts';

/** A part that is mended when it breaks, which leaves it as old as it was, and renewed at an age. */
export interface MinimalRepair {
  /** Power-law process of breaks, (age/theta)^shape by that age; both above 0. */
  readonly shape: number;
  readonly theta: number;
  /** Cost of a new spool, above 0. */
  readonly spoolCost: number;
  /** Cost of one break, with all that it loses, above 0. */
  readonly breakCost: number;
}

export interface BestRespoolAge {
  readonly kind: 'finite';
  readonly age: number;
  /** Cost per unit of age at that age. */
  readonly costRate: number;
  /** Ages at which the cost rate is within 5 % of the least; `upper` may be Infinity. */
  readonly nearBest: { readonly lower: number; readonly upper: number };
}

export interface NoRespoolAge {
  readonly kind: 'never';
  readonly reason: string;
}

/**
 * The long-run cost rate (spool + break·(T/theta)^shape) / T of renewing at `age` T (above 0).
 * Source: Barlow & Hunter 1960, Oper. Res. 8:90 (policy II, minimal repair).
 */
export function minimalRepairCostRate(part: MinimalRepair, age: number): number {
  return (part.spoolCost + part.breakCost * (age / part.theta) ** part.shape) / age;
}

/**
 * The age of renewal that costs least, T* = theta·(spool / (break·(shape − 1)))^(1/shape). With a
 * shape of 1 or less breaks come no faster as the line ages, so it is never worth renewing by age.
 * Throws on a shape, theta or cost that is not above 0.
 * Source: Barlow & Hunter 1960, policy II.
 */
export function bestRespoolAge(part: MinimalRepair): BestRespoolAge | NoRespoolAge {
  for (const [name, value] of Object.entries(part))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${name} is a number above 0, not ${value}.`);
  const { shape, theta, spoolCost, breakCost } = part;
  if (shape <= 1) return { kind: 'never', reason: 'Breaks come no faster as the line ages.' };
  const age = theta * (spoolCost / (breakCost * (shape - 1))) ** (1 / shape);
  return {
    kind: 'finite',
    age,
    costRate: minimalRepairCostRate(part, age),
    nearBest: costRange((t) => minimalRepairCostRate(part, t), age),
  };
}
