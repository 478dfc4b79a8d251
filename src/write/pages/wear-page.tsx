import { entriesPage } from './entries-page.tsx';
import type { PageContent } from './page-content.ts';
import type { ReportContext } from './report-context.ts';
import { wearAgeEntry } from './wear-age-entry.ts';
import { wearCostEntry } from './wear-cost-entry.ts';
import { wearDueEntry } from './wear-due-entry.ts';
import { wearFirstBreakEntry } from './wear-first-break-entry.ts';
import { wearRespoolEntry } from './wear-respool-entry.ts';
import { wearTrendEntry } from './wear-trend-entry.ts';

/** Line wear: when line starts to cost fish, when to respool, and what each line costs a season. */
export async function wearPage(context: ReportContext): Promise<PageContent> {
  const { wear } = context.respool();
  // Where nothing can be told, one entry says so and why; six would say it six times.
  if (wear.refused !== null) return entriesPage([await wearAgeEntry(context)]);
  const entries = await Promise.all([
    wearAgeEntry(context),
    wearRespoolEntry(context),
    Promise.resolve(wearDueEntry(context)),
    wearCostEntry(context),
    wearFirstBreakEntry(context),
    Promise.resolve(wearTrendEntry(context)),
  ]);
  return entriesPage(entries);
}
