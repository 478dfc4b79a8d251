import { formatDateRange } from '../../base/format-time.ts';
import { listWords, printable } from '../../base/words.ts';
import { factorWords } from '../../tally/factor-words.ts';
import type { FactorName } from '../../tally/factors.ts';
import type { TidySeason } from '../../tidy/tidy-season.ts';
import type { TextFile } from '../new-files.ts';
import { pageHtml } from '../page-shell.tsx';
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
const PAGES: readonly ((context: ReportContext) => Promise<PageContent> | PageContent)[] = [
  seasonPage,
  gearPage,
  baitPage,
  spreadPage,
  wearPage,
  timePage,
  releasePage,
  conditionsPage,
  logPage,
  methodsPage,
  dockPage,
];

/** Every file of the report: pages, and the CSV of every table beside them. */
export async function reportPages(season: TidySeason, options: ReportOptions): Promise<TextFile[]> {
  const context = reportContext(season, options);
  const contents: PageContent[] = [];
  for (const page of PAGES) contents.push(await page(context));
  const links = contents.map(({ file, title }) => ({ file, title }));
  const frame = { season: season.log.name, dates: printable(datesWords(context)), pages: links };
  return contents.flatMap(({ file, content, files }) => [
    { name: file, text: pageHtml({ ...frame, file }, content) },
    ...files,
  ]);
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
