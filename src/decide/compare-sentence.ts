import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import { formatCount, formatDecimal } from '../base/format-number.ts';
import { listWords, plural } from '../base/words.ts';
import type { Comparison } from '../estimate/comparison.ts';
import type { Lens } from '../estimate/lens.ts';
import { isProportion } from '../estimate/proportion.ts';
import { factorWords, levelPlace } from '../tally/factor-words.ts';
import { MEASURE_WORDS } from './measure-words.ts';
import { nothingToCompare } from './nothing-to-compare.ts';
import type { ToSettle } from './to-settle.ts';
import { decidingFigure, type Verdict } from './verdict.ts';

/** What a comparison says, in the parts that a page sets apart. */
export interface ComparisonWords {
  /** The answer itself, one sentence. */
  readonly answer: string;
  /** How much more fishing would settle it, or how to find out; null where it is settled. */
  readonly next: string | null;
  /** What the answer rests on. */
  readonly basis: string | null;
}

/** What a comparison says, as a captain would: the answer, what would settle it, what it rests on. */
export function comparisonWords(
  comparison: Comparison,
  verdict: Verdict,
  settle: ToSettle | null,
): ComparisonWords {
  const lens = verdict.primary === null ? null : comparison.lenses[verdict.primary];
  if (verdict.word === 'tied') {
    const next = 'Fish both side by side on the same days to find out.';
    return { answer: tiedSentence(comparison), next, basis: null };
  }
  if (lens === null) return { ...nothingToCompare(comparison), basis: null };
  const answer = {
    clear: () => clearSentence(comparison, lens),
    alike: () => alikeSentence(comparison, lens, verdict),
    open: () => openSentence(comparison, lens),
  }[verdict.word]();
  const next = settle === null ? null : settleSentence(comparison, verdict, settle);
  return { answer, next, basis: restsOn(lens) };
}

/** The same in one text. */
export function compareSentence({ answer, next, basis }: ComparisonWords): string {
  return [answer, next, basis].filter((part) => part !== null).join(' ');
}

function clearSentence(comparison: Comparison, lens: Lens): string {
  const { happens } = MEASURE_WORDS[comparison.measure];
  const [placeA, placeB] = places(comparison);
  const more = isMore(comparison, lens) ? 'More' : 'Fewer';
  return (
    `${more} ${happens} ${placeA} than ${placeB}: ` +
    `${sidesText(comparison, lens)}${gapText(comparison, lens)}.`
  );
}

/** What A and B come to, with a comma after it; nothing where one of them cannot be given. */
function sidesText({ measure }: Comparison, { a, b }: Lens): string {
  if (a.kind === 'not-estimable' || b.kind === 'not-estimable') return '';
  const { style } = MEASURE_WORDS[measure];
  const per = style.kind === 'rate' ? ` per ${style.per}` : '';
  return `${figureText(a, style).short} against ${figureText(b, style).short}${per}, `;
}

function alikeSentence(comparison: Comparison, lens: Lens, verdict: Verdict): string {
  const { happens } = MEASURE_WORDS[comparison.measure];
  const [placeA, placeB] = places(comparison);
  const start = `For all that matters, as many ${happens} ${placeA} as ${placeB}: `;
  const margin = marginText(comparison, verdict);
  return verdict.isDifference
    ? `${start}there is a difference, ${bareGapText(comparison, lens)}, too small to matter beside ${margin}.`
    : `${start}${gapText(comparison, lens)}, less than the ${margin} that would matter.`;
}

function openSentence(comparison: Comparison, lens: Lens): string {
  const [placeA, placeB] = places(comparison);
  const { happens } = MEASURE_WORDS[comparison.measure];
  return (
    `Too close to call yet whether more ${happens} ${placeA} or ${placeB}: ` +
    `${gapText(comparison, lens)}.`
  );
}

/** More trips than this are no plan. */
const MOST_TRIPS = 1000;

function settleSentence(comparison: Comparison, verdict: Verdict, settle: ToSettle): string {
  const { unit, oneUnit } = MEASURE_WORDS[comparison.measure];
  const margin = `a difference of ${marginText(comparison, verdict)}`;
  if (settle.trips > MOST_TRIPS) {
    return (
      `At this log’s pace it would take over ${formatCount(MOST_TRIPS)} more trips to settle ` +
      `${margin}: not worth waiting for.`
    );
  }
  const units = roundUp(settle.units);
  const often = settle.by === 'power' ? ', 8 times in 10' : '';
  return (
    `About ${formatCount(units)} more ${units === 1 ? oneUnit : unit} ` +
    `(${plural(roundUp(settle.trips), 'trip')} at this log’s pace) on top of these would settle ${margin}${often}.`
  );
}

function tiedSentence(comparison: Comparison): string {
  const [placeA, placeB] = places(comparison);
  const start = `This log cannot tell what happens ${placeA} from what happens ${placeB}`;
  const [first, ...others] = comparison.tied;
  if (first === undefined) return `${start}.`;
  const more = others.map(({ covariate }) => factorWords(covariate));
  const also = more.length === 0 ? '' : ` So it is with ${listWords(more)}.`;
  return `${start}. ${first.reason}${also}`;
}

function places({ factor, levels: [a, b] }: Comparison): readonly [string, string] {
  return [levelPlace(factor, a), levelPlace(factor, b)];
}

function isMore(comparison: Comparison, lens: Lens): boolean {
  const figure = decidingFigure(lens, comparison.measure);
  const none = isProportion(comparison.measure) ? 0 : 1;
  return figure.kind === 'estimated' && figure.estimate > none;
}

/** `a difference of +8 points (+1 to +15)`, `1.4 times as many (1.1–1.8)`. */
function gapText(comparison: Comparison, lens: Lens): string {
  const bare = bareGapText(comparison, lens);
  return isProportion(comparison.measure) ? `a difference of ${bare}` : bare;
}

function bareGapText({ measure }: Comparison, lens: Lens): string {
  const figure = decidingFigure(lens, measure);
  if (isProportion(measure)) return figureText(figure, POINTS).long;
  const { value, interval } = figureText(figure, TIMES);
  return `${value} times as many (${interval})`;
}

/** `5 points`, `1 point`, `10 %`. */
export function marginText(
  { measure }: Pick<Comparison, 'measure'>,
  { margin }: Pick<Verdict, 'margin'>,
): string {
  const size = formatDecimal(100 * margin, margin * 100 === Math.round(margin * 100) ? 0 : 1);
  return isProportion(measure) ? plural(Number(size), 'point') : `${size}\u202f%`;
}

function restsOn(lens: Lens): string {
  if (lens.name === 'adjusted') {
    const held = lens.covariates.map(factorWords);
    return held.length === 0 ? 'Nothing was held equal.' : `Held equal: ${listWords(held)}.`;
  }
  if (lens.name === 'same_day') {
    return `Judged on the ${plural(lens.trips, 'trip')} that fished both.`;
  }
  return 'As the log has it: nothing else could be held equal.';
}

/** Two digits are enough for a plan: 87 → 90, 1,234 → 1,300; up to 10 as it is. */
function roundUp(count: number): number {
  if (count <= 10) return count;
  const step = 10 ** (Math.floor(Math.log10(count)) - 1);
  return Math.ceil(count / Math.max(step, 1) - 1e-9) * Math.max(step, 1);
}
