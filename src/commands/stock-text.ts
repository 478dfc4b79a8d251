import type { Estimate } from '../base/estimate.ts';
import { type FigureStyle, figureText, PER_10_LINE_HOURS, TIMES } from '../base/format-figure.ts';
import { formatCount, formatDecimal, formatHours, formatShare } from '../base/format-number.ts';
import { monthName } from '../base/format-time.ts';
import { levelWords, printable } from '../base/words.ts';
import type { LoadLine, LoadList } from '../decide/load-list.ts';
import { LIVE_BAIT_CAUTION } from '../decide/load-notes.ts';
import { loadSentence, shortWords } from '../decide/load-sentence.ts';
import type { Stock } from '../decide/load-stock.ts';
import { hasSameChance, luckWords, SAME_CHANCE_WORDS } from '../decide/same-chance.ts';
import type { StandardisedIndex } from '../estimate/standardised-index.ts';
import { textTable } from '../write/text-table.ts';

const PER_100: FigureStyle = { kind: 'rate', scale: 100, per: '100 baits' };
const PLAIN: FigureStyle = { kind: 'number', unit: '' };
const left = (head: string) => ({ head, align: 'left' as const });
const right = (head: string) => ({ head, align: 'right' as const });
const name = (bait: string) => printable(levelWords(bait));

/** What `stock` prints: the shopping list first, then what each bait brings. */
export function stockText(
  stock: Stock,
  { currency, level }: { readonly currency: string | null; readonly level: number },
): string {
  const { list } = stock;
  const money = currency === null ? '' : printable(currency);
  const sections = [
    list.refused ?? `${loadSentence(list)}\n\n${listTable(list, money)}`,
    stock.byMonth.length > 1 ? monthTable(stock) : '',
    stock.baits.length === 0 ? '' : yieldTable(stock, money),
    stock.substitutes.length === 0
      ? ''
      : ['Which bait where, by fish caught per line-hour', ...substituteLines(stock)].join('\n'),
    [
      ...list.notes,
      ...remarks(list.lines),
      `Intervals: ${Math.floor(level * 10_000) / 100} %, trips as clusters; the ranking has 90 %. Used: put out, or died before.`,
      LIVE_BAIT_CAUTION,
    ].join('\n'),
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

/** Counts first, as a list to shop by; what it rests on after them. */
function listTable({ lines, total, costs, request }: LoadList, money: string): string {
  const held = lines.some((line) => line.held > 0);
  if (costs === null) return enoughTable(lines);
  const columns = [
    right('load'),
    ...(held ? [right('held'), right('buy')] : []),
    left('bait'),
    right('runs short'),
    right('left over'),
    right('used a trip'),
    right('price'),
  ];
  const rows = lines.map((line) => [
    line.load === null ? '?' : formatCount(line.load.load),
    ...(held ? [formatCount(line.held), line.buy === null ? '?' : formatCount(line.buy)] : []),
    name(line.bait),
    line.load === null ? '' : shortWords(line.load.shortProbability),
    line.load === null ? '' : formatDecimal(line.load.expectedLeft, 1),
    line.meanUsed === null ? '' : formatDecimal(line.meanUsed, 1),
    line.price === null ? '' : formatDecimal(line.price.mean, 2),
  ]);
  const sum = total?.money ?? null;
  const price = sum === null ? '' : `, about ${formatDecimal(sum, 0)} ${money}`.trimEnd();
  const per = request.nextTrips === 1 ? 'a trip' : `on those ${request.nextTrips} trips`;
  return [
    textTable(columns, rows),
    `${formatCount(total?.buy ?? 0)} to buy${price}. What is short and left over costs ` +
      `about ${formatDecimal(total?.expectedCost ?? 0, 0)} ${money}`.trimEnd() +
      ` ${per}: ${formatDecimal(costs.shortCost, 2)} for a bait too few, ` +
      `${formatDecimal(costs.leftCost, 2)} for one left over.`,
  ].join('\n');
}

/** Without prices: what is enough on so many trips of ten. */
function enoughTable(lines: readonly LoadLine[]): string {
  const chances = lines.find(({ enough }) => enough.length > 0)?.enough ?? [];
  const columns = [
    left('bait'),
    ...chances.map(({ chance }) =>
      right(`enough on ${formatDecimal(100 * chance, 0)} of 100 trips`),
    ),
    right('used a trip'),
  ];
  const rows = lines.map((line) => [
    name(line.bait),
    ...chances.map((_, at) => {
      const found = line.enough[at];
      return found === undefined ? '?' : enoughText(found.baits, line.most);
    }),
    line.meanUsed === null ? '' : formatDecimal(line.meanUsed, 1),
  ]);
  return textTable(columns, rows);
}

/** Months down, baits across. */
function monthTable({ byMonth, list }: Stock): string {
  const baits = list.lines
    .map(({ bait }) => bait)
    .filter((bait) => byMonth.some((one) => one.list.lines.some((line) => line.bait === bait)));
  const columns = [left('month'), right('trips'), ...baits.map((bait) => right(name(bait)))];
  const rows = byMonth.map(({ month, trips, list: ofMonth }) => [
    monthName(month),
    formatCount(trips),
    ...baits.map((bait) => loadText(ofMonth.lines.find((line) => line.bait === bait))),
  ]);
  const what =
    list.costs === null ? 'Enough on 80 of 100 trips, by month' : 'Load by month, each by itself';
  return `${what}\n${textTable(columns, rows)}`;
}

function loadText(line: LoadLine | undefined): string {
  if (line?.load != null) return formatCount(line.load.load);
  const found = line?.enough.find(({ chance }) => chance === 0.8);
  return line === undefined || found === undefined ? '?' : enoughText(found.baits, line.most);
}

function enoughText(baits: number | null, most: number): string {
  return baits === null ? `over ${formatCount(most)}` : formatCount(baits);
}

/** One row a bait: by the hour, by the bait, by the money. */
function yieldTable({ baits, adjusted, ranking }: Stock, money: string): string {
  const columns = [
    left('bait'),
    right('used'),
    right('hours'),
    right('bites/10 h'),
    right('adjusted, mean 1'),
    right('caught/10 h'),
    right('adjusted, mean 1'),
    right('best'),
    right('caught/100 baits'),
    right(money === '' ? 'cost a fish' : `${money} a fish`),
    right('on all bought'),
  ];
  const rows = baits.map(({ bait, brings, standing }) => [
    name(bait),
    formatCount(brings.used),
    hoursText(brings.perHour.bites?.line_hours),
    figureOr(brings.perHour.bites?.rate, PER_10_LINE_HOURS),
    figureOr(indexOf(adjusted.bites, bait), TIMES),
    figureOr(brings.perHour.caught?.rate, PER_10_LINE_HOURS),
    figureOr(indexOf(adjusted.caught, bait), TIMES),
    standing === null ? '' : formatShare(standing.probabilityBest),
    figureOr(brings.perBait.caught, PER_100),
    figureOr(brings.costPerFish?.used, PLAIN),
    figureOr(brings.costPerFish?.bought, PLAIN),
  ]);
  const equal = hasSameChance(ranking)
    ? `\nBest: ${luckWords('the baits in fish caught per line-hour')}, so ${SAME_CHANCE_WORDS}.`
    : '';
  return `What each bait brings; adjusted: reach and month held equal\n${textTable(columns, rows)}${equal}`;
}

function hoursText(hours: number | null | undefined): string {
  return hours == null ? '' : formatHours(hours);
}

function figureOr(figure: Estimate | undefined, style: FigureStyle): string {
  return figure === undefined ? '' : figureText(figure, style).short;
}

function indexOf(index: StandardisedIndex, bait: string): Estimate | undefined {
  return index.rows.find(({ level }) => level === bait)?.standardised;
}

function substituteLines({ substitutes }: Stock): string[] {
  return substitutes.map(({ sentence }) => `  ${printable(sentence)}`);
}

/** What must be read beside single baits. */
function remarks(lines: readonly LoadLine[]): string[] {
  return lines.flatMap(({ bait, notes }) => notes.map((note) => `${name(bait)}: ${note}`));
}
