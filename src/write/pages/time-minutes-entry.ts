import { figureText, PERCENT } from '../../base/format-figure.ts';
import { formatCount, formatHours } from '../../base/format-number.ts';
import { formatMinutes } from '../../base/format-time.ts';
import { plural } from '../../base/words.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import { caughtPerFishingHour } from '../../estimate/fishing-hour.ts';
import { type LineState, type TripMinutes, tripMinutes } from '../../estimate/trip-minutes.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { ENOUGH } from './enough.ts';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { figureColumn } from './wear-figures.ts';

const CSV = 'minutes.csv';

const STATE_WORDS: Readonly<Record<LineState, string>> = {
  fishing: 'bait in the water',
  fish_on: 'a fish on',
  between: 'out between two soaks',
  ends: 'before the first and after the last soak',
};

/** Where the minutes of an average trip went, line by line. */
export async function timeMinutesEntry(context: ReportContext): Promise<EntryWithFiles> {
  const { season, filter, level } = context;
  const minutes = tripMinutes(season, { ...filter, level });
  const id = 'minutes';
  const question = 'Where do the hours go?';
  const how = {
    text: 'Each position fished, from lines in to lines out, by what its line was doing; averages over trips.',
    anchor: 'minutes',
  };
  if (minutes.refused !== null) {
    return { entry: { id, question, answer: minutes.refused, how }, files: [] };
  }
  const table = minutesTable(context, minutes);
  const left = minutes.leftOut;
  return {
    entry: {
      id,
      question,
      answer: minutesSentence(minutes),
      asides:
        left > 0
          ? [
              `${plural(left, 'trip')} without all clock times ${left === 1 ? 'is' : 'are'} left out.`,
            ]
          : [],
      pictures: [await minutesPicture(context, minutes)],
      table: { view: tableView(table), csv: CSV },
      how,
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

/** What an hour of fishing brings, in a sentence. */
export function fishingHourEntry(context: ReportContext): EntryWithFiles {
  const { season, filter, level } = context;
  const { caught, caughtFish, hours, trips } = caughtPerFishingHour(season, { ...filter, level });
  const answer =
    caught.kind === 'estimated'
      ? `Fish came to the boat at ${figureText(caught, { kind: 'rate', scale: 1, per: 'hour of fishing' }).long}: ` +
        `${formatCount(caughtFish)} in ${formatHours(hours)} hours over ${plural(trips, 'trip')}.`
      : 'How long trips fished is not recorded: log lines_in and lines_out, or hours_fished, in trips.csv.';
  return {
    entry: {
      id: 'fishing-hour',
      question: 'What does an hour of fishing bring?',
      answer,
      how: {
        text: `Fish caught over hours from lines in to lines out, however many lines; its ${intervalWords(context)} by trip.`,
        anchor: 'rate',
      },
    },
    files: [],
  };
}

function isThin({ trips }: TripMinutes): boolean {
  return trips.length < ENOUGH.trips;
}

function minutesSentence(minutes: TripMinutes): string {
  const { trips, states } = minutes;
  const hours = trips.reduce((sum, { trip }) => sum + (trip.fishedHours ?? 0), 0) / trips.length;
  const share = (wanted: LineState) => {
    const found = states.find(({ state }) => state === wanted)?.share;
    return found?.kind === 'estimated' ? figureText(found, PERCENT).short : null;
  };
  const [fishing, fishOn, between] = [share('fishing'), share('fish_on'), share('between')];
  const length = `An average trip had ${formatMinutes(60 * hours)} from lines in to lines out`;
  if (fishing === null || fishOn === null || between === null) {
    return `${length}; one trip, or trips that are all alike, cannot show how that varies.`;
  }
  return (
    `${length}. Of a line’s time the bait was in the water for ${fishing}; a fish was on for ` +
    `${fishOn}, and for ${between} the line was out between two soaks.`
  );
}

async function minutesPicture(
  context: ReportContext,
  minutes: TripMinutes,
): Promise<CaptionedPicture> {
  const thin = isThin(minutes);
  const described = minutes.states.map(
    ({ state, share }) => `${STATE_WORDS[state]}: ${figureText(share, PERCENT).short}`,
  );
  const words = {
    id: 'minutes-picture',
    title: 'What a line was doing, % of its time',
    description: `Dots with ${intervalWords(context)}s. ${described.join('; ')}.`,
  };
  const chart = {
    rows: minutes.states.map(({ state, hours, share }) => ({
      label: STATE_WORDS[state],
      marks: [{ figure: share, n: `${formatHours(hours)} h`, thin }],
    })),
    series: [],
    style: PERCENT,
    axisTitle: '% of a line’s time from lines in to lines out',
    reference: null,
    shaded: null,
    span: [0, 1] as const,
  };
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption: `Dot: share of all line-hours. Bar: ${intervalWords(context)}. Right: line-hours in all.${thin ? ` Hollow and grey: fewer than ${ENOUGH.trips} trips.` : ''}`,
  };
}

type Row = TripMinutes['states'][number];

function minutesTable(context: ReportContext, minutes: TripMinutes): DataTable<Row> {
  const perTrip = ({ hours }: Row) => (60 * hours) / minutes.trips.length;
  return {
    id: 'minutes-table',
    caption: `An average of ${plural(minutes.trips.length, 'trip')}, all lines together. In brackets: the ${intervalWords(context)}.`,
    columns: [
      {
        head: 'a line',
        kind: 'text',
        cell: ({ state }) => STATE_WORDS[state],
        csv: [{ head: 'state', value: ({ state }) => state }],
      },
      {
        head: 'line-time a trip',
        kind: 'number',
        cell: (row) => formatMinutes(perTrip(row)),
        csv: [{ head: 'line_minutes_per_trip', value: perTrip }],
      },
      {
        head: 'line-hours in all',
        kind: 'number',
        cell: ({ hours }) => formatHours(hours),
        csv: [{ head: 'line_hours', value: ({ hours }) => hours }],
      },
      figureColumn('% of a line’s time', {
        of: ({ share }: Row) => share,
        name: 'share',
        style: PERCENT,
      }),
    ],
    rows: minutes.states,
    thin: () => isThin(minutes),
  };
}
