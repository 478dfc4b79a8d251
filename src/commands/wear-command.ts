import { UserError } from '../base/problem.ts';
import { respoolAdvice } from '../decide/respool-advice.ts';
import { cutsLives } from '../estimate/wear-records.ts';
import { documentHead, documentText } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { loadSeason } from './load-season.ts';
import { commonOptions, type GivenOptions } from './options.ts';
import { wearRecord } from './wear-record.ts';
import { wearText } from './wear-text.ts';

/**
 * `wear`: how line wears, when to respool, what each line costs a season, which reels are due. Exit 1
 * where wear gives no line type a respool age, not even one that waits for prices.
 */
export async function wearCommand(
  folder: string,
  given: GivenOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = commonOptions(given);
  const [cut] = cutsLives(options.only);
  if (cut !== undefined) {
    throw new UserError(
      `--only ${cut}: a line wears over its whole life, which cannot be cut down so. ` +
        'Here --only takes line_type, line_class_lb and rod.',
      2,
    );
  }
  const season = await loadSeason(folder, options, effects);
  const advice = respoolAdvice(season, options);
  const { currency } = season.log.settings;
  effects.out(
    options.json
      ? documentText({ ...documentHead('wear', season, options), ...wearRecord(advice, currency) })
      : wearText(advice, { currency, level: options.level }),
  );
  return advice.lines.some(({ advice: age }) => age.kind === 'advised' || age.isWear) ? 0 : 1;
}
