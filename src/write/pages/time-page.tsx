import { entriesPage } from './entries-page.tsx';
import { levelEntry } from './level-entry.ts';
import type { PageContent } from './page-content.ts';
import type { ReportContext } from './report-context.ts';
import { timeFightEntry } from './time-fight-entry.ts';
import { timeHoursEntry } from './time-hours-entry.ts';
import { fishingHourEntry, timeMinutesEntry } from './time-minutes-entry.ts';

/** Time: when they bite, how long fights are, and where the hours of a trip go. */
export async function timePage(context: ReportContext): Promise<PageContent> {
  const entries = await Promise.all([
    timeHoursEntry(context),
    levelEntry(context, {
      id: 'light',
      question: 'At first light, by day or at night?',
      factors: ['light'],
      measures: ['bites_per_line_hour', 'hookup_rate', 'caught_per_line_hour'],
      order: 'natural',
      caution:
        'As logged. Light is by the sun’s height at the trip’s position, so trips without lat and lon are not recorded here.',
    }),
    timeFightEntry(context, {
      id: 'fight-line',
      question: 'Does one line bring fish in faster?',
      factor: 'line_type',
    }),
    timeFightEntry(context, {
      id: 'fight-species',
      question: 'How long are fights, fish by fish?',
      factor: 'species',
    }),
    timeMinutesEntry(context),
    Promise.resolve(fishingHourEntry(context)),
  ]);
  return entriesPage(entries);
}
