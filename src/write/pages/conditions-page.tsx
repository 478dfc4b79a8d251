import { type ConditionRates, conditionRates } from '../../estimate/condition-rates.ts';
import { remembered } from '../../tidy/remember.ts';
import { conditionEntry, isThinLevel } from './conditions-entry.ts';
import { conditionsOverview } from './conditions-overview.ts';
import { entriesPage } from './entries-page.tsx';
import type { PageContent } from './page-content.ts';
import type { ReportContext } from './report-context.ts';

/** Conditions: wind, current, sea, temperature, moon and ground beside bites per line-hour. */
export async function conditionsPage(context: ReportContext): Promise<PageContent> {
  const { season, filter, level, seed } = context;
  const asked = { ...filter, level, seed };
  const found = remembered(season, { conditions: asked }, () => conditionRates(season, asked));
  const most = highest(found);
  const entries = await Promise.all(found.map((one) => conditionEntry(context, one, most)));
  return entriesPage([conditionsOverview(found), ...entries]);
}

/**
 * The end of the axis that all conditions share: every dot, and the intervals with enough behind
 * them as far as twice the highest such dot, or one long interval would squeeze all the others.
 */
function highest(found: readonly ConditionRates[]): number {
  const shown = found.flatMap(({ levels }) =>
    levels.flatMap((level) =>
      level.rate.kind === 'estimated' ? [{ ...level.rate, thin: isThinLevel(level) }] : [],
    ),
  );
  const solid = shown.filter(({ thin }) => !thin);
  const dots = Math.max(0, ...shown.map(({ estimate }) => estimate));
  const ends = Math.max(0, ...solid.map(({ upper }) => upper));
  const twice = 2 * Math.max(0, ...solid.map(({ estimate }) => estimate));
  return roundEnd(Math.max(dots, Math.min(ends, twice)));
}

/** Up to 1, 2 or 4 times a power of ten: an end that axes of every width keep as it is. */
function roundEnd(value: number): number {
  if (value <= 0) return 0;
  const power = 10 ** Math.floor(Math.log10(value));
  const digit = [1, 2, 4].find((one) => one * power >= value * (1 - 1e-9)) ?? 10;
  return digit * power;
}
