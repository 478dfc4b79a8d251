import type { TestOutcome } from '../base/test-outcome.ts';
import { chiSquareTested } from './homogeneity-chi-square.ts';
import { mantelHaenszelOddsRatio } from './mantel-haenszel-odds-ratio.ts';
import { isInformative, type Stratum, total } from './mantel-haenszel-strata.ts';

/** Both forms of the test, and whether the strata are large enough to believe them. */
export interface Homogeneity {
  readonly breslowDay: TestOutcome;
  /** The same with Tarone's correction, which makes it a chi-square in large strata. */
  readonly tarone: TestOutcome;
  /** Informative strata less one; never below 0. */
  readonly df: number;
  /**
   * Whether every cell of the fitted tables is at least 1 and four in five are at least 5. If not,
   * the p values mean little, and a reader is to be told so instead.
   */
  readonly largeEnough: boolean;
}

/**
 * Is the odds ratio the same in every stratum? Breslow and Day's test against the Mantel–Haenszel
 * odds ratio, without and with Tarone's correction. Not testable with fewer than two informative
 * strata or without a finite Mantel–Haenszel odds ratio above 0.
 * Source: Breslow & Day 1980, IARC Sci Publ 32, sec. 4.4; Tarone 1985, Biometrika 72:91; the rule
 * for `largeEnough` is Cochran 1954, Biometrics 10:417, for contingency tables.
 */
export function breslowDay(strata: readonly Stratum[]): Homogeneity {
  const common = mantelHaenszelOddsRatio(strata, { level: 0.95 });
  const used = strata.filter(isInformative);
  const df = Math.max(0, used.length - 1);
  if (used.length < 2)
    return untested('It takes two strata with both groups and both outcomes to compare.', df);
  if (common.kind === 'not-estimable') return untested(common.reason, df);
  const fitted = used.map((stratum) => fittedTable(stratum, common.estimate));
  const statistic = total(fitted, ({ excess, variance }) => excess ** 2 / variance);
  const correction =
    total(fitted, ({ excess }) => excess) ** 2 / total(fitted, ({ variance }) => variance);
  const cells = fitted.flatMap((table) => table.cells);
  return {
    breslowDay: chiSquareTested({ method: 'breslow-day', statistic, df }),
    tarone: chiSquareTested({
      method: 'breslow-day-tarone',
      statistic: Math.max(0, statistic - correction),
      df,
    }),
    df,
    largeEnough:
      cells.every((cell) => cell >= 1) &&
      cells.filter((cell) => cell >= 5).length >= 0.8 * cells.length,
  };
}

function untested(reason: string, df: number): Homogeneity {
  const outcome = (method: string): TestOutcome => ({ kind: 'not-estimable', method, reason });
  return {
    breslowDay: outcome('breslow-day'),
    tarone: outcome('breslow-day-tarone'),
    df,
    largeEnough: false,
  };
}

/**
 * The table with a stratum's margins and the common odds ratio. Each cell is found for itself, as
 * the first cell of a table turned about, because a cell near 0 has no digits left as the rest of
 * its margin.
 */
function fittedTable({ x1, n1, x2, n2 }: Stratum, oddsRatio: number) {
  const [events, others] = [x1 + x2, n1 - x1 + (n2 - x2)];
  const first = firstCell({ row: n1, otherRow: n2, column: events }, oddsRatio);
  const cells = [
    first,
    firstCell({ row: n1, otherRow: n2, column: others }, 1 / oddsRatio),
    firstCell({ row: n2, otherRow: n1, column: events }, 1 / oddsRatio),
    firstCell({ row: n2, otherRow: n1, column: others }, oddsRatio),
  ];
  return { cells, excess: x1 - first, variance: 1 / total(cells, (cell) => 1 / cell) };
}

interface Margins {
  readonly row: number;
  readonly otherRow: number;
  readonly column: number;
}

/**
 * The root a of (1 − ψ)a² + (r₂ − c + ψ(r + c))a − ψrc = 0 that leaves no cell negative, r, r₂ and c
 * being its row, the other row and its column, in the form that loses no digits near ψ = 1.
 */
function firstCell({ row, otherRow, column }: Margins, oddsRatio: number): number {
  const linear = otherRow - column + oddsRatio * (row + column);
  const root = Math.sqrt(Math.max(0, linear ** 2 + 4 * (1 - oddsRatio) * oddsRatio * row * column));
  return linear >= 0
    ? (2 * oddsRatio * row * column) / (linear + root)
    : (root - linear) / (2 * (1 - oddsRatio));
}
