import { type Level, normalCritical } from './interval-level.ts';
import { type Life, riskTable } from './kaplan-meier-lives.ts';

/** The scale on which the limits of a survival curve are symmetrical. */
export type SurvivalLimits = 'log-log' | 'log' | 'plain';

/** The curve just after one time with an event; it stays at `survival` until the next step. */
export interface SurvivalStep {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  /** Share still going after this time, 0 to 1. */
  readonly survival: number;
  /** Greenwood's; null where the curve has reached 0, which leaves it undefined. */
  readonly standardError: number | null;
  /** Limits at each time by itself, not of the whole curve; null where the curve is at 0. */
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface SurvivalCurve {
  /** Empty where nothing happened: the curve is 1 throughout. */
  readonly steps: readonly SurvivalStep[];
  readonly lives: number;
  readonly events: number;
  /** The longest time anything was watched; the curve says nothing beyond. 0 without lives. */
  readonly lastTime: number;
  readonly level: number;
  readonly limits: SurvivalLimits;
}

/**
 * The share of lives still going after each time, Kaplan–Meier, with Greenwood's standard error.
 * @param options `level` of the limits and their scale (`log-log`, which stays inside 0 to 1
 *   and holds best in small samples; `log` and `plain` are cut at 0 and 1).
 * No lives or no events give a curve without steps.
 * Source: Kaplan & Meier 1958; Greenwood 1926; Kalbfleisch & Prentice 2002 (log-log limits).
 */
export function kaplanMeier(
  lives: readonly Life[],
  options: Level & { readonly limits?: SurvivalLimits },
): SurvivalCurve {
  const { level, limits = 'log-log' } = options;
  const z = normalCritical(level);
  let survival = 1;
  let greenwood = 0;
  const steps = riskTable(lives).map((step): SurvivalStep => {
    const { atRisk, events } = step;
    survival *= 1 - events / atRisk;
    if (events === atRisk)
      return { ...step, survival: 0, standardError: null, lower: null, upper: null };
    greenwood += events / (atRisk * (atRisk - events));
    const relativeError = Math.sqrt(greenwood);
    return {
      ...step,
      survival,
      standardError: survival * relativeError,
      ...LIMITS[limits](survival, relativeError, z),
    };
  });
  return {
    steps,
    lives: lives.length,
    events: steps.reduce((sum, step) => sum + step.events, 0),
    lastTime: lives.reduce((last, life) => Math.max(last, life.time), 0),
    level,
    limits,
  };
}

type LimitsAt = (s: number, relativeError: number, z: number) => { lower: number; upper: number };

const LIMITS: Record<SurvivalLimits, LimitsAt> = {
  'log-log': (s, relativeError, z) => {
    const stretch = Math.exp((z * relativeError) / Math.abs(Math.log(s)));
    return { lower: s ** stretch, upper: s ** (1 / stretch) };
  },
  log: (s, relativeError, z) => ({
    lower: s * Math.exp(-z * relativeError),
    upper: Math.min(1, s * Math.exp(z * relativeError)),
  }),
  plain: (s, relativeError, z) => ({
    lower: Math.max(0, s - z * s * relativeError),
    upper: Math.min(1, s + z * s * relativeError),
  }),
};
