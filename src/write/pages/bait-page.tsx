import { crossEntry } from './cross-entry.ts';
import { entriesPage } from './entries-page.tsx';
import { levelEntry } from './level-entry.ts';
import { loadAdjustedEntry } from './load-adjusted-entry.ts';
import { loadCostEntry } from './load-cost-entry.ts';
import { loadEntry } from './load-entry.ts';
import { loadMonthEntry } from './load-month-entry.ts';
import { loadSubstituteEntry } from './load-substitute-entry.ts';
import type { PageContent } from './page-content.ts';
import type { ReportContext } from './report-context.ts';

const AS_LOGGED =
  'As logged: the baits were not fished on the same lines, days and hours, and nothing here holds ' +
  'that equal.';

/** Baits: which get bites, which get hooked, what they cost, how many to load. */
export async function baitPage(context: ReportContext): Promise<PageContent> {
  const entries = await Promise.all([
    levelEntry(context, {
      id: 'bait-bites',
      question: 'Which baits get the bites?',
      factors: ['bait'],
      measures: ['bites_per_line_hour', 'hookups_per_line_hour', 'caught_per_line_hour'],
      order: 'ranked',
      caution: AS_LOGGED,
    }),
    levelEntry(context, {
      id: 'bait-hooked',
      question: 'Which baits get hooked?',
      factors: ['bait'],
      measures: ['hookup_rate', 'caught_rate', 'bite_to_boat'],
      order: 'ranked',
      caution: AS_LOGGED,
    }),
    levelEntry(context, {
      id: 'bait-by-reach',
      question: 'Which bait at which reach?',
      factors: ['bait', 'reach'],
      measures: ['bites_per_line_hour', 'hookup_rate'],
      order: 'natural',
      caution: AS_LOGGED,
    }),
    loadAdjustedEntry(context),
    loadEntry(context),
    Promise.resolve(loadMonthEntry(context)),
    loadCostEntry(context),
    Promise.resolve(loadSubstituteEntry(context)),
    crossEntry(context, {
      id: 'bait-where',
      question: 'Where was each bait fished?',
      factors: ['bait', 'position'],
    }),
  ]);
  return entriesPage(entries.filter((entry) => entry !== null));
}
