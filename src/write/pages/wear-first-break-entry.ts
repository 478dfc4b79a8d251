import { formatCount, formatDecimal, RANGE_DASH } from '../../base/format-number.ts';
import { levelWords, listWords, plural } from '../../base/words.ts';
import { drawCurves } from '../../draw/draw-curves.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { FirstBreakCurve, FirstBreaks } from '../../estimate/wear-first-break.ts';
import { kaplanMeierQuantile } from '../../stats/kaplan-meier-quantile.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';

const CSV = 'wear-first-break.csv';
const MOST_CURVES = 3;

/** How long until the first break: the share of spools still unbroken, by line type. */
export async function wearFirstBreakEntry(context: ReportContext): Promise<EntryWithFiles> {
  const { wear } = context.respool();
  const id = 'wear-first-break';
  const question = 'How long until the first break?';
  const byFights = wear.firstBreaks.find(({ unit }) => unit === 'fights');
  const curves = byFights?.curves.filter(({ curve }) => curve.lives > 0) ?? [];
  curves.sort((a, b) => b.curve.lives - a.curve.lives);
  if (byFights === undefined || curves.length === 0) {
    const answer = wear.refused ?? 'No spool was seen from new.';
    return { entry: { id, question, answer }, files: [] };
  }
  const table = stepTable(context, wear.firstBreaks);
  const [answer = '', ...others] = curves.map(curveSentence);
  return {
    entry: {
      id,
      question,
      answer,
      asides: [[...others, differenceSentence(byFights)].join(' ').trim()].filter(
        (one) => one !== '',
      ),
      pictures: [await curvePicture(context, curves)],
      table: {
        view: tableView(table),
        csv: CSV,
        label: 'The curves in fights, trips and line-hours',
      },
      how: {
        text: 'Share of spools without a break (Kaplan–Meier); those respooled unbroken count up to then.',
        anchor: 'wear',
      },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

/** When half of the spools had broken, or that fewer than half did. */
function curveSentence({ lineType, curve }: FirstBreakCurve): string {
  const { time, lower, upper } = kaplanMeierQuantile(curve, 0.5);
  const name = levelWords(lineType);
  const counted = `${formatCount(curve.events)} of ${plural(curve.lives, 'spool')}`;
  if (time === null) {
    return `Of ${name}, ${counted} broke; fewer than half would have by their last fight.`;
  }
  const from = lower === null ? '0' : formatDecimal(lower, 0);
  const range =
    upper === null ? `${from} or more` : `${from}${RANGE_DASH}${formatDecimal(upper, 0)}`;
  return `Half of all ${name} spools had their first break by fight ${formatDecimal(time, 0)} (${range}); ${counted} broke.`;
}

/** What the log-rank test comes to, in words. */
function differenceSentence({ difference, curves }: FirstBreaks): string {
  if (curves.length < 2) return '';
  const lines = listWords(curves.map(({ lineType }) => levelWords(lineType)));
  if (difference.kind === 'not-estimable') return '';
  return difference.p < 0.05
    ? `Between ${lines} that differs clearly.`
    : `Whether ${lines} differ in that is too close to call.`;
}

/** Stairs from 100 % down, with the limits at each age. */
async function curvePicture(
  context: ReportContext,
  curves: readonly FirstBreakCurve[],
): Promise<CaptionedPicture> {
  const shown = curves.slice(0, MOST_CURVES);
  const words = {
    id: 'wear-first-break-picture',
    title: 'Spools without a break, by fights',
    description: `${shown.map(curveSentence).join(' ')} Bands: ${intervalWords(context)} at each age.`,
  };
  const last = Math.max(1, ...shown.map(({ curve }) => curve.lastTime));
  const chart = {
    curves: shown.map(({ lineType, curve }) => ({
      name: levelWords(lineType),
      points: [
        { x: 0, y: 100, lower: 100, upper: 100 },
        ...curve.steps.map(({ time, survival, lower, upper }) => ({
          x: time,
          y: 100 * survival,
          lower: 100 * (lower ?? 0),
          upper: 100 * (upper ?? survival),
        })),
        ...closing(curve),
      ],
    })),
    shape: 'steps' as const,
    xTitle: 'fights on the line',
    yTitle: 'spools without a break, %',
    xSpan: [0, last] as const,
    ySpan: [0, 100] as const,
    level: null,
    mark: null,
  };
  return {
    picture: await renderPicture(words, (width) => drawCurves(chart, width)),
    caption: `Line: spools without a break so far. Band: ${intervalWords(context)} at each age by itself.`,
  };
}

/** A curve holds its last height as far as anything was watched. */
function closing({ steps, lastTime }: FirstBreakCurve['curve']) {
  const last = steps.at(-1);
  const y = 100 * (last?.survival ?? 1);
  const lower = last === undefined ? y : 100 * (last.lower ?? 0);
  const upper = last === undefined ? y : 100 * (last.upper ?? last.survival);
  return [{ x: lastTime, y, lower, upper }];
}

interface StepRow {
  readonly lineType: string;
  readonly unit: string;
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
  readonly survival: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

const UNIT_WORDS = { fights: 'fights', trips: 'trips', lineHours: 'line-hours' } as const;

/** Every step of every curve, in all three units of age. */
function stepTable(context: ReportContext, breaks: readonly FirstBreaks[]): DataTable<StepRow> {
  const rows = breaks.flatMap(({ curves }) =>
    curves.flatMap(({ lineType, unit, curve }) =>
      curve.steps.map((step): StepRow => ({ lineType, unit: UNIT_WORDS[unit], ...step })),
    ),
  );
  const percent = (share: number) => formatDecimal(100 * share, 0);
  const number = (head: string, name: 'time' | 'atRisk' | 'events') => ({
    head,
    kind: 'number' as const,
    cell: (row: StepRow) => formatDecimal(row[name], Number.isInteger(row[name]) ? 0 : 1),
    csv: [{ head: head.replace(/ /g, '_'), value: (row: StepRow) => row[name] }],
  });
  return {
    id: 'wear-first-break-table',
    caption: `One row for each age at which a spool had its first break. In brackets: the ${intervalWords(context)}.`,
    columns: [
      {
        head: 'line',
        kind: 'text',
        cell: ({ lineType }) => levelWords(lineType),
        csv: [{ head: 'line_type', value: ({ lineType }) => lineType }],
      },
      {
        head: 'age in',
        kind: 'text',
        cell: ({ unit }) => unit,
        csv: [{ head: 'unit', value: ({ unit }) => unit }],
      },
      number('age', 'time'),
      number('spools at risk', 'atRisk'),
      number('first breaks', 'events'),
      {
        head: 'without a break, %',
        kind: 'number',
        cell: ({ survival, lower, upper }) =>
          lower === null || upper === null
            ? percent(survival)
            : `${percent(survival)} (${percent(lower)}${RANGE_DASH}${percent(upper)})`,
        csv: [
          { head: 'unbroken', value: ({ survival }) => survival },
          { head: 'unbroken_lower', value: ({ lower }) => lower },
          { head: 'unbroken_upper', value: ({ upper }) => upper },
        ],
      },
    ],
    rows,
  };
}
