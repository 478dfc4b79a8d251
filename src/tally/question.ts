import type { FactorName } from './factors.ts';

/** Which part of the log is meant, and how it is divided. */
export interface Question {
  readonly by: readonly FactorName[];
  /** Levels to keep, by factor; a factor that is absent keeps all. */
  readonly only: Readonly<Partial<Record<FactorName, readonly string[]>>>;
  /** First and last trip date, ISO, both included. */
  readonly from: string | null;
  readonly to: string | null;
}

/** The whole log, undivided. */
export const WHOLE_LOG: Question = { by: [], only: {}, from: null, to: null };

/** Every factor a question looks at, those it divides by first. */
export function factorsOf(question: Question): readonly FactorName[] {
  const kept = Object.keys(question.only) as FactorName[];
  return [...question.by, ...kept.filter((name) => !question.by.includes(name))];
}
