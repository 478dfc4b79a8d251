import { figureText, PERCENT } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { levelWords, plural } from '../../base/words.ts';
import type { LineAdvice } from '../../decide/respool-advice.ts';
import { wearSentence } from '../../decide/respool-sentence.ts';
import { type AlongChart, drawAlong } from '../../draw/draw-along.ts';
import { renderPicture } from '../../draw/render-picture.ts';
import type { WearBand } from '../../estimate/wear-bands.ts';
import { LINE_AGE_BANDS } from '../../tally/line-age-band.ts';
import { type DataTable, tableCsv, tableView } from '../data-table.tsx';
import type { CaptionedPicture } from '../entry.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import { intervalWords, type ReportContext } from './report-context.ts';
import { byFights, figureColumn, isThinWear, PER_100_FIGHTS, THIN_WEAR } from './wear-figures.ts';

/** A chart shows at most three series; the table has every line type. */
const MOST_LINES = 3;
const CSV = 'wear-by-age.csv';

interface BandRow extends WearBand {
  readonly lineType: string;
}

/** When line starts to cost fish: breaks per 100 fights by age of the line, for each line type. */
export async function wearAgeEntry(context: ReportContext): Promise<EntryWithFiles> {
  const { wear, lines } = context.respool();
  const id = 'wear-age';
  const question = 'When does line start to cost fish?';
  const rows = lines.flatMap(({ line }) =>
    line.bands.map((band): BandRow => ({ ...band, lineType: line.lineType })),
  );
  if (wear.refused !== null || rows.length === 0) {
    const answer = wear.refused ?? 'No line of known age was fished.';
    return { entry: { id, question, answer }, files: [] };
  }
  const table = bandTable(context, rows);
  const [answer = '', ...others] = byFights(lines).map(ageSentence);
  return {
    entry: {
      id,
      question,
      answer,
      asides: [...others, ...wear.notes, NOT_A_NEW_LINE],
      pictures: [await bandPicture(context, lines)],
      table: { view: tableView(table), csv: CSV },
      how: {
        text: `Fish lost to broken line over fish hooked, its ${intervalWords(context)} with trips as the unit that repeats.`,
        anchor: 'wear',
      },
    },
    files: [{ name: CSV, text: tableCsv(table) }],
  };
}

const NOT_A_NEW_LINE =
  'A break does not make a line new: it is retied and as old as before. A trip counts where the rod was out.';

/** How breaks go with age where that can be told, else how many there are. */
function ageSentence({ line, advice }: LineAdvice): string {
  const { law, lineType, breaksPerFight } = line;
  if (law.kind === 'fitted' && (advice.kind === 'advised' || advice.isWear)) {
    return wearSentence(lineType, law);
  }
  const figure = figureText(breaksPerFight, PER_100_FIGHTS);
  const name = levelWords(lineType);
  if (breaksPerFight.kind === 'not-estimable') return `No fight is logged on ${name}.`;
  return `On ${name} ${figure.value} of 100 fights ended in a broken line (${figure.interval}); it does not clearly grow with age.`;
}

/** Dots by band of age, the line types side by side. */
async function bandPicture(
  context: ReportContext,
  lines: readonly LineAdvice[],
): Promise<CaptionedPicture> {
  const shown = byFights(lines)
    .slice(0, MOST_LINES)
    .map(({ line }) => line);
  const described = shown.flatMap(({ lineType, bands }) =>
    bands.map(
      ({ band, breaksPerFight, fights }) =>
        `${lineType}, ${band}: ${figureText(breaksPerFight, PER_100_FIGHTS).short} of ${fights}`,
    ),
  );
  const words = {
    id: 'wear-age-picture',
    title: 'Lines broken per 100 fights, by age of the line',
    description: `Dots with ${intervalWords(context)}s. ${described.join('; ')}.`,
  };
  const chart: AlongChart = {
    series: shown.map(({ lineType, bands }) => ({
      name: levelWords(lineType),
      points: bands.map((band) => ({
        x: LINE_AGE_BANDS.indexOf(band.band),
        figure: band.breaksPerFight,
        thin: isThinWear(band),
      })),
    })),
    ticks: LINE_AGE_BANDS.map((band, x) => ({
      x,
      label: band.replace(' trips or more', '+').replace(' trips', ''),
      count: formatCount(fightsIn(shown, band)),
    })),
    xSpan: [-0.6, LINE_AGE_BANDS.length - 0.4],
    style: PER_100_FIGHTS,
    yTitle: 'lines broken per 100 fights',
    xTitle: 'trips on the line, this one included; under each, its fights',
    joined: true,
  };
  const hollow = shown.some(({ bands }) => bands.some(isThinWear)) ? ` ${THIN_WEAR}` : '';
  const left = lines.length - shown.length;
  const rest =
    left > 0 ? ` ${plural(left, 'more line type is', 'more line types are')} in the table.` : '';
  return {
    picture: await renderPicture(words, (width) => drawAlong(chart, width)),
    caption: `Dot: as logged. Bar: ${intervalWords(context)}.${hollow}${rest}`,
  };
}

/** Fights of one band over the line types drawn. */
function fightsIn(lines: readonly LineAdvice['line'][], band: string): number {
  return lines.reduce(
    (sum, { bands }) => sum + (bands.find((one) => one.band === band)?.fights ?? 0),
    0,
  );
}

type CountName = 'trips' | 'bites' | 'fights' | 'breaks' | 'pulled';

/** Everything that was counted of a line type at an age. */
function bandTable(context: ReportContext, rows: readonly BandRow[]): DataTable<BandRow> {
  const count = (name: CountName) => ({
    head: name,
    kind: 'number' as const,
    cell: (row: BandRow) => formatCount(row[name]),
    csv: [{ head: name, value: (row: BandRow) => row[name] }],
  });
  return {
    id: 'wear-age-table',
    caption: `By line type and age of the line in trips. In brackets: the ${intervalWords(context)}. Grey: fewer than 10 fights or 5 trips.`,
    columns: [
      {
        head: 'line',
        kind: 'text',
        cell: ({ lineType }) => levelWords(lineType),
        csv: [{ head: 'line_type', value: ({ lineType }) => lineType }],
      },
      {
        head: 'age',
        kind: 'text',
        cell: ({ band }) => band,
        csv: [{ head: 'line_age_band', value: ({ band }) => band }],
      },
      count('trips'),
      count('bites'),
      count('fights'),
      count('breaks'),
      figureColumn('breaks per 100 fights', {
        of: (row: BandRow) => row.breaksPerFight,
        name: 'breaks_per_fight',
        style: PER_100_FIGHTS,
      }),
      figureColumn('breaks per 100 line-hours', {
        of: (row: BandRow) => row.breaksPerLineHour,
        name: 'breaks_per_line_hour',
        style: { kind: 'rate', scale: 100, per: '100 line-hours' },
      }),
      count('pulled'),
      figureColumn('pulled per 100 fights', {
        of: (row: BandRow) => row.pulledPerFight,
        name: 'pulled_per_fight',
        style: PER_100_FIGHTS,
      }),
      figureColumn('hooked, % of bites', {
        of: (row: BandRow) => row.hookedPerBite,
        name: 'hooked_per_bite',
        style: PERCENT,
      }),
    ],
    rows,
    thin: isThinWear,
  };
}
