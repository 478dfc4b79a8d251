import { join } from 'node:path';
import { formatCount } from '../base/format-number.ts';
import { printable } from '../base/words.ts';
import type { Headline } from '../decide/headlines.ts';
import { reportSeason, type SeasonReport } from '../season.ts';
import { documentHead, documentText } from './document.ts';
import { type Effects, type ExitCode, withProgress } from './effects.ts';
import { checkLevels } from './load-season.ts';
import { commonOptions, type GivenOptions } from './options.ts';

/** `report`: the whole report as static pages, and its headlines on the terminal. */
export async function reportCommand(
  folder: string,
  given: GivenOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = commonOptions(given);
  const { only, from, to, level, seed, out, settingsFile } = options;
  const watching = options.quiet ? { ...effects, isTerminal: false } : effects;
  const request = { folder, settingsFile, out, filter: { only, from, to }, level, seed };
  const report = await withProgress(watching, `Reporting on ${folder}`, () =>
    reportSeason(request, (season) => checkLevels(season, only)),
  );
  if (options.json) {
    const head = documentHead('report', report.season, options);
    effects.out(documentText({ ...head, ...reportRecord(report) }));
  } else {
    effects.out(reportText(report, effects));
  }
  return 0;
}

function reportRecord({ out, files, answers }: SeasonReport) {
  return { folder: out, written: files.map((file) => file.name), answers };
}

function reportText({ season, out, answers }: SeasonReport, { colours }: Effects): string {
  const { files } = season.log.account;
  const sum = (name: 'rowsRead' | 'rowsSetAside') =>
    files.reduce((total, file) => total + file[name], 0);
  const aside = asideText(sum('rowsRead'), sum('rowsSetAside'));
  const lines = [
    colours.bold(printable(season.log.name)),
    '',
    ...answers.map((answer) => answerText(answer, colours)),
    '',
    `${aside} Open ${colours.bold(join(out, 'index.html'))} in a browser.`,
  ];
  return `${lines.join('\n')}\n`;
}

function asideText(read: number, setAside: number): string {
  if (read === 0) return 'The log is empty.';
  if (setAside === 0) return 'Every row of the log was used.';
  const were = setAside === 1 ? 'row was' : 'rows were';
  return `${formatCount(setAside)} ${were} set aside of ${formatCount(read)} read: see log.html.`;
}

function answerText({ about, verdict, sentence }: Headline, colours: Effects['colours']): string {
  return `${about.padEnd(10)}${colours.bold(verdict.padEnd(7))}${sentence}`;
}
