import { type Headline, headlines } from './decide/headlines.ts';
import { prepareToDraw } from './draw/draw-aside.ts';
import { readSeason } from './read/read-season.ts';
import type { Question } from './tally/question.ts';
import { type TidySeason, tidySeason } from './tidy/tidy-season.ts';
import type { TextFile } from './write/new-files.ts';
import { reportPages } from './write/pages/report-pages.ts';
import { writeFolder } from './write/write-folder.ts';

/*
 * The whole story, from the captain's folder to the pages:
 *
 *   folder ─read→ rows ─tidy→ season ─tally, estimate, decide→ answers ─draw, write→ pages
 *
 * Every other command takes the first two steps the same way and then asks one question of its own.
 */

/** What a report is to be about. */
export interface ReportRequest {
  readonly folder: string;
  readonly settingsFile: string | null;
  /** Where the pages go; null: a folder of the season's name under `reports`. */
  readonly out: string | null;
  /** The part of the log. */
  readonly filter: Omit<Question, 'by'>;
  /** Confidence level of every interval. */
  readonly level: number;
  readonly seed: number;
}

/** A report that has been written. */
export interface SeasonReport {
  readonly season: TidySeason;
  /** The season's answers, one line each. */
  readonly answers: readonly Headline[];
  readonly out: string;
  readonly files: readonly TextFile[];
}

/** 1 · Reads the log and tidies it: rows joined, hours worked out, every row accounted for. */
export async function openSeason(folder: string, settingsFile: string | null): Promise<TidySeason> {
  const log = await readSeason(folder, settingsFile === null ? {} : { settingsFile });
  return tidySeason(log);
}

/** All steps in a row: reads a log and writes its report as static pages. */
export async function reportSeason(
  request: ReportRequest,
  check: (season: TidySeason) => void,
): Promise<SeasonReport> {
  prepareToDraw();

  // 1 · read and tidy
  const season = await openSeason(request.folder, request.settingsFile);
  check(season);

  // 2 · tally, estimate, decide, draw: each page asks for the answers and figures it shows
  const { filter, level, seed } = request;
  const files = await reportPages(season, { filter, level, seed });
  const answers = headlines(season, { ...filter, level, seed });

  // 3 · write, all or nothing
  const out = request.out ?? `reports/${folderName(season.log.name)}`;
  await writeFolder(out, files);
  return { season, answers, out, files };
}

/** A season's name as a folder's: letters and digits, the rest hyphens. */
function folderName(name: string): string {
  const plain = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^\p{Letter}\p{Number}]+/gu, '-');
  return plain.replace(/^-+|-+$/g, '') || 'season';
}
