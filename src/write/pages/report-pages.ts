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

/** The pages of a report, in the order of its navigation. */
const PAGES: readonly (PageLink & {
  readonly make: (context: ReportContext) => Promise<PageContent> | PageContent;
})[] = [
  { file: 'index.html', title: 'Season', make: seasonPage },
  { file: 'gear.html', title: 'Line and hook', make: gearPage },
  { file: 'bait.html', title: 'Bait', make: baitPage },
  { file: 'spread.html', title: 'Spread', make: spreadPage },
  { file: 'wear.html', title: 'Line wear', make: wearPage },
  { file: 'time.html', title: 'Time', make: timePage },
  { file: 'release.html', title: 'Release', make: releasePage },
  { file: 'conditions.html', title: 'Conditions', make: conditionsPage },
  { file: 'log.html', title: 'Log health', make: logPage },
  { file: 'methods.html', title: 'Methods', make: methodsPage },
  { file: 'dock.html', title: 'Dock sheet', make: dockPage },
];

/** Every file of the report: pages, and the CSV of every table beside them. */
export async function reportPages(season: TidySeason, options: ReportOptions): Promise<TextFile[]> {
  const context = reportContext(season, options);
  const dates = printable(datesWords(context));
  // All at once: while the pictures of one page are drawn, the figures of the next are worked out.
  const contents = await Promise.all(PAGES.map(({ make }) => make(context)));
  return contents.flatMap(({ content, files }, at) => {
    const file = PAGES[at]?.file ?? '';
    const text = pageHtml({ season: season.log.name, dates, pages: PAGES, file }, content);
    return [{ name: file, text }, ...files];
  });
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
