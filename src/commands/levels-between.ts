import { didYouMean } from '../base/nearest.ts';
import { UserError } from '../base/problem.ts';
import type { FactorName } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { levelsMet } from './load-season.ts';
import type { CommonOptions } from './options.ts';

/** What the command line says of the levels. */
interface LevelsAsked {
  readonly between: string | undefined;
  readonly only: CommonOptions['only'];
}

/**
 * The levels that --between names, or all that --only leaves of the log; two or more, each once.
 * Throws a UserError (exit 2) that names what is wrong and what the log has.
 */
export function levelsBetween(
  season: TidySeason,
  factor: FactorName,
  { between: text, only }: LevelsAsked,
): readonly [string, string, ...string[]] {
  const kept = only[factor];
  const met = levelsMet(season, factor).filter(
    (level) => level !== NOT_RECORDED && (kept?.includes(level) ?? true),
  );
  if (met.length < 2) throw new UserError(tooFewMet(factor, met, kept), 2);
  const asked = (text ?? '').split(',').map((level) => level.trim());
  const named = asked.filter((level) => level !== '');
  const levels = text === undefined ? met : [...new Set(named)];
  const strange = levels.filter((level) => !met.includes(level));
  if (strange.length > 0) throw new UserError(unknown(factor, strange, met), 2);
  const [first, second, ...others] = levels;
  if (first !== undefined && second !== undefined) return [first, second, ...others];
  const example = `Name two or more, e.g. --between ${examplePair(met, first)}.`;
  throw new UserError(`${tooFewNamed(named)} ${example} This log has: ${met.join(', ')}.`, 2);
}

/** What --between names, where that is no level or one alone. */
function tooFewNamed([first, ...again]: readonly string[]): string {
  if (first === undefined) return '--between names no level.';
  const only = `--between names ${first} only`;
  if (again.length === 0) return `${only}: there must be something to compare it with.`;
  const times = again.length === 1 ? 'twice' : `${again.length + 1} times`;
  return `${only}, ${times}: it cannot be compared with itself.`;
}

function tooFewMet(
  factor: FactorName,
  [only]: readonly string[],
  kept: readonly string[] | undefined,
): string {
  const held = kept === undefined ? '' : `, held to --only ${factor}=${kept.join()},`;
  const need = `Two levels of ${factor} are needed to compare; this log${held}`;
  return only === undefined ? `${need} records none.` : `${need} has one only: ${only}.`;
}

function unknown(factor: FactorName, strange: readonly string[], met: readonly string[]): string {
  const quoted = strange.map((level) => `"${level}"`);
  const last = quoted.pop() ?? '';
  const list = quoted.length === 0 ? last : `${quoted.join(', ')} or ${last}`;
  const [only] = strange;
  const near = only !== undefined && strange.length === 1 ? didYouMean(only, met) : '';
  return `--between: this log has no ${factor} ${list}.${near} It has: ${met.join(', ')}.`;
}

/** The level already named with the first other one; else the first two. */
function examplePair(met: readonly string[], named: string | undefined): string {
  const first = named ?? met[0];
  return [first, met.find((level) => level !== first)].join();
}
