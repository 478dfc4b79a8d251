import { join } from 'node:path';
import { figureText } from '../base/format-figure.ts';
import { formatDecimal } from '../base/format-number.ts';
import { printable } from '../base/words.ts';
import { MEASURE_WORDS } from '../decide/measure-words.ts';
import { POOL_PAGE } from '../share/pool-page.tsx';
import type { PooledMeasure } from '../share/pool-rates.ts';
import {
  ANYTHING,
  countWords,
  differenceSentences,
  leaveOneOutSentence,
  poolSentence,
  tellsNothing,
} from '../share/pool-sentence.ts';
import { textTable } from '../write/text-table.ts';
import type { Effects } from './effects.ts';

/** Each measure as a table of packages with what they say together, then the remarks. */
export function poolText(
  pooled: readonly PooledMeasure[],
  told: {
    readonly level: number;
    readonly folder: string;
    readonly colours: Effects['colours'];
    readonly warnings: readonly string[];
  },
): string {
  const tables = pooled.map((one) => measureText(one, told.level, told.colours));
  const page = told.colours.bold(join(told.folder, POOL_PAGE));
  const end = [...told.warnings, `Open ${page} in a browser.`].map(printable);
  return `${[...tables, end.join('\n')].join('\n\n')}\n`;
}

function measureText(pooled: PooledMeasure, level: number, colours: Effects['colours']): string {
  const { measure, studies, random, fixed } = pooled;
  const { style, name } = MEASURE_WORDS[measure];
  const per = style.kind === 'rate' ? ` per ${style.per}` : '';
  const figure = (estimate: typeof random) => figureText(estimate, style).short;
  const together = (estimate: typeof random) =>
    tellsNothing(estimate, measure) ? ANYTHING : figure(estimate);
  const isAlone = studies.length < 2;
  const table = textTable(
    [
      { head: 'package', align: 'left' },
      { head: `${formatDecimal(100 * level, 0)} % interval${per}`, align: 'right' },
      { head: 'counted', align: 'right' },
    ],
    [
      ...studies.map((study) => [
        printable(study.label),
        figure(study.figure),
        countWords({ measure, rate: study.rate }),
      ]),
      ...(isAlone
        ? []
        : [
            ['together, boats may differ', together(random), ''],
            ['together, as if all alike', together(fixed), ''],
          ]),
    ],
  );
  const remarks = [
    ...(isAlone || tellsNothing(random, measure) ? [poolSentence(pooled)] : []),
    ...differenceSentences(pooled, level),
    ...leaveOneOutSentence(pooled),
  ];
  return [colours.bold(name), table, ...remarks.map(printable)].join('\n');
}
