import type { Refusal } from '../base/estimate.ts';
import { formatDecimal, formatSmall } from '../base/format-number.ts';
import type { JointTest } from '../estimate/joint-test.ts';

/** `F = 11.11 on 2 and 76.4 degrees of freedom, p < 0.001 (Wald, errors by trip).`, or why not. */
export function jointTestText(test: JointTest | Refusal): string {
  if (test.kind === 'not-estimable') return `none. ${test.reason}`;
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
