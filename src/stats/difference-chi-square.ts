import type { TestOutcome } from '../base/test-outcome.ts';
import { differenceBeyondRounding } from './difference-beyond-rounding.ts';
import { type TwoProportions, whyNoComparison } from './difference-two-proportions.ts';
import { chiSquareTested } from './homogeneity-chi-square.ts';

/** Whether half a unit is taken off before squaring, which makes a test of counts cautious. */
export interface Continuity {
  readonly continuity: boolean;
}

/**
 * Pearson's chi-square test of two independent proportions, 1 degree of freedom; with continuity,
 * Yates' form, whose correction never passes the difference itself. Not testable where a group has
 * no units, or where all or none of the units were events.
 * Source: Pearson 1900; Yates 1934.
 */
export function chiSquareTest(counts: TwoProportions, { continuity }: Continuity): TestOutcome {
  const method = continuity ? 'chi-square-yates' : 'chi-square';
  const reason = whyNoComparison(counts);
  if (reason !== null) return { kind: 'not-estimable', method, reason };
  const { x1, n1, x2, n2 } = counts;
  const units = n1 + n2;
  const events = (x1 + x2) / units;
  const others = (n1 - x1 + (n2 - x2)) / units;
  if (events === 0 || others === 0) {
    const what = events === 0 ? 'No unit of either group was' : 'Every unit of both groups was';
    return { kind: 'not-estimable', method, reason: `${what} an event, so there is no contrast.` };
  }
  const gap = Math.abs(differenceBeyondRounding(x1 * n2, x2 * n1)) / units;
  const shortened = Math.max(0, gap - (continuity ? 0.5 : 0));
  const statistic = shortened ** 2 / (n1 * (n2 / units) * events * others);
  return chiSquareTested({ method, statistic, df: 1 });
}
