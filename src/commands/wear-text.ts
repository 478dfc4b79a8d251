import type { Estimate } from '../base/estimate.ts';
import { type FigureStyle, figureText, TIMES } from '../base/format-figure.ts';
import { formatCount, formatDecimal, formatHours } from '../base/format-number.ts';
import { levelWords, printable } from '../base/words.ts';
import type { LineAdvice, RespoolAdvice } from '../decide/respool-advice.ts';
import { RESPOOL_HABIT } from '../decide/respool-sentence.ts';
import { LINE_CAUTION } from '../write/cautions.ts';
import { textTable } from '../write/text-table.ts';

const PER_100: FigureStyle = { kind: 'rate', scale: 100, per: '100' };
const PLAIN: FigureStyle = { kind: 'number', unit: '' };
const left = (head: string) => ({ head, align: 'left' as const });
const right = (head: string) => ({ head, align: 'right' as const });

/** What `wear` prints: the advice first, then what it rests on. */
export function wearText(
  { wear, lines, rods }: RespoolAdvice,
  { currency, level }: { readonly currency: string | null; readonly level: number },
): string {
  if (wear.refused !== null) return `${wear.refused}\n`;
  const money = currency === null ? '' : `, ${printable(currency)}`;
  const sections = [
    [...lines.map(({ sentence }) => printable(sentence)), RESPOOL_HABIT].join('\n'),
    rods.length === 0 ? '' : `Reels now\n${dueTable(rods)}`,
    `By line type${money}; season cost is for all ${formatCount(totalFights(lines))} fights of the log\n${lineTable(lines)}`,
    `By age of the line, per 100 fights\n${bandTable(lines)}`,
    ...lines.filter(({ atPrices }) => atPrices.length > 0).map((line) => priceText(line, money)),
    [
      ...wear.notes,
      `Intervals: ${Math.floor(level * 10_000) / 100} %, trips as clusters. A break does not make a line new: it is retied and as old as before.`,
      LINE_CAUTION,
    ].join('\n'),
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

function totalFights(lines: readonly LineAdvice[]): number {
  return lines.reduce((sum, { line }) => sum + line.fights, 0);
}

/** One row a rod. */
function dueTable(rods: RespoolAdvice['rods']): string {
  const columns = [
    left('rod'),
    left('line'),
    left('filled'),
    right('trips'),
    right('fights'),
    right('breaks in 10 trips'),
    left('due'),
    left('why'),
  ];
  return textTable(
    columns,
    rods.map(({ rod, spool, age, ahead, isDue, why }) => [
      printable(rod),
      printable(levelWords(spool.line_type)),
      spool.date,
      formatCount(age.trips),
      formatCount(age.fights),
      ahead === null ? '' : figureText(ahead, PLAIN).short,
      isDue === null ? '–' : isDue ? 'DUE' : 'no',
      why,
    ]),
  );
}

/** One row a line type: what it took and what it cost. */
function lineTable(lines: readonly LineAdvice[]): string {
  const columns = [
    left('line'),
    right('fillings'),
    right('fights'),
    right('breaks'),
    right('per 100 fights'),
    right('fights a filling'),
    right('beta'),
    right('season as filled'),
    right('season at best age'),
  ];
  return textTable(
    columns,
    lines.map(({ line, cost }) => [
      printable(levelWords(line.lineType)),
      formatCount(line.spools.length),
      formatCount(line.fights),
      formatCount(line.breaks),
      figureText(line.breaksPerFight, PER_100).short,
      formatHours(cost.fightsPerFilling),
      figureText(line.law.beta, TIMES).short,
      costText(cost.actual),
      costText(cost.best),
    ]),
  );
}

function costText(cost: Estimate | null): string {
  return cost === null ? 'not known' : figureText(cost, PLAIN).short;
}

/** One row a line type and age. */
function bandTable(lines: readonly LineAdvice[]): string {
  const columns = [
    left('line'),
    left('age'),
    right('fights'),
    right('breaks'),
    right('broke off'),
    right('pulled hooks'),
    right('hooked, of 100 bites'),
  ];
  return textTable(
    columns,
    lines.flatMap(({ line }) =>
      line.bands.map((band) => [
        printable(levelWords(line.lineType)),
        band.band,
        formatCount(band.fights),
        formatCount(band.breaks),
        figureText(band.breaksPerFight, PER_100).short,
        figureText(band.pulledPerFight, PER_100).short,
        figureText(band.hookedPerBite, PER_100).short,
      ]),
    ),
  );
}

/** The respool age under other prices of a lost fish. */
function priceText({ line, atPrices }: LineAdvice, money: string): string {
  const priced = atPrices.some(({ lostFish }) => lostFish !== null);
  const name = printable(levelWords(line.lineType));
  const title = priced
    ? `Respool age of ${name}, in fights, if a lost fish cost${money}`
    : `Respool age of ${name}, in fights, if a lost fish cost so many fillings`;
  const rows = atPrices.map(({ lostFish, fishPerFilling, age }) => [
    lostFish === null ? formatDecimal(fishPerFilling, 1) : formatDecimal(lostFish, 2),
    figureText(age, PLAIN).short,
  ]);
  return `${title}\n${textTable([right('lost fish'), right('respool age')], rows)}`;
}
