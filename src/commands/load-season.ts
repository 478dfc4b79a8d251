import { UserError } from '../base/problem.ts';
import { openSeason } from '../season.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { type Effects, withProgress } from './effects.ts';
import type { CommonOptions } from './options.ts';

/** Reads and tidies a log, and checks that the levels asked for are in it. */
export async function loadSeason(
  folder: string,
  options: CommonOptions,
  effects: Effects,
): Promise<TidySeason> {
  const { settingsFile } = options;
  const watching = options.quiet ? { ...effects, isTerminal: false } : effects;
  const season = await withProgress(watching, `Reading ${folder}`, () =>
    openSeason(folder, settingsFile),
  );
  checkLevels(season, options.only);
  const aside = season.account.setAside.length;
  if (aside > 0 && !options.quiet && !options.json) {
    effects.err(
      `${aside === 1 ? '1 row of the log was' : `${aside} rows of the log were`} set aside ` +
        `and counted nowhere: linehours check ${folder} says which.\n`,
    );
  }
  return season;
}

/** Throws a UserError (exit 2) for a level that the log does not have. */
export function checkLevels(season: TidySeason, only: CommonOptions['only']): void {
  for (const [name, levels] of Object.entries(only)) {
    checkFactor(season, name as FactorName, levels);
  }
}

function checkFactor(season: TidySeason, name: FactorName, levels: readonly string[]): void {
  const met = levelsMet(season, name);
  if (met.length === 0) return;
  const strange = levels.find((level) => !met.includes(level));
  if (strange === undefined) return;
  throw new UserError(
    `--only ${name}=${strange}: this log has no such level. It has: ${met.join(', ')}.`,
    2,
  );
}

/** The levels of a factor that occur in the log, in the factor's own order. */
export function levelsMet(season: TidySeason, name: FactorName): string[] {
  const { ofBite, ofEffort, order, scope } = factorOf(name);
  const levels = new Set(season.bites.map((bite) => ofBite(bite) ?? NOT_RECORDED));
  if (scope === 'line' || scope === 'trip') {
    for (const unit of season.effort.units) {
      const level = ofEffort({ unit, lineHours: 0, hourOfDay: null, light: null });
      if (level !== undefined) levels.add(level ?? NOT_RECORDED);
    }
  }
  return [...levels].map(String).sort(order(season.log.settings));
}
