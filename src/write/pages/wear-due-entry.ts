import { formatHours } from '../../base/format-number.ts';
import { formatDate } from '../../base/format-time.ts';
import { levelWords, listWords, plural, printable } from '../../base/words.ts';
import type { RespoolAdvice } from '../../decide/respool-advice.ts';
import { type RodDue, TRIPS_AHEAD } from '../../decide/respool-due.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { figureColumn, PLAIN } from './wear-figures.ts';

const CSV = 'reels.csv';
const MOST_NAMED = 8;

/** Which reels are due: every rod with the age of its line, what to expect, due or not, and why. */
export function wearDueEntry(context: ReportContext): EntryWithFiles {
  const advice = context.respool();
  const id = 'reels';
  const question = 'Which reels are due?';
  const answer = dueSentence(advice);
  const { rods } = advice;
  if (rods.length === 0) return { entry: { id, question, answer }, files: [] };
  const table = dueTable(context, rods);
  return {
    entry: {
      id,
      question,
      answer,
      asides: [
        'As of the last trip of the log. A reel filled since has to be logged to be counted.',
      ],
      table: { view: tableView(table), csv: CSV, label: 'Rod by rod', open: true },
      how: {
        text: `Breaks to expect in the next ${TRIPS_AHEAD} trips at each rod’s own pace, if its line is left alone.`,
        anchor: 'respool',
      },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

/** `Due: K2 and K6.`, and of which rods it cannot be said. */
export function dueSentence({ wear, rods }: RespoolAdvice): string {
  if (rods.length === 0) return wear.refused ?? 'No rod has a logged filling that was fished.';
  const names = (isDue: RodDue['isDue']) =>
    listWords(
      rods.filter((rod) => rod.isDue === isDue).map(({ rod }) => printable(rod)),
      MOST_NAMED,
    );
  const [due, unknown] = [names(true), names(null)];
  const others = unknown === '' ? '' : ` For ${unknown} no respool age is named.`;
  if (due !== '') return `Due: ${due}.${others}`;
  return rods.every(({ isDue }) => isDue === null) ? others.trim() : `No reel is due.${others}`;
}

/** One row a rod; on a phone each becomes a card. */
function dueTable(context: ReportContext, rods: readonly RodDue[]): DataTable<RodDue> {
  return {
    id: 'reels-table',
    caption: `By rod, with the line on its reel and the day it was filled. In brackets: the ${intervalWords(context)}.`,
    columns: [
      {
        head: 'rod',
        kind: 'text',
        cell: ({ rod }) => rod,
        csv: [{ head: 'rod', value: ({ rod }) => rod }],
      },
      {
        head: 'due',
        kind: 'text',
        cell: dueWords,
        csv: [
          { head: 'due', value: ({ isDue }) => (isDue === null ? null : isDue ? 'yes' : 'no') },
        ],
      },
      {
        head: 'line',
        kind: 'text',
        cell: ({ spool }) => `${levelWords(spool.line_type)}, ${formatDate(spool.date)}`,
        csv: [
          { head: 'line_type', value: ({ spool }) => spool.line_type },
          { head: 'filled', value: ({ spool }) => spool.date },
        ],
      },
      {
        head: 'age',
        kind: 'text',
        cell: ({ age }) => ageWords(age),
        csv: [
          { head: 'trips', value: ({ age }) => age.trips },
          { head: 'fights', value: ({ age }) => age.fights },
          { head: 'line_hours', value: ({ age }) => age.lineHours },
        ],
      },
      figureColumn(`breaks in ${TRIPS_AHEAD} trips`, {
        of: ({ ahead }: RodDue) => ahead,
        name: 'breaks_next_10_trips',
        style: PLAIN,
      }),
      {
        head: 'why',
        kind: 'text',
        cell: ({ why }) => why,
        csv: [{ head: 'why', value: ({ why }) => why }],
      },
    ],
    rows: rods,
    wordy: true,
  };
}

/** `due`, `in 4 trips` or `not known`. */
function dueWords({ isDue, tripsLeft }: RodDue): string {
  if (isDue === null) return 'not known';
  if (isDue) return 'due';
  return tripsLeft === null ? 'not yet' : `in ${plural(tripsLeft, 'trip')}`;
}

function ageWords({ trips, fights, lineHours }: RodDue['age']): string {
  const hours = lineHours === null ? [] : [`${formatHours(lineHours)} line-hours`];
  return [plural(trips, 'trip'), plural(fights, 'fight'), ...hours].join(', ');
}
