import { formatCount, formatDecimal, formatSmall, THIN_SPACE } from '../base/format-number.ts';
import { listWords, plural } from '../base/words.ts';
import { isProportion } from '../estimate/proportion.ts';
import { factorWords, levelPlace } from '../tally/factor-words.ts';
import { MEASURE_WORDS } from './measure-words.ts';
import type { ComparisonPlan } from './plan-answer.ts';

/** How many trips it takes, in a sentence a captain would say. */
export function planSentence(plan: ComparisonPlan): string {
  const { needed, target } = plan;
  const what = `${differenceWords(plan, target.difference)} in ${comparedWords(plan)}`;
  if (needed === null)
    return `No number of trips that a boat can make would tell ${what}. Look for a larger difference, or by another measure.`;
  // A plan is no surer than two digits of what it will bring.
  const units = Number((needed * plan.basis.pace.unitsPerTrip).toPrecision(2));
  return (
    `About ${plural(needed, 'trip')} (${formatCount(units)} ${MEASURE_WORDS[target.measure].unit}, ` +
    `${timeWords(plan, needed)} at this log’s pace) would tell ${what}, ` +
    `if there is one, with a chance of ${percent(target.power)}.`
  );
}

/** What the trips of the schedule can tell; null where they are just those needed. */
export function scheduleSentence(plan: ComparisonPlan): string | null {
  const { planned, target, detectable, needed } = plan;
  if (planned.trips === needed) return null;
  const trips = `The ${plural(planned.trips, 'trip')} of the schedule`;
  const chance = `${differenceWords(plan, target.difference)} with a chance of ${percent(planned.power)}`;
  if (detectable === null)
    return `${trips} would tell ${chance}; not even the largest possible difference with one of ${percent(target.power)}.`;
  return (
    `${trips} would tell ${chance}. ` +
    `The smallest difference they tell with a chance of ${percent(target.power)} is ` +
    `${sizeWords(plan, detectable)}.`
  );
}

/** What the plan rests on, and anything it must not be read without. */
export function planNotes(plan: ComparisonPlan): string[] {
  return [
    fromNothingNote(plan),
    baseNote(plan),
    spreadNote(plan),
    ...placeNotes(plan),
    ...paceNotes(plan),
    ...scheduleNotes(plan),
  ];
}

/** `5 points`, `10 %`: a difference in the unit of the measure. */
export function sizeWords({ target }: ComparisonPlan, difference: number): string {
  const size = 100 * difference;
  const decimals = size < 0.95 ? 2 : Math.abs(size - Math.round(size)) < 0.05 ? 0 : 1;
  const number = formatSmall(size, decimals);
  if (!isProportion(target.measure)) return `${number}${THIN_SPACE}%`;
  return `${number} ${number === '1' ? 'point' : 'points'}`;
}

/** Weeks at the log’s pace, or years where they are many. */
export function timeWords({ basis }: ComparisonPlan, trips: number): string {
  const weeks = Math.max(1, Math.ceil(trips / basis.pace.tripsPerWeek));
  return weeks < 104 ? plural(weeks, 'week') : `${plural(Math.round(weeks / 52), 'year')}`;
}

function differenceWords(plan: ComparisonPlan, difference: number): string {
  return `a difference of ${sizeWords(plan, difference)}`;
}

function comparedWords({ factor, levels, target }: ComparisonPlan): string {
  const [a, b] = levels.map((level) => levelPlace(factor, level));
  return `${MEASURE_WORDS[target.measure].name} ${a} against ${b}`;
}

function percent(share: number): string {
  const shown = Math.min(99, Math.round(100 * share));
  return `${share >= 0.995 ? 'over 99' : shown}${THIN_SPACE}%`;
}

/** What `compare` says counts on top of the log; this does not. */
function fromNothingNote({ basis }: ComparisonPlan): string {
  const nothing =
    'These trips count from nothing: what was fished before was not drawn by lot, so it is not among them.';
  return basis.newLevels.length > 0
    ? nothing
    : `${nothing} While the answer is open, compare says how many more it takes on top of the log.`;
}

function baseNote({ basis, factor, levels }: ComparisonPlan): string {
  const { newLevels, baseFrom, pace } = basis;
  if (newLevels.length > 0) {
    return (
      `The log has no ${factorWords(factor)} ${listWords(newLevels)} yet, so the rate and its ` +
      'spread are those of the whole log.'
    );
  }
  if (baseFrom === 'log')
    return 'The rate is that of the whole log: what was fished so far of the two is all or none.';
  const rate = `The rate is that of ${listWords(levels)} so far`;
  if (basis.design === 'days') return `${rate}.`;
  if (pace.tripsWithBoth === 0) return `${rate}; no trip so far fished both.`;
  const { tripsWithBoth: both, tripsWithEither: either } = pace;
  const share = both === either ? 'all' : `${formatCount(both)} of the`;
  return `${rate}; ${share} ${plural(either, 'trip')} with either fished both.`;
}

const SPREAD_WORDS = {
  'same-day': (strata: number) =>
    `How much such a comparison varies is taken from the ${plural(strata, 'trip')} that fished both`,
  sides: (strata: number) =>
    `How much such a comparison varies is taken from port against starboard on ${plural(strata, 'trip')} of this log`,
  neighbours: (strata: number) =>
    `How much such a comparison varies is taken from ${plural(strata, 'pair')} of neighbouring trips of this log`,
  correlation: () =>
    'The log has too few such trips to show how much such a comparison varies, so it is worked out from how alike bites of one trip are',
  assumed: () =>
    'Nothing in the log shows how much such a comparison varies, so bites are taken to come one by one; where they come in bursts it takes more trips',
} as const;

function spreadNote({ basis }: ComparisonPlan): string {
  const { from, strata, designEffect } = basis.spread;
  return `${SPREAD_WORDS[from](strata)} (design effect ${formatDecimal(designEffect, 2)}).`;
}

function placeNotes({ basis, factor, target, places }: ComparisonPlan): string[] {
  const notes: string[] = [];
  if (basis.strata.from === 'even') {
    notes.push(
      'The log does not say on which side most of it came, so half is taken for each side. ' +
        'Write the position of every bite, or the schedule cannot be read back.',
    );
    if (!isProportion(target.measure))
      notes.push('A rate per line-hour of one line needs its hours: log soaks.csv.');
  }
  const [only] = places;
  if (factor === 'rod' && only !== undefined)
    notes.push(
      `The two rods change sides on the ${only.reach ?? 'outer'} lines, where most bites came.`,
    );
  return notes;
}

/** Fewer trips than this are a rough guide only (common practice, no source). */
const FEW_TRIPS = 10;
const SHORT_LOG_DAYS = 14;

function paceNotes({ basis: { pace } }: ComparisonPlan): string[] {
  const notes: string[] = [];
  if (pace.trips < FEW_TRIPS)
    notes.push(`All this rests on ${plural(pace.trips, 'trip')}: a rough guide. Plan again later.`);
  if (pace.days < SHORT_LOG_DAYS)
    notes.push(`The log spans ${plural(pace.days, 'day')}, so the weeks are a guess.`);
  return notes;
}

function scheduleNotes({ needed, planned, asked, basis }: ComparisonPlan): string[] {
  const notes: string[] = [];
  const { trips } = planned;
  if (asked !== null && asked < trips) {
    const what = basis.design === 'sides' ? 'the sides' : 'the days';
    notes.push(
      `${formatCount(asked)} trips were asked for; ${formatCount(trips)} balance ${what}.`,
    );
  }
  if (asked === null && (needed === null || needed > trips)) {
    const short = needed === null ? '' : `, short of the ${formatCount(needed)} needed`;
    notes.push(`The schedule stops at ${plural(trips, 'trip')}${short}.`);
  }
  return notes;
}
