import { figureText, PERCENT } from '../base/format-figure.ts';
import { formatCount, formatDecimal, THIN_SPACE } from '../base/format-number.ts';
import { levelWords, printable, sentenceCase } from '../base/words.ts';
import { MEASURE_WORDS } from '../decide/measure-words.ts';
import { type ComparisonPlan, LONGEST_UNASKED } from '../decide/plan-answer.ts';
import type { PlannedTrip } from '../decide/plan-schedule.ts';
import { planNotes, planSentence, scheduleSentence, timeWords } from '../decide/plan-sentence.ts';
import { isProportion } from '../estimate/proportion.ts';
import { LINE_CAUTION } from '../write/cautions.ts';
import { type TextColumn, textTable } from '../write/text-table.ts';

/** Trips of the schedule shown on a terminal; the files have them all. */
const SHOWN_TRIPS = 12;
/** Numbers of trips whose power is shown on a terminal; the JSON document has every fifth. */
const SHOWN_POINTS = [10, 20, 40, 60, 80, 120, 160, LONGEST_UNASKED];

const RULES =
  'The local rules for gear, hooks, baits and areas come first: leave out what they do not allow.';

/** How many trips it takes, what they can tell, what that rests on, and the first of the schedule. */
export function planText(plan: ComparisonPlan): string {
  const ofSchedule = scheduleSentence(plan);
  return `${[
    planSentence(plan),
    ...(ofSchedule === null ? [] : [ofSchedule]),
    '',
    basisTable(plan),
    ...planNotes(plan).map((note) => printable(note)),
    '',
    curveTable(plan),
    '',
    scheduleTable(plan),
    '',
    RULES,
    LINE_CAUTION,
  ].join('\n')}\n`;
}

const left = (head: string): TextColumn => ({ head, align: 'left' });
const right = (head: string): TextColumn => ({ head, align: 'right' });

function basisTable({ basis, target, rates }: ComparisonPlan): string {
  const { style, name, unit } = MEASURE_WORDS[target.measure];
  const { pace } = basis;
  const share = isProportion(target.measure);
  const rate = (value: number) =>
    share
      ? `${formatDecimal(100 * value, 1)}${THIN_SPACE}%`
      : `${formatDecimal(10 * value, 2)} per 10 line-hours`;
  const [a, b] = rates.map(rate);
  const rows = [
    [sentenceCase(name), figureText(basis.base, style).long],
    ['Reckoned with', `${a} against ${b}`],
    ['Trips a week', formatDecimal(pace.tripsPerWeek, 1)],
    ['Bites a trip', formatDecimal(pace.bitesPerTrip, 1)],
    [`${sentenceCase(unit)} a trip that count`, formatDecimal(pace.unitsPerTrip, 1)],
    ['Design effect', formatDecimal(basis.spread.designEffect, 2)],
  ];
  return textTable([left('what the log says'), left('')], rows);
}

function curveTable(plan: ComparisonPlan): string {
  const rows = plan.curve
    .filter(({ trips }) => SHOWN_POINTS.includes(trips))
    .map(({ trips, power }) => [
      formatCount(trips),
      timeWords(plan, trips),
      figureText(
        { kind: 'estimated', estimate: power, lower: power, upper: power, ...NO_BASIS },
        PERCENT,
      ).value,
    ]);
  return textTable([right('trips'), right('time'), right('chance to tell')], rows);
}

const NO_BASIS = { level: 0, method: 'power', n: 0, exposure: null, notes: [] };

function scheduleTable({ schedule, places, basis, levels: [a, b], seed }: ComparisonPlan): string {
  const [nameA, nameB] = [a, b].map((level) => printable(levelWords(level)));
  const key = `A = ${nameA}, B = ${nameB}. Seed ${seed}.`;
  const columns =
    basis.design === 'days'
      ? [{ head: 'fishes', position: null }]
      : places.flatMap(({ reach, port, starboard }) => [
          { head: `${reach ?? 'all'} port`, position: port[0] ?? null },
          { head: 'stbd', position: starboard[0] ?? null },
        ]);
  const letter = ({ lines }: PlannedTrip, position: string | null) =>
    lines.find((line) => line.position === position)?.level === a ? 'A' : 'B';
  const rows = schedule
    .slice(0, SHOWN_TRIPS)
    .map((trip) => [
      formatCount(trip.tripNumber),
      formatCount(trip.block),
      ...columns.map(({ position }) => letter(trip, position)),
    ]);
  const table = textTable(
    [right('trip'), right('block'), ...columns.map(({ head }) => left(head))],
    rows,
  );
  const rest = schedule.length - SHOWN_TRIPS;
  const more = rest > 0 ? [`and ${formatCount(rest)} more: --out DIR writes them all.`] : [];
  return [key, table, ...more].join('\n');
}
