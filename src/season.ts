import { startThread } from './base/start-thread.ts';
import { gearHeadlines, type Headline, moneyHeadlines } from './decide/headlines.ts';
import { readSeason } from './read/read-season.ts';
import type { Question } from './tally/question.ts';
import { type TidySeason, tidySeason } from './tidy/tidy-season.ts';
import type { TextFile } from './write/new-files.ts';
import { type FinishedPage, inOrder, reportPages } from './write/pages/report-pages.ts';
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
  // The money questions take as long as all others: a second thread reads the log and answers them.
  const thread = startThread<MoneyPart>('money-thread.js', request);
  try {
    // 1 · read and tidy
    const season = await openSeason(request.folder, request.settingsFile);
    check(season);

    // 2 · tally, estimate and decide: the answers
    const asked = askedOf(request);
    const gear = gearHeadlines(season, asked);
    thread?.send(gear);

    // 3 · draw and write: pages that ask for the figures they show
    const rest = await reportPages(season, { ...asked, answers: gear }, 'rest');
    const money = await (thread?.result ?? moneyPart(season, request, gear));
    const answers = [...gear, ...money.answers];
    const front = await reportPages(season, { ...asked, answers }, 'season');
    const files = inOrder([...front, ...rest, ...money.pages]);
    const out = request.out ?? `reports/${folderName(season.log.name)}`;
    await writeFolder(out, files);
    return { season, answers, out, files };
  } finally {
    thread?.stop();
  }
}

/** When to respool and what to load, with the pages about it. */
export interface MoneyPart {
  readonly answers: readonly Headline[];
  readonly pages: readonly FinishedPage[];
}

/** Steps 2 and 3 for the money questions; the dock sheet shows the answers about gear besides. */
export async function moneyPart(
  season: TidySeason,
  request: ReportRequest,
  gear: readonly Headline[] | Promise<readonly Headline[]>,
): Promise<MoneyPart> {
  const asked = askedOf(request);
  const answers = moneyHeadlines(season, asked);
  const all = [...(await gear), ...answers];
  return { answers, pages: await reportPages(season, { ...asked, answers: all }, 'money') };
}

const askedOf = ({ filter, level, seed }: ReportRequest) => ({ ...filter, filter, level, seed });

/** A season's name as a folder's: letters and digits, the rest hyphens. */
function folderName(name: string): string {
  const plain = name
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^\p{Letter}\p{Number}]+/gu, '-');
  return plain.replace(/^-+|-+$/g, '') || 'season';
}
