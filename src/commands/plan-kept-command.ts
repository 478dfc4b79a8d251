import { UserError } from '../base/problem.ts';
import { plannedComparison } from '../decide/plan-compared.ts';
import { PLANNED_FACTORS, planDesign } from '../estimate/plan-design.ts';
import { type ReadSchedule, readSchedule } from '../read/read-schedule.ts';
import { type FactorName, factorOf } from '../tally/factors.ts';
import type { Measure } from '../tally/measures.ts';
import type { TidySeason } from '../tidy/tidy-season.ts';
import { pairRecord } from './compare-record.ts';
import { documentHead, documentText } from './document.ts';
import type { Effects, ExitCode } from './effects.ts';
import type { CommonOptions } from './options.ts';
import { keptRecord } from './plan-kept-record.ts';
import { keptText } from './plan-kept-text.ts';

/** What is compared, as the options of `compare` say it. */
export interface AskedPlanned extends CommonOptions {
  readonly factor: FactorName;
  readonly measure: Measure;
  readonly adjust: readonly FactorName[];
  /** The levels in the order they are to be compared; null: that of the factor. */
  readonly between: string | null;
}

/** `compare --planned`: a comparison judged by the schedule it was fished by. */
export async function comparePlanned(
  season: TidySeason,
  asked: AskedPlanned,
  { schedule, effects }: { readonly schedule: string; readonly effects: Effects },
): Promise<ExitCode> {
  const { settings } = season.log;
  const plan = await readSchedule(schedule, settings, PLANNED_FACTORS);
  const { factor, level } = asked;
  const design = planDesign(factor);
  if (plan.factor !== factor || typeof design !== 'string') {
    throw new UserError(
      `${schedule} is a schedule of ${plan.factor}, not of ${factor}: say --factor ${plan.factor}.`,
      2,
    );
  }
  checkPlaces(plan, design === 'sides', schedule);
  const levels = levelsOf(plan, asked, season);
  const answer = plannedComparison(season, { ...asked, levels }, { ...plan, design });
  const head = documentHead('compare', season, asked);
  const record = { ...head, ...pairRecord(answer), planned: keptRecord(answer.planned) };
  effects.out(asked.json ? documentText(record) : keptText(answer, { level }));
  return answer.verdict.primary === null ? 1 : 0;
}

function checkPlaces({ trips }: ReadSchedule, needPlaces: boolean, schedule: string): void {
  const odd = trips.find(({ lines }) =>
    lines.some(({ position }) => (position === null) === needPlaces),
  );
  if (odd === undefined) return;
  const trouble = needPlaces ? 'has a line without a position' : 'names a position';
  throw new UserError(
    `${schedule}: trip ${odd.tripNumber} ${trouble}. Leave the columns of the plan as plan wrote them.`,
    2,
  );
}

function levelsOf(
  { trips }: ReadSchedule,
  { factor, between }: AskedPlanned,
  { log }: TidySeason,
): readonly [string, string] {
  const planned = [...new Set(trips.flatMap(({ lines }) => lines.map(({ level }) => level)))];
  planned.sort(factorOf(factor).order(log.settings));
  const [a, b] = planned;
  if (a === undefined || b === undefined || planned.length > 2) {
    throw new UserError(
      `A schedule shares out two levels of ${factor}; this one has ${planned.join(', ') || 'none'}.`,
      2,
    );
  }
  if (between === null) return [a, b];
  const asked = between.split(',').map((level) => level.trim());
  const [first, second] = asked;
  const isSame = asked.length === 2 && planned.every((level) => asked.includes(level));
  if (isSame && first !== undefined && second !== undefined) return [first, second];
  throw new UserError(`--between ${between}: the schedule is of ${a} and ${b}.`, 2);
}
