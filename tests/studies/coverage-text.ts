import { formatCount } from '../../src/base/format-number.ts';
import { type CoverLine, coverTable, monteCarloError, WANTED } from './coverage-lines.ts';

/** One part of the study: the lines of figures that were tried on the same seasons. */
export interface StudyPart {
  readonly name: string;
  readonly lines: readonly CoverLine[];
}

const HEADS: Readonly<Record<string, string>> = {
  plain: 'One figure: `wilson-trip` for a share, `ratio-trip` for a rate',
  differences: 'Difference in the share of bites hooked, through three lenses',
  ratios: 'Ratio of bites per line-hour, through three lenses',
  index: 'Standardised index of bites by month, the four months together',
};

/** The whole study as a page of markdown. */
export function coverageText(parts: readonly StudyPart[], firstSeed: number): string {
  const done = parts.filter(({ lines }) => lines.length > 0);
  const day = new Date().toISOString().slice(0, 10);
  return `# How often do the 95 % intervals hold the truth?

Made by \`npm run coverage-study\`, written ${day}, seeds from ${firstSeed} on. Every number is the % of intervals that
held the true value, in seasons drawn from an invented world whose truth is written down (\`line-world.ts\`,
\`coverage-worlds.ts\`). Wanted from ${WANTED.fromTrips} trips on: ${WANTED.least} to ${WANTED.most} %; what falls short is in **bold**.
10 and 15 trips are for information. "None" is the % of seasons in which the tool gave no interval and said why.

Six lines a trip, over four months, with three reaches and three baits, windy and calm days; half the lines, by chance,
are rigged with braid, which hooks better (+0.4 on the logit) and gets more bites (+22 %). Trips differ in bites by a
gamma multiplier (shape 10 little, 2.5 in the middle, 1 much: counts are negative binomial) and in hookups by a normal
effect on the logit (0.3 little, 0.6 in the middle, 1 much).

- *The line matters more on some days*: braid's advantage differs from day to day by 0.8 on the logit, and by 40 % in bites.
- *Bites come three at a time*: on one line, in one mood (1 on the logit).
- *Good days bring more bites*: bites by a log-normal multiplier (0.6) that goes together with hookups (correlation 0.7).
- *A few days bring most bites*: log-normal, 1: the best tenth of the days bring four bites in ten.

${summary(done)}
${done.map(partText).join('\n')}
## Where it falls short, and why

- *A few days bring most bites*, rates: trips without one of the rare huge days see too small a rate and too small a
  spread at once, so nine in ten of the misses lie too low. No interval made from the trips themselves can know of days
  it has not seen; more trips help slowly.
- *Bites come three at a time*, three bites a trip, the index: one burst a trip, 8 or 15 a month. A month with few by
  chance gets a wide interval on the log scale and one with many a narrow one, so two in three of the misses lie too
  high.
- With 10 or 15 trips over four months a month has two to four: most get an index without an interval, and a note.

The truth of *as logged* and of one figure is what very many trips would come to; of *same day*, what very many trips
would come to with its own weights; of *adjusted*, the true chances averaged over the season's own bites.
`;
}

function summary(parts: readonly StudyPart[]): string {
  const judged = parts
    .flatMap(({ lines }) => lines)
    .filter(({ trips, intervals }) => trips >= WANTED.fromTrips && intervals > 0);
  const percent = ({ covered, intervals }: CoverLine) => (100 * covered) / intervals;
  const short = judged.filter((line) => percent(line) < WANTED.least);
  const wide = judged.filter((line) => percent(line) > WANTED.most);
  return `Of ${judged.length} numbers at ${WANTED.fromTrips} and 60 trips ${judged.length - short.length - wide.length} lie where they should, ${short.length} below, ${wide.length} above.
`;
}

function partText({ name, lines }: StudyPart): string {
  const figures = [...new Set(lines.map(({ figure }) => figure))];
  const most = Math.max(...lines.map(({ intervals, none }) => intervals + none));
  const least = Math.min(...lines.map(({ intervals, none }) => intervals + none));
  const seasons = name === 'index' ? 4 : 1;
  const runs = [least, most].map((count) => formatCount(count / seasons));
  const drawn = least === most ? runs[0] : `${runs[0]} (10 and 15 trips) and ${runs[1]}`;
  const error = monteCarloError(most / seasons).toFixed(1);
  const tables = figures.map((figure) => `### ${figure}\n\n${coverTable(lines, figure)}\n`);
  return `## ${HEADS[name] ?? name}

${drawn} seasons a row; one number is off by ${error} points or so by chance (one standard error).

${tables.join('\n')}`;
}
