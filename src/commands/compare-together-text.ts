import { figureText, POINTS, TIMES } from '../base/format-figure.ts';
import { formatDecimal, formatSmall } from '../base/format-number.ts';
import type { AnsweredTogether } from '../decide/answer-together.ts';
import type { JointTest } from '../estimate/joint-test.ts';
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
            'All levels stand in one adjusted model, so a figure may differ a little from that of two levels alone.',
        ]
      : []),
  ].join('\n');
}

/** `F = 11.1 on 2 and 76.4 degrees of freedom, p < 0.001`, or why there is none. */
export function jointTestText(test: JointTest | { readonly reason: string }): string {
  if ('reason' in test) return `none. ${test.reason}`;
  const { statistic, df1, df2, p } = test;
  const equals = p < 0.0005 ? 'p' : 'p =';
  return (
    `F = ${formatDecimal(statistic, 2)} on ${df1} and ${formatDecimal(df2, 1)} degrees of freedom, ` +
    `${equals} ${pText(p).replace('<', '< ')} (Wald, errors by trip).`
  );
}

/** `0.013`, `<0.001`; empty where there is none. */
export function pText(p: number | null): string {
  return p === null ? '' : formatSmall(p, 3);
}
