import type { TidySeason } from '../../src/tidy/tidy-season.ts';
import type { TextFile } from '../../src/write/new-files.ts';
import type { ReportOptions } from '../../src/write/pages/report-context.ts';
import { inOrder, reportPages } from '../../src/write/pages/report-pages.ts';

/** Every file of a report, made in one thread. */
export async function reportFiles(season: TidySeason, options: ReportOptions): Promise<TextFile[]> {
  const pages = [];
  for (const group of ['season', 'rest', 'money'] as const)
    pages.push(...(await reportPages(season, options, group)));
  return inOrder(pages);
}
