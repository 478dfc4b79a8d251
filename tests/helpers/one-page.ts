import { join } from 'node:path';
import { readSeason } from '../../src/read/read-season.ts';
import { type TidySeason, tidySeason } from '../../src/tidy/tidy-season.ts';
import type { TextFile } from '../../src/write/new-files.ts';
import { pageHtml } from '../../src/write/page-shell.tsx';
import type { PageContent } from '../../src/write/pages/page-content.ts';
import {
  type ReportContext,
  type ReportOptions,
  reportContext,
} from '../../src/write/pages/report-context.ts';

/** The demo season, read from its files. */
export async function demoSeason(): Promise<TidySeason> {
  return tidySeason(
    await readSeason(join(import.meta.dirname, '../../data-samples/port-vellamy'), {}),
  );
}

/** One page of a report by itself, under the given file name, with the files beside it. */
export async function onePage(
  file: string,
  page: (context: ReportContext) => Promise<PageContent>,
  season: TidySeason,
  options: Partial<ReportOptions> = {},
): Promise<TextFile[]> {
  const filter = { only: {}, from: null, to: null };
  const context = reportContext(season, { filter, level: 0.95, seed: 1, ...options });
  const { content, files } = await page(context);
  const frame = { season: season.log.name, dates: 'all', pages: [{ file, title: file }], file };
  return [{ name: file, text: pageHtml(frame, content) }, ...files];
}
