/** A coordinate met in a text. */
export interface FoundCoordinate {
  /** Degrees without sign. */
  readonly degrees: number;
  /** One unit of the last digit written, in degrees. */
  readonly unit: number;
  /** Whether a sign or a letter of the compass says that it is one. */
  readonly isMarked: boolean;
  readonly text: string;
}

type Reading = Pick<FoundCoordinate, 'degrees' | 'unit'>;

/** A way to write a coordinate, and what its groups may mean in degrees. */
interface Form {
  readonly form: (mark: string) => string;
  readonly read: (groups: readonly string[]) => readonly Reading[];
}

const EDGE = '(?<![\\p{L}\\p{N}.])';
const END = '(?![\\p{L}\\p{N}]|\\.\\p{N})';
const LETTER = '[NSEW]';
const DEGREES = '\\s*[°º:d\\s-]\\s*';
const MINUTES = "\\s*['’′m:\\s]\\s*";
const FOOT = "\\s*['’′]?\\s*";
const INCH = "\\s*(?:[\"”″]|'')?\\s*";

const FORMS: readonly Form[] = [
  {
    // 12°06.12'S, S 12 06.12, 12:06.12
    form: (mark) =>
      `${EDGE}(?:${LETTER}\\s*)?(\\d{1,3})${DEGREES}(\\d{1,2}${mark}\\d+)${FOOT}${LETTER}?${END}`,
    read: ([degrees, minutes]) => sexagesimal(degrees, minutes),
  },
  {
    // 12°06'07"S, 12 06 07.2 S
    form: (mark) =>
      `${EDGE}(?:${LETTER}\\s*)?(\\d{1,3})${DEGREES}(\\d{1,2})${MINUTES}(\\d{1,2}(?:${mark}\\d+)?)${INCH}${LETTER}?${END}`,
    read: ([degrees, minutes, seconds]) => sexagesimal(degrees, minutes, seconds),
  },
  {
    // 1206.12S, 1206.12,S, as instruments send it
    form: () => `${EDGE}(\\d{1,3})(\\d{2}\\.\\d+)\\s*,?\\s*${LETTER}${END}`,
    read: ([degrees, minutes]) => sexagesimal(degrees, minutes),
  },
  {
    // 120607S
    form: () => `${EDGE}(\\d{1,3})(\\d{2})(\\d{2})\\s*${LETTER}${END}`,
    read: ([degrees, minutes, seconds]) => sexagesimal(degrees, minutes, seconds),
  },
  {
    // -12.102, 12.102 S, geo:-12.102,54.645
    form: (mark) =>
      `${EDGE}(?:${LETTER}\\s*)?(\\d{1,3}${mark}\\d{2,})\\s*[°º]?\\s*${LETTER}?${END}`,
    read: ([degrees]) => [{ degrees: plain(degrees), unit: lastDigit(degrees) }],
  },
  {
    // -121020000: hundred thousandths to ten-millionths of a degree, as devices store it
    form: () => `${EDGE}(\\d{6,10})${END}`,
    read: ([digits]) =>
      [5, 6, 7].map((places) => ({ degrees: plain(digits) / 10 ** places, unit: 1e-5 })),
  },
];

const compiled = (mark: string) =>
  FORMS.map(({ form, read }) => ({ form: new RegExp(form(mark), 'giu'), read }));
const WITH_COMMA = compiled('[.,]');
const WITH_POINT = compiled('\\.');

/**
 * Everything in a text that reads as an exact latitude or longitude, in the order it stands; what
 * reads several ways comes several times.
 *
 * @param decimalComma whether `12,102` may be one number; in a CSV file it is two cells.
 */
export function coordinatesIn(text: string, decimalComma = true): FoundCoordinate[] {
  // A coordinate to two decimals has three digits at least.
  if (!/\d\D*\d\D*\d/.test(text)) return [];
  const found = (decimalComma ? WITH_COMMA : WITH_POINT).flatMap(({ form, read }) =>
    [...text.matchAll(form)].flatMap((match) => {
      const before = text.slice(Math.max(0, match.index - 1), match.index);
      const isMarked = /[NSEW]/i.test(match[0]) || /[-+−]/.test(before);
      return read(match.slice(1))
        .filter(({ degrees }) => degrees <= 180)
        .map((reading) => ({ ...reading, isMarked, text: match[0].trim(), at: match.index }));
    }),
  );
  return found.sort((a, b) => a.at - b.at).map(({ at: _at, ...coordinate }) => coordinate);
}

function sexagesimal(degrees = '0', minutes = '0', seconds?: string): readonly Reading[] {
  const [whole, part] = [plain(minutes), plain(seconds ?? '0')];
  if (whole >= 60 || part >= 60) return [];
  const unit = seconds === undefined ? lastDigit(minutes) / 60 : lastDigit(seconds) / 3600;
  return [{ degrees: plain(degrees) + whole / 60 + part / 3600, unit }];
}

function plain(digits = '0'): number {
  return Number(digits.replace(',', '.'));
}

/** The worth of one unit of the last digit: 0.01 for `12.34`. */
function lastDigit(digits = ''): number {
  const [, decimals = ''] = digits.split(/[.,]/);
  return 10 ** -decimals.length;
}
