import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import { formatCount } from '../base/format-number.ts';
import { levelWords, printable } from '../base/words.ts';
import type { AnsweredComparison } from '../decide/answer-comparison.ts';
import { MEASURE_WORDS } from '../decide/measure-words.ts';
import { decidingFigure } from '../decide/verdict.ts';
import type { Lens, LensName } from '../estimate/lens.ts';
import { isProportion } from '../estimate/proportion.ts';
import { factorWords } from '../tally/factor-words.ts';
import { textTable } from '../write/text-table.ts';

const LENS_WORDS: Readonly<Record<LensName, string>> = {
  as_logged: 'as logged',
  same_day: 'same day',
  adjusted: 'adjusted',
};

/** The verdicts, each with its three lenses and what was left out of them. */
export function comparisonText(
  answers: readonly AnsweredComparison[],
  { level }: { readonly level: number },
): string {
  const texts = answers.map((answer) => pairText(answer, level));
  const many =
    answers.length > 1
      ? [
          `${answers.length} comparisons were made at once: with many, one may look clear by luck alone.`,
        ]
      : [];
  return `${[...texts, ...many].join('\n\n')}\n`;
}

function pairText(
  { comparison, verdict, settle, sentence }: AnsweredComparison,
  level: number,
): string {
  const { lenses, measure, levels } = comparison;
  const { style } = MEASURE_WORDS[measure];
  const share = isProportion(measure);
  const [a, b] = levels.map((one) => printable(levelWords(one)));
  const gap = share ? 'difference' : 'times as many';
  const body = Object.values(lenses).map((lens) => [
    LENS_WORDS[lens.name] + (lens.name === verdict.primary ? ' *' : ''),
    lens.refused === null
      ? figureText(decidingFigure(lens, measure), share ? POINTS : TIMES).short
      : 'refused',
    ...(lens.refused === null
      ? [figureText(lens.a, style).short, figureText(lens.b, style).short]
      : ['', '']),
    formatCount(lens.bites),
    formatCount(lens.trips),
  ]);
  const right = (head: string) => ({ head, align: 'right' as const });
  const columns = [
    { head: 'lens', align: 'left' as const },
    right(gap),
    right(a ?? ''),
    right(b ?? ''),
    right('bites'),
    right('trips'),
  ];
  const remarks = Object.values(lenses).flatMap(remarksOn);
  const per = style.kind === 'rate' ? `Rates are per ${style.per}. ` : '';
  const interval = `${per}Intervals: ${Math.floor(level * 10_000) / 100} %. * the lens the verdict rests on.`;
  const since = comparison.season.clearSince;
  const early =
    since === null
      ? []
      : [
          `The same-day difference, on the interval that may be read every day, has been clear since ${since}.`,
        ];
  return [
    `${verdict.word.toUpperCase()}  ${sentence}`,
    textTable(columns, body),
    ...[...new Set(remarks)],
    ...early,
    ...(settle === null
      ? []
      : [`To settle: two-sided 5 %, power 80 %, design effect ${settle.designEffect.toFixed(1)}.`]),
    interval,
  ].join('\n');
}

function remarksOn(lens: Lens): string[] {
  const dropped = lens.dropped.map(
    ({ covariate, reason }) => `${factorWords(covariate)}: ${reason}`,
  );
  const notes = lens.difference.notes.map((note) => `${LENS_WORDS[lens.name]}: ${note}`);
  return lens.refused === null
    ? [...dropped, ...notes]
    : [`${LENS_WORDS[lens.name]}, refused: ${lens.refused}`, ...dropped];
}
