import { type Life, riskTable } from './kaplan-meier-lives.ts';

/** The cumulative hazard just after one time with an event. */
export interface HazardStep {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  /** Events expected so far by one life that is replaced at once whenever it ends. */
  readonly cumulativeHazard: number;
  /** √Σ events/atRisk², so that tied events count as a Poisson number. */
  readonly standardError: number;
}

/**
 * The Nelson–Aalen cumulative hazard of lives, one step for each time with an event; no step where
 * nothing happened. It bends upwards where the risk grows with age.
 * Source: Nelson 1972, Technometrics 14:945; Aalen 1978, Ann. Stat. 6:701.
 */
export function nelsonAalen(lives: readonly Life[]): readonly HazardStep[] {
  let cumulativeHazard = 0;
  let variance = 0;
  return riskTable(lives).map((step) => {
    cumulativeHazard += step.events / step.atRisk;
    variance += step.events / step.atRisk ** 2;
    return { ...step, cumulativeHazard, standardError: Math.sqrt(variance) };
  });
}
