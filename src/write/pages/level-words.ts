import { formatMonth } from '../../base/format-time.ts';
import { levelWords, printable } from '../../base/words.ts';
import type { FactorName } from '../../tally/factors.ts';
import { NOT_RECORDED } from '../../tally/level-order.ts';

/** A level as tables and charts name it: `mono`, `80 lb`, `March 2025`. */
export function levelName(factor: FactorName, level: string): string {
  if (level === NOT_RECORDED) return level;
  if (factor === 'month') return formatMonth(level);
  const words = printable(levelWords(level));
  return factor === 'line_class_lb' || factor === 'leader_lb' ? `${words} lb` : words;
}

const LONGEST_IN_SENTENCE = 60;

/** A level for use in a sentence, where a whole paragraph of a name would bury the answer. */
export function shortLevel(level: string): string {
  const letters = [...level];
  if (letters.length <= LONGEST_IN_SENTENCE) return level;
  return `${letters.slice(0, LONGEST_IN_SENTENCE).join('').trimEnd()}…`;
}
