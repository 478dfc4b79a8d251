import { formatCount, formatDecimal } from '../../base/format-number.ts';
import { listWords, plural } from '../../base/words.ts';
import type { ConditionRates } from '../../estimate/condition-rates.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { EntryWithFiles } from './level-entry.ts';

const CSV = 'conditions.csv';

/** What goes with the bite at all, once it is known how many things were looked at. */
export function conditionsOverview(found: readonly ConditionRates[]): EntryWithFiles {
  const table = testsTable(found);
  const hasTrips = found.some(({ levels }) => levels.length > 0);
  return {
    entry: {
      id: 'conditions',
      question: 'What goes with the bite?',
      answer: hasTrips
        ? overviewSentence(found)
        : 'There is no trip with a bite or a line out in this log yet.',
      asides: hasTrips ? [LOOKED_AT_MANY, GO_TOGETHER] : [],
      ...(hasTrips
        ? { table: { view: tableView(table), csv: CSV, label: 'The chances behind it' } }
        : {}),
      how: {
        text: 'A log-linear model of bites per trip on each condition, errors by trip, chances corrected for how many were tried.',
        anchor: 'conditions',
      },
    },
    files: hasTrips ? [{ name: CSV, text: tableCsv(table) }] : [],
  };
}

const LOOKED_AT_MANY =
  'Look at eight things and one will often look good by luck alone. So nothing is pointed out here unless it still stands after that is taken into account.';
const GO_TOGETHER =
  'Conditions come together: cool water, wind and sea belong to the same months. What goes with the bite need not be what brings it.';

function overviewSentence(found: readonly ConditionRates[]): string {
  const tested = found.filter(({ test }) => test.p !== null);
  if (tested.length === 0) {
    return 'Nothing can be judged yet: it takes two levels of a condition with five trips each, with bites and line-hours.';
  }
  const standing = tested.filter(({ standsOut }) => standsOut);
  const tried = plural(tested.length, 'condition was', 'conditions were');
  if (standing.length === 0) {
    return `${tried} looked at, and none stands out from what luck does: too close to call.`;
  }
  const names = listWords(standing.map(({ condition }) => `the ${condition.words}`));
  return `${tried} looked at: bites go with ${names}; the rest may be luck.`;
}

function testsTable(found: readonly ConditionRates[]): DataTable<ConditionRates> {
  const chance = (p: number | null) =>
    p === null ? 'not known' : p < 0.001 ? '<0.001' : formatDecimal(p, 3);
  return {
    id: 'conditions-table',
    caption:
      'The chance of levels so far apart if the condition made no difference, before correction, and whether it still stands after it.',
    columns: [
      {
        head: 'condition',
        kind: 'text',
        cell: ({ condition }) => condition.words,
        csv: [{ head: 'condition', value: ({ condition }) => condition.name }],
      },
      {
        head: 'trips',
        kind: 'number',
        cell: ({ test }) => formatCount(test.trips),
        csv: [{ head: 'trips', value: ({ test }) => test.trips }],
      },
      {
        head: 'levels',
        kind: 'number',
        cell: ({ test }) => formatCount(test.levels),
        csv: [{ head: 'levels', value: ({ test }) => test.levels }],
      },
      {
        head: 'chance, as logged',
        kind: 'number',
        cell: ({ test }) => chance(test.p),
        csv: [{ head: 'p', value: ({ test }) => test.p }],
      },
      {
        head: 'chance, months held equal',
        kind: 'number',
        cell: ({ test }) => chance(test.pWithinMonth),
        csv: [{ head: 'p_within_month', value: ({ test }) => test.pWithinMonth }],
      },
      {
        head: 'stands out',
        kind: 'text',
        cell: ({ test, standsOut }) =>
          test.reason !== null ? test.reason : standsOut ? 'yes' : 'no',
        csv: [{ head: 'stands_out', value: ({ standsOut }) => (standsOut ? 'yes' : 'no') }],
      },
    ],
    rows: found,
  };
}
