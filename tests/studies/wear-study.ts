import { FEWEST_BREAKS } from '../../src/decide/respool-age.ts';
import { fromWearLaw, wearLaw } from '../../src/estimate/wear-power-law.ts';
import { wearRecords } from '../../src/estimate/wear-records.ts';
import { bestRespoolAge } from '../../src/stats/replacement-minimal-repair.ts';
import { type WearWorld, wearSeason } from './wear-world.ts';

/** How well the tool read the wear of many seasons whose wear is known. */
export interface WearStudy {
  readonly world: WearWorld;
  readonly runs: number;
  readonly meanBreaks: number;
  readonly fitted: number;
  /** Share of runs whose interval for beta held the truth. */
  readonly betaHeld: number;
  /** Median of |age − truth| / truth over runs with any respool age at all. */
  readonly ageError: number;
  /** Share of runs in which an age is advised, and the same error among those. */
  readonly advised: number;
  readonly advisedError: number;
  /** Share of the advised ages whose interval held the truth. */
  readonly ageHeld: number;
}

/** Prices of a filling and a lost fish, of the demo season's order. */
const SPOOL_COST = 38;
const BREAK_COST = 90;

/** Reads `runs` seasons of one world, each drawn from its own seed. */
export function wearStudy(
  world: WearWorld,
  {
    runs,
    firstSeed,
    draws = 1000,
  }: { readonly runs: number; readonly firstSeed: number; readonly draws?: number },
): WearStudy {
  const truth = bestAge(world.beta, world.theta) ?? Number.NaN;
  let [breaks, fitted, betaHeld, ageHeld] = [0, 0, 0, 0];
  const errors: number[] = [];
  const advisedErrors: number[] = [];
  for (let run = 0; run < runs; run++) {
    const season = wearSeason(world, firstSeed + run);
    const { bites } = wearRecords(season, { only: {}, from: null, to: null });
    const law = wearLaw(bites, { level: 0.95, seed: 1, draws });
    if (law.kind === 'not-estimable' || law.beta.kind === 'not-estimable') continue;
    fitted++;
    breaks += law.beta.n;
    if (law.beta.lower <= world.beta && world.beta <= law.beta.upper) betaHeld++;
    const age = bestAge(law.shape, law.theta);
    const error = age === null ? Number.POSITIVE_INFINITY : Math.abs(age - truth) / truth;
    errors.push(error);
    if (law.beta.lower <= 1 || law.beta.n < FEWEST_BREAKS) continue;
    advisedErrors.push(error);
    const figure = fromWearLaw(
      law,
      ({ shape, theta }) => bestAge(shape, theta) ?? Number.POSITIVE_INFINITY,
    );
    if (figure.kind === 'estimated' && figure.lower <= truth && truth <= figure.upper) ageHeld++;
  }
  return {
    world,
    runs,
    meanBreaks: breaks / fitted,
    fitted: fitted / runs,
    betaHeld: betaHeld / fitted,
    ageError: median(errors),
    advised: advisedErrors.length / runs,
    advisedError: median(advisedErrors),
    ageHeld: Number.isNaN(truth) ? Number.NaN : ageHeld / advisedErrors.length,
  };
}

function bestAge(shape: number, theta: number): number | null {
  const best = bestRespoolAge({ shape, theta, spoolCost: SPOOL_COST, breakCost: BREAK_COST });
  return best.kind === 'finite' ? best.age : null;
}

function median(values: readonly number[]): number {
  const ordered = [...values].sort((a, b) => a - b);
  return ordered[Math.floor((ordered.length - 1) / 2)] ?? Number.NaN;
}
