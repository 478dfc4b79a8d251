/** The mark that parts whole from fraction. */
export type DecimalMark = '.' | ',';

/** How the digits of a number are set: what its points and commas can mean. */
export type NumberForm =
  | { readonly kind: 'plain'; readonly value: number; readonly grouped: boolean }
  /** Points and commas can be read in one way only. */
  | {
      readonly kind: 'sure';
      readonly value: number;
      readonly mark: DecimalMark;
      readonly grouped: boolean;
    }
  /** `1,250` or `1.250`: a thousand and more, or one and a fraction. */
  | {
      readonly kind: 'either';
      readonly mark: DecimalMark;
      readonly asFraction: number;
      readonly asThousands: number;
    };

const NUMBER = /^([+-]?)(\d*)((?:[.,]\d*)*)(e[+-]?\d{1,3})?$/i;

/**
 * Reads the digits of a number without deciding what cannot be decided from one cell alone.
 * Returns null for text that is no number, and for numbers too large to be held.
 */
export function numberForm(text: string): NumberForm | null {
  const bare = withoutGroupSpaces(text);
  if (bare.length > 40) return null;
  const match = NUMBER.exec(bare);
  if (match === null || !/\d/.test(bare)) return null;
  const [, sign = '', head = '', tail = '', exponent = ''] = match;
  const marks = [...tail].filter((letter) => letter === '.' || letter === ',');
  const groups = tail.split(/[.,]/).slice(1);
  const value = (digits: string) => Number(`${sign}${digits}${exponent}`);
  const form = formOf({ head, marks, groups, value, grouped: bare !== text });
  if (form === null) return null;
  const held = form.kind === 'either' ? form.asThousands : form.value;
  return Number.isFinite(held) ? form : null;
}

interface Parts {
  readonly head: string;
  readonly marks: readonly string[];
  readonly groups: readonly string[];
  readonly value: (digits: string) => number;
  /** Groups of three digits stood apart by spaces. */
  readonly grouped: boolean;
}

function formOf({ head, marks, groups, value, grouped }: Parts): NumberForm | null {
  const mark = marks.at(-1) as DecimalMark | undefined;
  if (mark === undefined) return { kind: 'plain', value: value(head), grouped };
  const other: DecimalMark = mark === '.' ? ',' : '.';
  const last = groups.at(-1) ?? '';
  const whole = [head, ...groups.slice(0, -1)].join('');
  const isGrouped = /^\d{1,3}$/.test(head) && groups.slice(0, -1).every((g) => g.length === 3);
  if (marks.length === 1) {
    const asFraction = value(`${head}.${last}`);
    const isThree = last.length === 3 && /^[1-9]\d{0,2}$/.test(head);
    if (!isThree) return { kind: 'sure', value: asFraction, mark, grouped };
    return { kind: 'either', mark, asFraction, asThousands: value(`${head}${last}`) };
  }
  if (!isGrouped) return null;
  if (marks.every((m) => m === mark)) {
    // 1,250,000: the mark groups thousands, so the other one would part the fraction.
    return last.length === 3
      ? { kind: 'sure', value: value(`${whole}${last}`), mark: other, grouped: true }
      : null;
  }
  if (!marks.slice(0, -1).every((m) => m === other)) return null;
  return { kind: 'sure', value: value(`${whole}.${last}`), mark, grouped: true };
}

/** `1 250` and `1'250`: spaces and apostrophes between groups of three digits. */
function withoutGroupSpaces(text: string): string {
  return /^[+-]?\d{1,3}(?:[ '’]\d{3})+(?!\d)/.test(text)
    ? text.replace(/(\d)[ '’](?=\d{3}(?!\d))/g, '$1')
    : text;
}
