import { access } from 'node:fs/promises';
import { join } from 'node:path';
import { didYouMean } from '../base/nearest.ts';
import { UserError } from '../base/problem.ts';
import { plural } from '../base/words.ts';
import { type ComparisonPlan, planComparison } from '../decide/plan-answer.ts';
import { PLANNED_FACTORS } from '../estimate/plan-design.ts';
import { readSchedule } from '../read/read-schedule.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { SCHEDULE_FILE, scheduleCsv } from '../write/plan-csv.ts';
import { planSheet } from '../write/plan-sheet.tsx';
import { writeFolder } from '../write/write-folder.ts';
import { documentHead, documentText } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import { levelsMet, loadSeason } from './load-season.ts';
import { type CheckedPlanOptions, type PlanOptions, planOptions } from './plan-options.ts';
import { planRecord } from './plan-record.ts';
import { planText } from './plan-text.ts';

/** `plan`: how many trips tell two levels apart, and a schedule drawn by lot to do it with. */
export async function planCommand(
  folder: string,
  given: PlanOptions,
  effects: Effects,
): Promise<ExitCode> {
  const options = planOptions(given);
  const season = await loadSeason(folder, options, effects);
  const head = documentHead('plan', season, options);
  const plan = planComparison(season, options);
  const slips = likelySlips(season, options);
  if (plan.kind === 'not-estimable') {
    const { factor, levels, measure } = options;
    const nothing = { factor, levels, measure, refused: plan.reason, written: [] };
    effects.out(options.json ? documentText({ ...head, ...nothing }) : `${plan.reason}\n`);
    return 1;
  }
  const written = options.out === null ? [] : await writePlan(options.out, plan, season);
  if (options.json) {
    const warnings = [...head.warnings, ...slips.map((text) => ({ code: 'new-level', text }))];
    effects.out(documentText({ ...head, warnings, ...planRecord(plan), written }));
    return 0;
  }
  for (const slip of slips) effects.err(`${slip}\n`);
  const where =
    options.out === null
      ? 'Add --out DIR to write the schedule and a sheet to print.\n'
      : `${options.out} holds ${written.join(' and ')}. Print the sheet, fill dates into the CSV, and read it back with compare --planned ${join(options.out, SCHEDULE_FILE)}.\n`;
  effects.out(`${planText(plan)}${where}`);
  return 0;
}

/** Another number is another size, and no slip. */
const IS_WORD = /\p{L}{3}/u;

/** A level that is new to the log may be a slip of the pen, and a plan for it would be wasted. */
function likelySlips(season: TidySeason, { factor, levels }: CheckedPlanOptions): string[] {
  const met = levelsMet(season, factor);
  return levels
    .filter((level) => !met.includes(level) && IS_WORD.test(level))
    .map((level) => ({ level, hint: didYouMean(level, met) }))
    .filter(({ hint }) => hint !== '')
    .map(({ level, hint }) => `This log has no ${factor} "${level}".${hint}`);
}

async function writePlan(
  out: string,
  plan: ComparisonPlan,
  season: TidySeason,
): Promise<readonly string[]> {
  await keepFilledSchedule(out, season);
  const files = [scheduleCsv(plan), planSheet(plan, season.log.name)];
  await writeFolder(out, files);
  return files.map((file) => file.name);
}

/** A schedule into which the crew has written is worth more than a new one. */
async function keepFilledSchedule(out: string, season: TidySeason): Promise<void> {
  const path = join(out, SCHEDULE_FILE);
  const isThere = await access(path).then(
    () => true,
    () => false,
  );
  if (!isThere) return;
  const before = await readSchedule(path, season.log.settings, PLANNED_FACTORS);
  const filled = before.trips.filter(({ date, tripId }) => date !== null || tripId !== null);
  if (filled.length === 0) return;
  throw new UserError(
    `${path} has the dates of ${plural(filled.length, 'trip')} filled in, which would be lost. Name another folder with --out.`,
    2,
  );
}
