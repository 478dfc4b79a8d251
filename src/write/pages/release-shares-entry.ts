import { figureText, PERCENT } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { plural, sentenceCase } from '../../base/words.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import { type OutcomeShares, outcomeShares } from '../../estimate/outcome-shares.ts';
import { NOT_RECORDED } from '../../tally/level-order.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { ENOUGH } from './enough.ts';
import type { EntryWithFiles } from './level-entry.ts';
import { shortLevel } from './level-words.ts';
import { askedFish, type FishGrouping, type OutcomeAsked } from './release-asked.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { figureColumn } from './wear-figures.ts';

/** A question about what became of fish, group by group. */
export interface SharesQuestion<Outcome extends string> {
  readonly id: string;
  readonly question: string;
  readonly outcome: OutcomeAsked<Outcome>;
  readonly by: FishGrouping;
  readonly asides: readonly string[];
  /** Whether the sentence begins with all fish together, which one entry of a page does. */
  readonly tellsWhole: boolean;
}

/** More groups than this do not make a picture; the table has them all. */
const MOST_ROWS = 20;
const THIN_FISH = `Hollow and grey: fewer than ${ENOUGH.bites} fish or ${ENOUGH.trips} trips, not ranked.`;

/** Shares of where fish were hooked, or how they went back, by group. */
export async function releaseSharesEntry<Outcome extends string>(
  context: ReportContext,
  asked: SharesQuestion<Outcome>,
): Promise<EntryWithFiles> {
  const { id, question, outcome, by } = asked;
  const { season, filter, level } = context;
  const fish = askedFish(season, filter, outcome);
  const counted = { ...outcome, level, together: outcome.feared };
  const rows = outcomeShares(fish, { ...counted, groupOf: by.groupOf, order: by.order });
  const [all] = outcomeShares(fish, { ...counted, groupOf: () => 'all', order: () => 0 });
  if (all === undefined) {
    const answer =
      fish.length === 0 ? `There is no ${outcome.fish} in this log yet.` : outcome.notLogged;
    return { entry: { id, question, answer }, files: [] };
  }
  const of = fish.reduce((sum, { count }) => sum + count, 0);
  const csv = `${id}.csv`;
  const table = sharesTable(context, asked, rows);
  const cover =
    all.fish < of
      ? [
          `Logged for ${formatCount(all.fish)} of ${formatCount(of)} ${outcome.fish}; the others are left out.`,
        ]
      : [];
  const known = rows.filter(({ group }) => group !== NOT_RECORDED);
  return {
    entry: {
      id,
      question,
      answer: sharesSentence(asked, all, known),
      asides: [...cover, ...asked.asides],
      pictures: known.length === 0 ? [] : [await sharesPicture(context, asked, known)],
      table: { view: tableView(table), csv },
      how: {
        text: `Fish of each kind over fish whose kind is logged, its ${intervalWords(context)} with trips as the unit that repeats.`,
        anchor: 'hook-place',
      },
    },
    files: [{ name: csv, text: tableCsv(table) }],
  };
}

function isThin({ fish, trips }: { readonly fish: number; readonly trips: number }): boolean {
  return fish < ENOUGH.bites || trips < ENOUGH.trips;
}

function sharesSentence<Outcome extends string>(
  { outcome, by, tellsWhole }: SharesQuestion<Outcome>,
  all: OutcomeShares<Outcome>,
  known: readonly OutcomeShares<Outcome>[],
): string {
  const whole =
    `Of ${formatCount(all.fish)} ${outcome.fish} ${figureText(all.together, PERCENT).short} were ` +
    `${outcome.fearedWords}, and ${figureText(all.shares[outcome.wished], PERCENT).short} ${outcome.wishedWords}.`;
  const lead = tellsWhole ? `${whole} ` : '';
  if (known.length === 0) return `${whole} The ${by.noun} is not recorded for them.`;
  const enough = known
    .filter((row) => !isThin(row))
    .flatMap(({ group, together }) => (together.kind === 'estimated' ? [{ group, together }] : []))
    .sort((a, b) => b.together.estimate - a.together.estimate);
  const [most, least] = [enough[0], enough.at(-1)];
  if (most === undefined || least === undefined || most === least) {
    return `${whole} No two kinds of ${by.noun} have enough fish behind them to tell apart.`;
  }
  if (most.together.estimate === least.together.estimate) {
    return `${whole} That was the same for every ${by.noun} with enough fish behind it.`;
  }
  const place = ({ group, together }: typeof most) =>
    `${by.preposition} ${shortLevel(by.nameOf(group))}, ${figureText(together, PERCENT).short}`;
  const apart =
    most.together.lower > least.together.upper
      ? 'Their intervals lie apart.'
      : 'Their intervals overlap: too close to call.';
  return `${lead}The share ${outcome.fearedWords} was largest ${place(most)}, and smallest ${place(least)}. ${apart}`;
}

async function sharesPicture<Outcome extends string>(
  context: ReportContext,
  { id, outcome, by }: SharesQuestion<Outcome>,
  known: readonly OutcomeShares<Outcome>[],
): Promise<CaptionedPicture> {
  const shown = known.slice(0, MOST_ROWS);
  const series = [outcome.wishedWords, outcome.fearedWords];
  const chart = {
    rows: shown.map((row) => ({
      label: by.nameOf(row.group),
      marks: [row.shares[outcome.wished], row.together].map((figure) => ({
        figure,
        n: `${formatCount(row.fish)} fish`,
        thin: isThin(row),
      })),
    })),
    series,
    style: PERCENT,
    axisTitle: `% of ${outcome.fish}`,
    reference: null,
    shaded: null,
    span: [0, 1] as const,
  };
  const described = shown.map(
    (row) =>
      `${by.nameOf(row.group)}: ${figureText(row.shares[outcome.wished], PERCENT).short} ${series[0]}, ` +
      `${figureText(row.together, PERCENT).short} ${series[1]}, ${row.fish} fish`,
  );
  const words = {
    id: `${id}-picture`,
    title: `${sentenceCase(outcome.wishedWords)}, or ${outcome.fearedWords}, by ${by.noun}`,
    description: `Dots with ${intervalWords(context)}s. ${described.join('; ')}.`,
  };
  const left = known.length - shown.length;
  const rest = left > 0 ? ` ${plural(left, 'more row is', 'more rows are')} in the table.` : '';
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption: `Dot: as logged. Bar: ${intervalWords(context)}.${shown.some(isThin) ? ` ${THIN_FISH}` : ''}${rest}`,
  };
}

function sharesTable<Outcome extends string>(
  context: ReportContext,
  { id, outcome, by }: SharesQuestion<Outcome>,
  rows: readonly OutcomeShares<Outcome>[],
): DataTable<OutcomeShares<Outcome>> {
  type Row = OutcomeShares<Outcome>;
  const count = (head: 'fish' | 'trips') => ({
    head,
    kind: 'number' as const,
    cell: (row: Row) => formatCount(row[head]),
    csv: [{ head, value: (row: Row) => row[head] }],
  });
  return {
    id: `${id}-table`,
    caption: `% of ${outcome.fish} by ${by.noun}. In brackets: the ${intervalWords(context)}. Grey: fewer than ${ENOUGH.bites} fish or ${ENOUGH.trips} trips.`,
    columns: [
      {
        head: by.head,
        kind: 'text',
        cell: ({ group }) => by.nameOf(group),
        csv: [{ head: by.column, value: ({ group }) => group }],
      },
      count('trips'),
      count('fish'),
      ...outcome.outcomes.map((one) => {
        const column = figureColumn(`${one}, %`, {
          of: (row: Row) => row.shares[one],
          name: `${one}_share`,
          style: PERCENT,
        });
        const counts = { head: one, value: (row: Row) => row.counts[one] };
        return { ...column, csv: [counts, ...column.csv] };
      }),
      figureColumn(`${outcome.feared.join(' or ')}, %`, {
        of: (row: Row) => row.together,
        name: `${outcome.feared.join('_or_')}_share`,
        style: PERCENT,
      }),
    ],
    rows,
    thin: isThin,
  };
}
