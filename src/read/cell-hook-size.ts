import { type CellReader, plain, repaired, unread } from './cell.ts';
import { cleanValue } from './clean-text.ts';
import { dateForm } from './date-form.ts';
import { hookSizeRespelt, hookSizeUnreadable } from './messages-words.ts';
import { monthFromName } from './month-names.ts';

/** Sizes that are made: 1/0 to 20/0 upwards, 1 to 32 downwards. Common practice, no source. */
const LARGEST_AUGHT = 20;
const SMALLEST_PLAIN = 32;

/**
 * Reads a hook size in trade notation: `7/0`, `2`. What a spreadsheet made of one is taken back
 * where only one size can have become it: `5-0`, `05/00`, `5/O`, `#7/0`, `7/0 circle`, and May 2000
 * for `5/00`. A bare `50` or `5.0` may be two sizes and is left unread.
 */
export const readHookSize: CellReader<string> = (text) => {
  const bare = cleanValue(text);
  const size = usual(bare);
  if (size !== null) return plain(size);
  const mended = respelt(bare.toLowerCase()) ?? fromDate(bare);
  return mended === null
    ? unread(hookSizeUnreadable(text))
    : repaired(mended, hookSizeRespelt(text, mended));
};

function usual(text: string): string | null {
  const match = /^([1-9]\d?)(\/0)?$/.exec(text);
  if (match === null) return null;
  return sizeOf(Number(match[1]), match[2] !== undefined);
}

function sizeOf(number: number, aught: boolean): string | null {
  if (number < 1 || number > (aught ? LARGEST_AUGHT : SMALLEST_PLAIN)) return null;
  return aught ? `${number}/0` : String(number);
}

function respelt(text: string): string | null {
  const bare = text
    .replace(/^(?:size|sz|no|nr|hook)\b\.?\s*/, '')
    .replace(/^[#=]\s*/, '')
    .replace(/^"(.*)"$/, '$1')
    .replace(/\.$/, '')
    .trim();
  const amongWords = /^[^\d-]*(\d{1,2})\/0(?!\d)[^\d]*$/.exec(bare);
  if (amongWords !== null) return sizeOf(Number(amongWords[1]), true);
  const aught =
    /^0?(\d{1,2})\s*[/\\|_-]\s*(?:0{1,2}|o)s?$/.exec(bare) ??
    /^0?(\d{1,2})\s*-?\s*(?:aught|ought|oh)$/.exec(bare);
  if (aught !== null) return sizeOf(Number(aught[1]), true);
  const plainSize = /^0?(\d{1,2})$/.exec(bare);
  return plainSize === null ? null : sizeOf(Number(plainSize[1]), false);
}

/**
 * A spreadsheet takes `5/00` for May of the year 2000 and shows `May-00`, `2000-05-01`, or the
 * serial day of it. No other hook size becomes the first of a month of 2000.
 */
function fromDate(text: string): string | null {
  const shown =
    /^([a-z]+)[-/. ]'?(?:20)?00$/i.exec(text) ?? /^0?1[-/. ]([a-z]+)[-/. ]'?(?:20)?00$/i.exec(text);
  if (shown !== null) {
    const month = monthFromName(shown[1] ?? '');
    return month === null ? null : `${month}/0`;
  }
  const form = dateForm(text);
  if (form === null) return null;
  if (form.kind === 'iso' || form.kind === 'sure') {
    const match = /^2000-(\d\d)-01$/.exec(form.iso);
    return match === null ? null : `${Number(match[1])}/0`;
  }
  if (form.kind !== 'numeric' || form.year !== 2000) return null;
  // 01/05/2000 or 05/01/2000: whichever way round, the first of a month.
  if (form.first === 1 && form.second <= 12) return `${form.second}/0`;
  return form.second === 1 && form.first <= 12 ? `${form.first}/0` : null;
}
