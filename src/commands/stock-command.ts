import { stockOf } from '../decide/load-stock.ts';
import { NOT_RECORDED } from '../tally/level-order.ts';
import { documentHead, documentText } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { levelsMet, loadSeason } from './load-season.ts';
import { checkBaits, type StockOptions, stockOptions } from './stock-options.ts';
import { stockRecord } from './stock-record.ts';
import { stockText } from './stock-text.ts';

/** `stock`: what each bait brings, and how many of each to load for the next trips. */
export async function stockCommand(
  folder: string,
  given: StockOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = stockOptions(given);
  const season = await loadSeason(folder, options, effects);
  const known = levelsMet(season, 'bait').filter((bait) => bait !== NOT_RECORDED);
  checkBaits('--held', Object.keys(options.held), known);
  checkBaits('--without', options.without, known);
  const stock = stockOf(season, options);
  const { currency } = season.log.settings;
  effects.out(
    options.json
      ? documentText({ ...documentHead('stock', season, options), ...stockRecord(stock, currency) })
      : stockText(stock, { ...options, currency }),
  );
  return stock.list.refused === null ? 0 : 1;
}
