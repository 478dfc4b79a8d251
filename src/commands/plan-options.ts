import { UserError } from '../base/problem.ts';
import { planDesign } from '../estimate/plan-design.ts';
import { isProportion } from '../estimate/proportion.ts';
import type { FactorName } from '../tally/factors.ts';
import type { Measure } from '../tally/measures.ts';
import {
  type CommonOptions,
  commonOptions,
  factorList,
  type GivenOptions,
  measureList,
} from './options.ts';

/** The options of `plan` as the command line gives them. */
export interface PlanOptions extends GivenOptions {
  readonly factor?: string;
  readonly between?: string;
  readonly trips?: string;
  readonly difference?: string;
  readonly measure?: string;
  readonly power?: string;
}

/** The same, checked and typed. */
export interface CheckedPlanOptions extends CommonOptions {
  readonly factor: FactorName;
  readonly levels: readonly [string, string];
  readonly measure: Measure;
  /** null: the practical margin. */
  readonly difference: number | null;
  readonly power: number;
  /** null: as many as are needed. */
  readonly trips: number | null;
}

const FEWEST_TRIPS = 4;
const MOST_TRIPS = 1000;

/** Checks the options of `plan`; throws a UserError (exit 2) that names the offending value. */
export function planOptions(given: PlanOptions): CheckedPlanOptions {
  const options = commonOptions(given);
  const factor = only('--factor', factorList('--factor', given.factor));
  const measure = only('--measure', measureList('--measure', given.measure ?? 'hookup_rate') ?? []);
  const design = planDesign(factor);
  if (typeof design !== 'string') throw new UserError(`--factor ${factor}: ${design.reason}`, 2);
  if (options.only.side !== undefined && design === 'sides') {
    throw new UserError(
      '--only side: the two change sides from trip to trip, so a plan needs both. Leave it away.',
      2,
    );
  }
  if (options.only[factor] !== undefined) {
    throw new UserError(`--only ${factor}: a plan shares that out itself. Leave it away.`, 2);
  }
  return {
    ...options,
    factor,
    levels: twoLevels(given.between),
    measure,
    difference: given.difference === undefined ? null : differenceOf(given.difference, measure),
    power: given.power === undefined ? 0.8 : powerOf(given.power, options.level),
    trips: given.trips === undefined ? null : tripsOf(given.trips),
  };
}

function only<Name>(option: string, names: readonly Name[]): Name {
  const [name] = names;
  if (name !== undefined && names.length === 1) return name;
  throw new UserError(`${option} takes one name, not ${names.length}. See --help for the list.`, 2);
}

function twoLevels(text: string | undefined): readonly [string, string] {
  const words = (text ?? '').split(',').map((word) => word.trim());
  const [a, b, ...more] = [...new Set(words.filter((word) => word !== ''))];
  if (a !== undefined && b !== undefined && more.length === 0) return [a, b];
  throw new UserError(
    `--between "${text ?? ''}" must name two that differ, such as --between braid,mono.`,
    2,
  );
}

function differenceOf(text: string, measure: Measure): number {
  const value = Number(text);
  const share = isProportion(measure);
  const most = share ? 1 : 10;
  if (text.trim() !== '' && value > 0 && value < most) return value;
  const example = share ? '0.05 for 5 points' : '0.1 for 10 % of the rate';
  const hint = value >= 1 && value < 100 ? ` Did you mean ${value / 100}?` : '';
  throw new UserError(
    `--difference "${text}" must be above 0 and below ${most}, such as ${example}.${hint}`,
    2,
  );
}

function powerOf(text: string, level: number): number {
  const value = Number(text);
  // A power no better than the chance of a false alarm needs no trips at all.
  const least = Math.max(0.5, 1 - level);
  if (text.trim() !== '' && value >= least && value <= 0.99) return value;
  const hint = value > 1 && value < 100 ? ` Did you mean ${value / 100}?` : '';
  throw new UserError(`--power "${text}" must be from ${least} to 0.99, such as 0.8.${hint}`, 2);
}

function tripsOf(text: string): number {
  const value = Number(text);
  if (Number.isSafeInteger(value) && value >= FEWEST_TRIPS && value <= MOST_TRIPS) return value;
  throw new UserError(
    `--trips "${text}" must be a whole number from ${FEWEST_TRIPS} to ${MOST_TRIPS}.`,
    2,
  );
}
