import { figureText } from '../../base/format-figure.ts';
import { formatCount, formatHours } from '../../base/format-number.ts';
import { listWords, plural } from '../../base/words.ts';
import type { DotChart } from '../../draw/dot-chart.ts';
import { drawDots } from '../../draw/draw-dots.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { Measure } from '../../tally/measures.ts';
import { tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import { AnswersSection } from './answers-entry.tsx';
import { isThin, THIN_WORDS } from './enough.ts';
import { entriesPage } from './entries-page.tsx';
import { type EntryWithFiles, howWorkedOut, levelEntry } from './level-entry.ts';
import { type LevelRates, levelRates } from './level-rates.ts';
import { levelTable } from './level-table.ts';
import { monthsEntry } from './months-entry.ts';
import { monthsModelEntry } from './months-model-entry.ts';
import type { PageContent } from './page-content.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { trustEntry } from './trust-entry.ts';

const MEASURES: readonly [Measure, ...Measure[]] = [
  'bite_to_boat',
  'hookup_rate',
  'caught_rate',
  'bites_per_line_hour',
  'caught_per_line_hour',
];
/** A stage's share of bites, for a picture that counts down from 100 bites. */
const OF_100 = { kind: 'rate', scale: 100, per: '100 bites' } as const;

/** How the season went: from bite to boat, month by month, fish by fish. */
export async function seasonPage(context: ReportContext): Promise<PageContent> {
  const whole = await wholeEntry(context);
  const entries = await Promise.all([
    monthsEntry(context),
    levelEntry(context, {
      id: 'species',
      question: 'Which fish, and how many came to the boat?',
      factors: ['species'],
      measures: ['caught_rate', 'release_rate'],
      order: 'natural',
      caution: 'A missed bite has no sure species, so these count hooked fish only.',
    }),
    Promise.resolve(trustEntry(context)),
    monthsModelEntry(context),
  ]);
  const [top, rest] = [
    entriesPage([whole]),
    entriesPage(entries.filter((entry) => entry !== null)),
  ];
  return {
    content: [top.content, <AnswersSection context={context} key="answers" />, rest.content],
    files: [...top.files, ...rest.files],
  };
}

async function wholeEntry(context: ReportContext): Promise<EntryWithFiles> {
  const levels = levelRates(context, [], MEASURES);
  const [whole] = levels;
  const table = levelTable(levels, {
    id: 'season-table',
    caption: `The whole log. In brackets: the ${intervalWords(context)}.`,
    factors: [],
    measures: MEASURES,
  });
  const hasBites = whole !== undefined && whole.main.bites > 0;
  return {
    entry: {
      id: 'season',
      question: 'How was it?',
      answer: wholeSentence(context, whole),
      asides: wholeAsides(whole),
      pictures: hasBites ? [await funnelPicture(context, whole)] : [],
      table: { view: tableView(table), csv: 'season.csv' },
      how: howWorkedOut('bite_to_boat', context),
    },
    files: [{ name: 'season.csv', text: tableCsv(table) }],
  };
}

/** Trips of the report's part of the log, whether or not they had a bite or a line out. */
export function tripsAsked({ season, filter }: ReportContext): number {
  const { from, to } = filter;
  return season.trips.filter(
    ({ date }) => (from === null || date >= from) && (to === null || date <= to),
  ).length;
}

function wholeSentence(context: ReportContext, whole: LevelRates | undefined): string {
  const trips = tripsAsked(context);
  if (trips === 0) return 'There is no trip in this log yet.';
  const bites = whole?.main.bites ?? 0;
  if (whole === undefined || bites === 0) return `${plural(trips, 'trip')} and no bite logged.`;
  const [hooked, caught] = (['hookup_rate', 'bite_to_boat'] as const).map((measure) => {
    const row = whole.rates.find((rate) => rate.measure === measure);
    return row === undefined ? '' : figureText(row.rate, OF_100).short;
  });
  const bitten = whole.main.trips;
  const withBite = bitten === trips ? '' : `, ${formatCount(bitten)} of them with a bite`;
  return (
    `${plural(trips, 'trip')}${withBite}, ${plural(bites, 'bite')}: of 100 bites ${hooked} were ` +
    `hooked and ${caught} came to the boat.`
  );
}

function wholeAsides(whole: LevelRates | undefined): string[] {
  if (whole === undefined || whole.main.bites === 0) return [];
  const { hooked, caught, released, kept, line_hours } = whole.main;
  const fish = [
    `${formatCount(hooked)} hooked`,
    `${formatCount(hooked - caught)} lost`,
    `${formatCount(released)} released`,
    `${formatCount(kept)} kept`,
  ];
  const pace = whole.rates.find(({ measure }) => measure === 'bites_per_line_hour')?.rate;
  const hours = line_hours === null ? [] : [`Lines fished ${formatHours(line_hours)} line-hours`];
  const rate = pace?.kind === 'estimated' ? [`${figureText(pace, PACE).long}`] : [];
  const effort = [...hours, ...rate].join(': bites came at ');
  return [`Fish: ${listWords(fish)}.${effort === '' ? '' : ` ${effort}.`}`];
}

const PACE = { kind: 'rate', scale: 10, per: '10 line-hours' } as const;

async function funnelPicture(
  context: ReportContext,
  { main, rates }: LevelRates,
): Promise<CaptionedPicture> {
  const { bites, hooked, caught } = main;
  const stage = (measure: Measure) => rates.find((row) => row.measure === measure) ?? main;
  const [onHook, atBoat] = [stage('hookup_rate'), stage('bite_to_boat')];
  const all = { ...main.rate, kind: 'estimated' as const, estimate: 1, lower: 1, upper: 1 };
  const chart: DotChart = {
    rows: [
      {
        label: 'bites',
        marks: [{ figure: all, n: formatCount(bites), thin: false, exact: true }],
      },
      {
        label: 'hooked',
        marks: [{ figure: onHook.rate, n: formatCount(hooked), thin: isThin(onHook) }],
        loss: `${formatCount(bites - hooked)} missed`,
      },
      {
        label: 'caught',
        marks: [{ figure: atBoat.rate, n: formatCount(caught), thin: isThin(atBoat) }],
        loss: `${formatCount(hooked - caught)} lost`,
      },
    ],
    series: [],
    style: OF_100,
    axisTitle: 'of 100 bites',
    reference: null,
    shaded: null,
    span: [0, 1],
  };
  const words = {
    id: 'season-picture',
    title: 'From bite to boat, per 100 bites',
    description:
      `Of ${plural(bites, 'bite')}, ${formatCount(hooked)} hooked: ${figureText(onHook.rate, OF_100).long}; ` +
      `${formatCount(caught)} caught: ${figureText(atBoat.rate, OF_100).long}.`,
  };
  return {
    picture: await renderPicture(words, (width) => drawDots(chart, width)),
    caption:
      `Bold: of 100 bites, with its ${intervalWords(context)}. Right: how many there were.` +
      `${isThin(main) ? ` ${THIN_WORDS}` : ''}`,
  };
}
