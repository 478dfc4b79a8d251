import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import type { AnsweredTogether } from '../decide/answer-together.ts';
import { jointTestText, pText } from '../decide/joint-test-words.ts';
import { isProportion } from '../estimate/proportion.ts';
import { factorWords } from '../tally/factor-words.ts';
import { levelName } from '../write/pages/level-words.ts';
import { textTable } from '../write/text-table.ts';

/** Several levels judged together: the answer, every pair, and the joint test behind it. */
export function togetherText({ together, pairs, word, sentence }: AnsweredTogether): string {
  const { measure, test, dropped } = together;
  const style = isProportion(measure) ? POINTS : TIMES;
  const right = (head: string) => ({ head, align: 'right' as const });
  const columns = [
    { head: 'pair', align: 'left' as const },
    right(isProportion(measure) ? 'difference' : 'times as many'),
    right('all hold together'),
    right('p'),
    right('p, Holm'),
    { head: 'verdict', align: 'left' as const },
  ];
  const body = pairs.map(({ pair, word: pairWord }) => [
    pair.levels.map((level) => levelName(together.factor, level)).join(' less '),
    figureText(isProportion(measure) ? pair.difference : pair.ratio, style).short,
    figureText(pair.together, style).interval ?? '',
    pText(pair.p),
    pText(pair.pHolm),
    pairWord,
  ]);
  const remarks = dropped.map(({ covariate, reason }) => `${factorWords(covariate)}: ${reason}`);
  return [
    word === null ? sentence : `${word.toUpperCase()}  ${sentence}`,
    ...(pairs.length === 0 ? [] : [textTable(columns, body)]),
    ...new Set(remarks),
    ...(together.refused === null
      ? [
          `Joint test that all are alike: ${jointTestText(test)}`,
          'All hold together: Bonferroni limits. p, Holm: with allowance for every pair looked at. ' +
            'All levels stand in one adjusted model, so a figure may differ a little from that of the pair on its own.',
        ]
      : []),
  ].join('\n');
}
