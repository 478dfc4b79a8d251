import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import { formatCount } from '../base/format-number.ts';
import { levelWords, printable } from '../base/words.ts';
import type { AnsweredComparison } from '../decide/answer-comparison.ts';
import type { AnsweredTogether } from '../decide/answer-together.ts';
import { MEASURE_WORDS } from '../decide/measure-words.ts';
import { sameDayNote } from '../decide/same-day-note.ts';
import { decidingFigure } from '../decide/verdict.ts';
import type { DifferenceWithin } from '../estimate/difference-within.ts';
import type { Lens, LensName } from '../estimate/lens.ts';
import { isProportion } from '../estimate/proportion.ts';
import { factorWords } from '../tally/factor-words.ts';
import { levelName } from '../write/pages/level-words.ts';
import { textTable } from '../write/text-table.ts';
import { togetherText } from './compare-together-text.ts';
import { withinText } from './compare-within-text.ts';

const LENS_WORDS: Readonly<Record<LensName, string>> = {
  as_logged: 'as logged',
  same_day: 'same day',
  adjusted: 'adjusted',
};

const SETTLE_BY = {
  power: 'two-sided 5 %, power 80 %',
  width: 'an interval half as wide as the practical margin',
};

const WITHIN_OFFER =
  'Does the answer differ by reach or by wind? Ask once more with --within reach,wind_band.';

/**
 * The verdicts, each with its three lenses and what was left out of them: of one pair with its tables
 * within other factors, of more levels after what they come to together.
 */
export function comparisonText(
  answers: readonly AnsweredComparison[],
  rest: {
    readonly level: number;
    readonly within: readonly DifferenceWithin[];
    readonly together: AnsweredTogether | null;
  },
): string {
  const { level, within, together } = rest;
  const label = together === null ? '' : ' on its own';
  const texts = answers.map((answer) => pairText(answer, { level, label }));
  const [only] = answers;
  const isOffered =
    within.length === 0 && together === null && only?.verdict.primary === 'adjusted';
  const tables = only === undefined ? '' : withinText(within, only.comparison, level);
  const many = together === null ? [] : [togetherText(together), onItsOwn(answers, together)];
  return `${[...many, ...texts, isOffered ? WITHIN_OFFER : tables].filter((text) => text !== '').join('\n\n')}\n`;
}

/** What a pair on its own is not: judged with the others in mind. */
function onItsOwn(answers: readonly AnsweredComparison[], { pairs }: AnsweredTogether): string {
  const [first] = answers;
  const name =
    first === undefined ? '' : levelName(first.comparison.factor, first.comparison.levels[1]);
  const allowed = pairs.length === 0 ? '' : ' The table above makes that allowance.';
  return (
    `Each against ${name} on its own, without allowance for looking at ${answers.length} of them, ` +
    `so one may look clear by luck.${allowed}`
  );
}

function pairText(
  { comparison, verdict, settle, sentence }: AnsweredComparison,
  { level, label }: { readonly level: number; readonly label: string },
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
    `${verdict.word.toUpperCase()}${label}  ${sentence}`,
    textTable(columns, body),
    ...(lenses.same_day.refused === null ? [`Same day: ${sameDayNote(measure)}`] : []),
    ...[...new Set(remarks)],
    ...early,
    ...(settle === null
      ? []
      : [`To settle: ${SETTLE_BY[settle.by]}, design effect ${settle.designEffect.toFixed(1)}.`]),
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
