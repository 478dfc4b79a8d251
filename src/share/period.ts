/** A month or a quarter, by its year and first month. */
export interface Period {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly months: 1 | 3;
}

/** How long a period is. */
export type PeriodKind = 'month' | 'quarter';

/** The period of one kind that holds a month such as `2025-03`. */
export function periodOf(month: string, kind: PeriodKind): Period {
  const [year = 0, number = 1] = month.split('-').map(Number);
  if (kind === 'month') return { year, month: number, months: 1 };
  return { year, month: 3 * Math.floor((number - 1) / 3) + 1, months: 3 };
}

/** `2025-03`, or `2025-Q1`; sorts by time within one kind. */
export function periodText({ year, month, months }: Period): string {
  if (months === 3) return `${year}-Q${(month + 2) / 3}`;
  return `${year}-${String(month).padStart(2, '0')}`;
}
