import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import { formatCount } from '../base/format-number.ts';
import { levelWords, plural, printable, sentenceCase } from '../base/words.ts';
import { MEASURE_WORDS } from '../decide/measure-words.ts';
import type { PlanKept, PlannedAnswer } from '../decide/plan-compared.ts';
import { sameDayNote } from '../decide/same-day-note.ts';
import { decidingFigure } from '../decide/verdict.ts';
import type { Lens } from '../estimate/lens.ts';
import type { Departure } from '../estimate/plan-followed.ts';
import { isProportion } from '../estimate/proportion.ts';
import { type TextColumn, textTable } from '../write/text-table.ts';

/** The verdict as randomised, the same as fished beside it, and where the crew left the schedule. */
export function keptText(answer: PlannedAnswer, { level }: { readonly level: number }): string {
  const { planned, verdict, sentence, comparison } = answer;
  const remarks = [comparison.lenses.same_day, planned.asFished].flatMap((lens) => [
    ...(lens.refused === null ? [] : [`${lensName(lens, planned)}, refused: ${lens.refused}`]),
    ...lens.difference.notes,
  ]);
  return `${[
    `${verdict.word.toUpperCase()}  ${sentence}`,
    lensTable(answer),
    ...(comparison.lenses.same_day.refused === null
      ? [sentenceCase(sameDayNote(comparison.measure, STRATUM[planned.design]))]
      : []),
    ...new Set(remarks),
    '',
    ...keptSentences(planned),
    ...(planned.departures.length === 0 ? [] : [departureTable(planned.departures)]),
    `Intervals: ${Math.round(level * 1000) / 10} %. * the lens the verdict rests on.`,
  ].join('\n')}\n`;
}

const left = (head: string): TextColumn => ({ head, align: 'left' });
const right = (head: string): TextColumn => ({ head, align: 'right' });

const STRATUM = { sides: 'trip', days: 'pair of trips' } as const;

function lensName(lens: Lens, { asFished }: PlanKept): string {
  return lens === asFished ? 'as fished' : 'as planned';
}

function lensTable({ comparison, verdict, planned }: PlannedAnswer): string {
  const { measure, levels, lenses } = comparison;
  const share = isProportion(measure);
  const { style } = MEASURE_WORDS[measure];
  const gapStyle = share ? POINTS : TIMES;
  const [a = '', b = ''] = levels.map((one) => printable(levelWords(one)));
  const rows = [lenses.same_day, planned.asFished].map((lens) => {
    const mark = lens !== planned.asFished && verdict.primary !== null ? ' *' : '';
    const stands = lens.refused === null;
    return [
      lensName(lens, planned) + mark,
      stands ? figureText(decidingFigure(lens, measure), gapStyle).short : 'refused',
      stands ? figureText(lens.a, style).short : '',
      stands ? figureText(lens.b, style).short : '',
      formatCount(lens.bites),
      formatCount(lens.trips),
    ];
  });
  const gap = share ? 'difference' : 'times as many';
  const strata = planned.design === 'sides' ? 'trips' : 'pairs of trips';
  return textTable(
    [left('lens'), right(gap), right(a), right(b), right('bites'), right(strata)],
    rows,
  );
}

/** Where more of the bites than this came on lines that left the schedule, its verdict is weak. */
const MUCH_DEPARTED = 0.1;

function keptSentences(kept: PlanKept): string[] {
  const { tripsPlanned, tripsMade, tripsOpen, tripsBeside, missing } = kept;
  const open = tripsOpen === 0 ? '' : `; ${formatCount(tripsOpen)} have no date yet`;
  const besides =
    tripsBeside === 0 ? [] : [`Not counted: ${plural(tripsBeside, 'other trip')} of that time.`];
  return [
    `${formatCount(tripsMade)} of the ${plural(tripsPlanned, 'trip')} of the schedule are in the log${open}.`,
    ...missing.map(({ scheduled, reason }) => `Trip ${scheduled.tripNumber}: ${printable(reason)}`),
    ...besides,
    ...leftOutSentences(kept),
    ...departureSentences(kept),
  ];
}

function leftOutSentences({ bitesWithoutPlace, bitesWithoutLevel }: PlanKept): string[] {
  const sentences: string[] = [];
  if (bitesWithoutPlace > 0)
    sentences.push(`${plural(bitesWithoutPlace, 'bite')} without a position left out.`);
  if (bitesWithoutLevel > 0)
    sentences.push(
      `For ${plural(bitesWithoutLevel, 'bite')} the log does not say what was fished: they count as planned only.`,
    );
  return sentences;
}

function departureSentences({ departures, bites }: PlanKept): string[] {
  if (departures.length === 0) return ['What was planned was fished, as far as the log says.'];
  const trips = new Set(departures.map(({ trip_id }) => trip_id)).size;
  const departed = departures.reduce((sum, one) => sum + one.bites, 0);
  const weak =
    departed <= MUCH_DEPARTED * bites
      ? []
      : [
          `${formatCount(departed)} of ${plural(bites, 'bite')} came on lines that did not fish what was planned. ` +
            'So many water the comparison down: read it beside the one as fished.',
        ];
  return [...weak, `On ${plural(trips, 'trip')} something else was fished than planned:`];
}

/** Departures shown on a terminal; the JSON document has them all. */
const SHOWN_DEPARTURES = 40;

function departureTable(departures: readonly Departure[]): string {
  const rows = departures
    .slice(0, SHOWN_DEPARTURES)
    .map((one) => [
      formatCount(one.tripNumber),
      one.date,
      printable(one.trip_id),
      one.position ?? 'whole trip',
      printable(levelWords(one.planned)),
      printable(levelWords(one.logged)),
      formatCount(one.bites),
    ]);
  const heads = [left('date'), left('in the log'), left('line'), left('planned'), left('fished')];
  const table = textTable([right('trip'), ...heads, right('bites')], rows);
  const rest = departures.length - SHOWN_DEPARTURES;
  return rest > 0 ? `${table}\nand ${formatCount(rest)} more: --json has them all.` : table;
}
