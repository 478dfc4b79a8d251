import { didYouMean } from '../base/nearest.ts';
import { UserError } from '../base/problem.ts';
import { isIsoDate } from '../base/zone.ts';
import { FACTOR_NAMES, type FactorName } from '../tally/factors.ts';
import { MEASURE_NAMES, type Measure } from '../tally/measures.ts';

/** The options every command takes, as the command line gives them. */
export interface GivenOptions {
  readonly settings?: string;
  readonly only?: readonly string[];
  readonly from?: string;
  readonly to?: string;
  readonly level: string;
  readonly seed: string;
  readonly json?: boolean;
  readonly out?: string;
  readonly quiet?: boolean;
}

/** The same, checked and typed. */
export interface CommonOptions {
  readonly settingsFile: string | null;
  readonly only: Readonly<Partial<Record<FactorName, readonly string[]>>>;
  readonly from: string | null;
  readonly to: string | null;
  readonly level: number;
  readonly seed: number;
  readonly json: boolean;
  readonly out: string | null;
  readonly quiet: boolean;
}

/** Checks the common options; throws a UserError (exit 2) that names the offending value. */
export function commonOptions(given: GivenOptions): CommonOptions {
  const from = given.from === undefined ? null : isoDate('--from', given.from);
  const to = given.to === undefined ? null : isoDate('--to', given.to);
  if (from !== null && to !== null && from > to) {
    throw new UserError(`--from ${from} lies after --to ${to}: swap the two dates.`, 2);
  }
  return {
    settingsFile: given.settings ?? null,
    only: onlyOf(given.only ?? []),
    from,
    to,
    level: levelOf(given.level),
    seed: seedOf(given.seed),
    json: given.json ?? false,
    out: given.out ?? null,
    quiet: given.quiet ?? false,
  };
}

/** Factors from `bait,reach`; none for nothing. */
export function factorList(option: string, text: string | undefined): FactorName[] {
  return listOf(text).map((word) => factorNamed(option, word));
}

/** Measures from `hookup_rate,caught_rate`; null where the option is absent. */
export function measureList(option: string, text: string | undefined): Measure[] | null {
  const words = listOf(text);
  return words.length === 0 ? null : words.map((word) => known(option, word, MEASURE_NAMES));
}

/** One of a list of names, or a UserError that lists them. */
export function known<Name extends string>(
  option: string,
  word: string,
  names: readonly Name[],
): Name {
  const found = names.find((name) => name === word);
  if (found !== undefined) return found;
  throw new UserError(
    `${option} does not know "${word}".${didYouMean(word, names)} It takes: ${names.join(', ')}.`,
    2,
  );
}

function factorNamed(option: string, word: string): FactorName {
  return known(option, word, FACTOR_NAMES);
}

function listOf(text: string | undefined): string[] {
  const words = (text ?? '').split(',').map((word) => word.trim());
  return [...new Set(words.filter((word) => word !== ''))];
}

function onlyOf(pairs: readonly string[]): CommonOptions['only'] {
  const only: Partial<Record<FactorName, readonly string[]>> = {};
  for (const pair of pairs) {
    const at = pair.indexOf('=');
    const levels = listOf(at < 0 ? '' : pair.slice(at + 1));
    if (at < 1 || levels.length === 0) {
      throw new UserError(`--only "${pair}" should read factor=level, e.g. --only reach=long.`, 2);
    }
    const name = factorNamed('--only', pair.slice(0, at).trim());
    only[name] = [...(only[name] ?? []), ...levels];
  }
  return only;
}

function isoDate(option: string, text: string): string {
  if (isIsoDate(text)) return text;
  throw new UserError(`${option} "${text}" is no date: write it as year-month-day, 2026-03-31.`, 2);
}

function levelOf(text: string): number {
  const level = Number(text);
  if (text.trim() !== '' && level >= 0.5 && level < 1) return level;
  const hint = level > 1 && level < 100 ? ` Did you mean ${level / 100}?` : '';
  throw new UserError(
    `--level "${text}" must be at least 0.5 and below 1, such as 0.95.${hint}`,
    2,
  );
}

/** The generator of random numbers takes seeds of 32 bits. */
const LARGEST_SEED = 0xffffffff;

function seedOf(text: string): number {
  const seed = Number(text);
  const isWhole = text.trim() !== '' && Number.isSafeInteger(seed);
  if (isWhole && seed >= 0 && seed <= LARGEST_SEED) return seed;
  throw new UserError(
    `--seed "${text}" must be a whole number from 0 to ${LARGEST_SEED}, such as 1.`,
    2,
  );
}
