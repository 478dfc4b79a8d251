import { figureText, PER_10_LINE_HOURS, PERCENT } from '../../base/format-figure.ts';
import { formatCount } from '../../base/format-number.ts';
import { listWords, plural, sentenceCase } from '../../base/words.ts';
import type { BoatPosition } from '../../draw/boat-layout.ts';
import { drawBoat } from '../../draw/draw-boat.tsx';
import { levelPlace } from '../../tally/factor-words.ts';
import { tableCsv, tableView } from '../data-table.tsx';
import { isThin, THIN_WORDS } from './enough.ts';
import { entriesPage } from './entries-page.tsx';
import { type EntryWithFiles, howWorkedOut, levelEntry } from './level-entry.ts';
import { isRanked, type LevelRates, levelRates, rankedLevels } from './level-rates.ts';
import { levelTable } from './level-table.ts';
import { levelName, shortLevel } from './level-words.ts';
import type { PageContent } from './page-content.ts';
import { intervalWords, type ReportContext } from './report-context.ts';

const AS_LOGGED =
  'As logged: bait, line and hook differ from position to position, and nothing here holds that equal.';

/** A boat has no room for more; the table has them all. */
const MOST_POSITIONS = 24;

/** The spread: which position gets the bites and which gets them hooked. */
export async function spreadPage(context: ReportContext): Promise<PageContent> {
  const common = { order: 'natural' as const, caution: AS_LOGGED };
  const entries = await Promise.all([
    Promise.resolve(boatEntry(context)),
    levelEntry(context, {
      ...common,
      id: 'position-bites',
      question: 'Where do bites come fastest?',
      factors: ['position'],
      measures: ['bites_per_line_hour', 'caught_per_line_hour'],
    }),
    levelEntry(context, {
      ...common,
      id: 'position-hooked',
      question: 'Which position gets them hooked?',
      factors: ['position'],
      measures: ['hookup_rate', 'caught_rate', 'bite_to_boat'],
    }),
    levelEntry(context, {
      ...common,
      id: 'reach',
      question: 'Short, middle or long?',
      factors: ['reach'],
      among: ['short', 'middle', 'long'],
      measures: ['bites_per_line_hour', 'hookup_rate', 'caught_rate'],
    }),
    levelEntry(context, {
      ...common,
      id: 'side',
      question: 'Port or starboard?',
      factors: ['side'],
      among: ['port', 'starboard'],
      measures: ['bites_per_line_hour', 'hookup_rate', 'caught_rate'],
    }),
  ]);
  return entriesPage(entries);
}

function boatEntry(context: ReportContext): EntryWithFiles {
  const measures = ['hookup_rate', 'bites_per_line_hour'] as const;
  const levels = levelRates(context, ['position'], measures);
  const table = levelTable(levels, {
    id: 'boat-table',
    caption: `By position, in the order of the settings. In brackets: the ${intervalWords(context)}.`,
    factors: ['position'],
    measures,
  });
  const positions = boatPositions(context, levels);
  const pictures = levels.some((level) => !level.isMissing)
    ? [
        {
          picture: drawBoat(
            {
              id: 'boat-picture',
              title: 'The boat and her lines from above',
              description: positions
                .map(({ name, n, figure }) => `${name}: ${n}, ${figure} hooked`)
                .join('; '),
            },
            positions,
          ),
          caption:
            `Circle: bites, by area. Figure: hooked, % of bites, with its ${intervalWords(context)}. ` +
            `Not to scale.${levels.some(({ main }) => isThin(main)) ? ` ${THIN_WORDS}` : ''}`,
        },
      ]
    : [];
  return {
    entry: {
      id: 'boat',
      question: 'Which position gets the bites?',
      answer: boatSentence(levels),
      pictures,
      ...(levels.length === 0 ? {} : { table: { view: tableView(table), csv: 'positions.csv' } }),
      how: howWorkedOut('hookup_rate', context),
    },
    files: levels.length === 0 ? [] : [{ name: 'positions.csv', text: tableCsv(table) }],
  };
}

/** The positions that were fished or bitten, also those outside the settings; the busiest of many. */
function boatPositions(context: ReportContext, levels: readonly LevelRates[]): BoatPosition[] {
  const { positions } = context.season.log.settings;
  const fished = levels.filter(({ main }) => main.bites > 0 || main.line_hours !== null);
  const [least = 0] = fished
    .map(({ main }) => main.bites)
    .sort((a, b) => b - a)
    .slice(MOST_POSITIONS - 1);
  return fished
    .filter(({ main }) => main.bites >= least)
    .slice(0, MOST_POSITIONS)
    .map((level) => {
      const name = level.by.position ?? '';
      const place = positions.find((position) => position.name === name);
      return {
        name: levelName('position', name),
        side: place?.side ?? null,
        reach: place?.reach ?? null,
        bites: level.main.bites,
        figure: figureText(level.main.rate, PERCENT).short,
        n: plural(level.main.bites, 'bite'),
        thin: isThin(level.main),
      };
    });
}

function boatSentence(levels: readonly LevelRates[]): string {
  const known = levels.filter((level) => !level.isMissing);
  const [most] = [...known].sort((a, b) => b.main.bites - a.main.bites);
  const bites = levels.reduce((sum, { main }) => sum + main.bites, 0);
  if (most === undefined)
    return 'The log does not say on which position a line fished or a bite came.';
  if (most.main.bites === 0) return 'No bite is logged on any position yet.';
  const place = levelPlace('position', shortLevel(most.by.position ?? ''));
  const tied = known.filter(({ main }) => main.bites === most.main.bites);
  const first =
    tied.length > 1
      ? `Most bites came on ${listWords(tied.map(({ name }) => shortLevel(name)))}: ${formatCount(most.main.bites)} each of ${formatCount(bites)}.`
      : `Most bites came ${place}: ${formatCount(most.main.bites)} of ${formatCount(bites)}.`;
  const [fastest] = rankedLevels(known.map(byPace)).filter(isRanked);
  if (fastest === undefined) return first;
  const pace = figureText(fastest.main.rate, PER_10_LINE_HOURS).long;
  const same = tied.length === 1 && fastest.by.position === most.by.position;
  return same
    ? `${first} They also came fastest there, ${pace}.`
    : `${first} ${sentenceCase(`they came fastest ${levelPlace('position', shortLevel(fastest.by.position ?? ''))}`)}, ${pace}.`;
}

/** The same level, judged by its bites per line-hour. */
function byPace(level: LevelRates): LevelRates {
  const pace = level.rates.find(({ measure }) => measure === 'bites_per_line_hour');
  return { ...level, main: pace ?? level.main };
}
