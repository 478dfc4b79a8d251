import { cleanText } from './clean-text.ts';
import type { HeaderPlan } from './header-plan.ts';
import { headerWords } from './header-words.ts';
import type { Message } from './messages-cells.ts';
import { repeatedHeader, totalRow } from './messages-rows.ts';

const TOTAL =
  /^(?:(?:grand|season|sub|trip|monthly|month|yearly|year|over ?all)[\s-]*)?(?:totals?|sums?|subtotals?|averages?|avg|mean|median|count|max(?:imum)?|min(?:imum)?)\b(?:[\s:.,=-]|\d|of|the|all|for|trips?|bites?|fish|seasons?|line|hours?|days?|anglers?)*$/i;

/** `March total`, `Total for week 12`: enough where the row lacks what every entry has. */
const TOTAL_AMONG_WORDS =
  /(?:^|[^\p{L}])(?:(?:sub[\s-]?|grand[\s-])?totals?|sums?|averages?|avg)(?![\p{L}])/iu;
const MOST_WORDS = 5;

/** Cells looked at before a row is taken for an entry; a repeated header shows in its first ones. */
const TELLING_CELLS = 3;

/**
 * Makes the test for rows that are no entries of the log: the header once more, a total. It gives
 * the reason, or null for an entry.
 */
export function strayRowTest(plan: HeaderPlan) {
  const isHeader = repeatedHeaderTest(plan);
  const total = totalFinder(plan);
  return (texts: readonly string[]): { received: string; message: Message } | null => {
    if (isHeader(texts)) return { received: texts.join(' '), message: repeatedHeader() };
    const word = total(texts);
    return word === null ? null : { received: word, message: totalRow(word) };
  };
}

function repeatedHeaderTest(plan: HeaderPlan): (texts: readonly string[]) => boolean {
  const words = plan.columns.map((column) => headerWords(column.header));
  const letters = words.map((word) => word[0] ?? '');
  return (texts) => {
    let filled = 0;
    let same = 0;
    for (let i = 0; i < texts.length; i++) {
      const text = texts[i] ?? '';
      if (text === '') continue;
      if (filled === TELLING_CELLS && same === 0) return false;
      filled++;
      // Only a cell that begins like its header is worth folding.
      const first = text.trimStart()[0]?.toLowerCase() ?? '';
      const mayBe = first === letters[i] || !/[a-z0-9]/.test(first);
      if (mayBe && text.length < 80 && headerWords(text) === words[i]) same++;
    }
    return same >= 2 && same * 2 > filled;
  };
}

/**
 * A total stands where a required column should be filled, or such a column is empty and another
 * cell holds the word: alone, or among others in a cell that begins the row or names it.
 */
function totalFinder(plan: HeaderPlan): (texts: readonly string[]) => string | null {
  const keys = plan.columns.flatMap(({ meaning }, index) =>
    meaning?.spec.required ? [index] : [],
  );
  return (texts) => {
    let lacking = false;
    for (const key of keys) {
      const text = (texts[key] ?? '').trim();
      if (text === '') lacking = true;
      else if (isTotal(text)) return cleanText(text);
    }
    if (!lacking) return null;
    const named = [0, ...keys].map((key) => texts[key] ?? '').find(namesTotal);
    return named ?? texts.find((text) => isTotal(text.trim())) ?? null;
  };
}

function isTotal(text: string): boolean {
  return text.length < 60 && TOTAL.test(cleanText(text));
}

function namesTotal(text: string): boolean {
  if (text.length > 60 || !TOTAL_AMONG_WORDS.test(text)) return false;
  return cleanText(text).split(' ').length <= MOST_WORDS;
}
