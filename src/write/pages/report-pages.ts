import { formatDateRange } from '../../base/format-time.ts';
import { listWords, printable } from '../../base/words.ts';
import { factorWords } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import type { TidySeason } from '../../tidy/tidy-season.ts';
import type { TextFile } from '../new-files.ts';
import { type PageLink, pageHtml } from '../page-shell.tsx';
import { baitPage } from './bait-page.tsx';
import { conditionsPage } from './conditions-page.tsx';
import { dockPage } from './dock-page.tsx';
import { gearPage } from './gear-page.tsx';
import { logPage } from './log-page.tsx';
import { methodsPage } from './methods-page.tsx';
import type { PageContent } from './page-content.ts';
import { releasePage } from './release-page.tsx';
import { type ReportContext, type ReportOptions, reportContext } from './report-context.ts';
import { seasonPage } from './season-page.tsx';
import { spreadPage } from './spread-page.tsx';
import { timePage } from './time-page.tsx';
import { wearPage } from './wear-page.tsx';

/** Pages that are made together: the two larger groups may be made at the same time. */
export type PageGroup = 'season' | 'money' | 'rest';

interface PageMaker extends PageLink {
  readonly group: PageGroup;
  readonly make: (context: ReportContext) => Promise<PageContent> | PageContent;
}

/** The pages of a report, in the order of its navigation. */
const PAGES: readonly PageMaker[] = [
  { file: 'index.html', title: 'Season', group: 'season', make: seasonPage },
  { file: 'gear.html', title: 'Line and hook', group: 'rest', make: gearPage },
  { file: 'bait.html', title: 'Bait', group: 'money', make: baitPage },
  { file: 'spread.html', title: 'Spread', group: 'rest', make: spreadPage },
  { file: 'wear.html', title: 'Line wear', group: 'money', make: wearPage },
  { file: 'time.html', title: 'Time', group: 'rest', make: timePage },
  { file: 'release.html', title: 'Release', group: 'rest', make: releasePage },
  { file: 'conditions.html', title: 'Conditions', group: 'rest', make: conditionsPage },
  { file: 'log.html', title: 'Log health', group: 'rest', make: logPage },
  { file: 'methods.html', title: 'Methods', group: 'rest', make: methodsPage },
  { file: 'dock.html', title: 'Dock sheet', group: 'money', make: dockPage },
];

/** A page as text, with the CSV of every table beside it. */
export interface FinishedPage {
  readonly page: string;
  readonly files: readonly TextFile[];
}

/** The finished pages of one group. */
export async function reportPages(
  season: TidySeason,
  options: ReportOptions,
  wanted: PageGroup,
): Promise<FinishedPage[]> {
  const context = reportContext(season, options);
  const dates = printable(datesWords(context));
  const finished: FinishedPage[] = [];
  for (const { file, group, make } of PAGES) {
    if (group !== wanted) continue;
    const { content, files } = await make(context);
    const text = pageHtml({ season: season.log.name, dates, pages: PAGES, file }, content);
    finished.push({ page: file, files: [{ name: file, text }, ...files] });
  }
  return finished;
}

/** Every file of a report, in the order of its navigation. */
export function inOrder(pages: readonly FinishedPage[]): TextFile[] {
  return PAGES.flatMap(({ file }) => pages.find(({ page }) => page === file)?.files ?? []);
}

/** First to last day of the report's part of the log, and what else narrows it down. */
function datesWords({ season, filter }: ReportContext): string {
  const { from, to, only } = filter;
  const dates = season.trips
    .map(({ date }) => date)
    .filter((date) => (from === null || date >= from) && (to === null || date <= to));
  const [first, last] = [dates[0], dates.at(-1)];
  const days =
    first === undefined || last === undefined ? 'no trip yet' : formatDateRange(first, last);
  const kept = Object.entries(only).map(
    ([factor, levels]) => `${factorWords(factor as FactorName)} ${listWords(levels)}`,
  );
  return kept.length === 0 ? days : `${days}, only ${kept.join('; ')}`;
}
