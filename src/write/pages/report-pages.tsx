import { formatDateRange } from '../../base/format-time.ts';
import type { TidySeason } from '../../tidy/tidy-season.ts';
import type { TextFile } from '../new-files.ts';
import { pageHtml } from '../page-shell.tsx';
import { baitPage } from './bait-page.tsx';
import { gearPage } from './gear-page.tsx';
import { logPage } from './log-page.tsx';
import { methodsPage } from './methods-page.tsx';
import type { PageContent } from './page-content.ts';
import { type ReportContext, type ReportOptions, reportContext } from './report-context.ts';
import { seasonPage } from './season-page.tsx';
import { spreadPage } from './spread-page.tsx';

/** The pages of a report, in the order of its navigation. */
const PAGES: readonly ((context: ReportContext) => Promise<PageContent> | PageContent)[] = [
  seasonPage,
  gearPage,
  baitPage,
  spreadPage,
  logPage,
  methodsPage,
];

/** Every file of the report: pages, and the CSV of every table beside them. */
export async function reportPages(season: TidySeason, options: ReportOptions): Promise<TextFile[]> {
  const context = reportContext(season, options);
  const contents: PageContent[] = [];
  for (const page of PAGES) contents.push(await page(context));
  const links = contents.map(({ file, title }) => ({ file, title }));
  const frame = { season: season.log.name, dates: datesOf(season), pages: links };
  return contents.flatMap(({ file, content, files }) => [
    { name: file, text: pageHtml({ ...frame, file }, content) },
    ...files,
  ]);
}

function datesOf(season: TidySeason): string {
  const first = season.trips[0]?.date;
  const last = season.trips.at(-1)?.date;
  return first === undefined || last === undefined ? 'no trip yet' : formatDateRange(first, last);
}
