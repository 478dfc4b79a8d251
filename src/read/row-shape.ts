import { choiceReader } from './cell-choice.ts';
import { cleanValue } from './clean-text.ts';
import { dateForm } from './date-form.ts';
import type { HeaderPlan } from './header-plan.ts';
import { numberForm } from './number-form.ts';
import { OUTCOME_WORDS } from './words-outcome.ts';

const readOutcome = choiceReader('outcome', OUTCOME_WORDS);

/**
 * Makes the test that tells a row of a file from a line of running text: every required column is
 * filled, dates are dates, outcomes are outcomes and counts are numbers.
 */
export function isRowOf(plan: HeaderPlan): (cells: readonly string[]) => boolean {
  const tests = plan.columns.flatMap(({ meaning }, index) => {
    if (!meaning?.spec.required) return [];
    const { kind, name } = meaning.spec;
    const isSound =
      kind === 'date'
        ? (text: string) => dateForm(cleanValue(text)) !== null
        : name === 'outcome'
          ? (text: string) => readOutcome(text).value !== null
          : kind === 'number'
            ? (text: string) => numberForm(cleanValue(text)) !== null
            : (text: string) => text.length < 60;
    return [{ index, isSound }];
  });
  return (cells) =>
    tests.every(({ index, isSound }) => {
      const text = (cells[index] ?? '').trim();
      return text !== '' && isSound(text);
    });
}
