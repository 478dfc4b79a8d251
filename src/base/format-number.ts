/** U+202F: keeps a number and its unit on one line, a little apart (ISO 80000-1, 7.3.4). */
export const THIN_SPACE = '\u202f';
/** Joins the two ends of a range of numbers that cannot be negative: `54–69`. */
export const RANGE_DASH = '\u2013';
/** A true minus sign, as wide as the plus it stands beside. */
export const MINUS = '\u2212';

/** Beyond this size a number is written with a power of ten: no log counts so far. */
const LARGEST_WRITTEN_OUT = 1e15;
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/**
 * A number with a fixed count of decimals, thousands set off by commas and a true minus sign; never
 * dependent on the machine's locale. What rounds to zero is `0` without a sign.
 *
 * @param value any finite number, or ±Infinity, which is written `no limit`.
 */
export function formatDecimal(value: number, decimals: number): string {
  if (Number.isNaN(value)) throw new Error('A figure that is no number reached the page.');
  if (!Number.isFinite(value)) return 'no limit';
  const size = Math.abs(value);
  if (size >= LARGEST_WRITTEN_OUT) return (value < 0 ? MINUS : '') + powerOfTen(size);
  const digits = size.toFixed(decimals);
  const [whole = '0', fraction] = digits.split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ',');
  const sign = value < 0 && Number(digits) !== 0 ? MINUS : '';
  return sign + grouped + (fraction === undefined ? '' : `.${fraction}`);
}

/** A count of things: `0`, `1,250`. */
export function formatCount(count: number): string {
  return formatDecimal(count, 0);
}

/** Hours, to a tenth below a hundred and whole above: `7.5`, `1,843`. */
export function formatHours(hours: number): string {
  return formatDecimal(hours, Math.abs(hours) < 99.95 ? 1 : 0);
}

/** A chance or a share in whole percents, `<1` and `>99` where those would say none or all. */
export function formatShare(share: number): string {
  const percent = 100 * share;
  if (share > 0 && percent < 0.5) return `<1${THIN_SPACE}%`;
  if (share < 1 && percent > 99.5) return `>99${THIN_SPACE}%`;
  return `${formatDecimal(percent, 0)}${THIN_SPACE}%`;
}

/**
 * How many decimals show a number of this size to two significant digits: 0 to 3, and 1 for zero.
 */
export function decimalsFor(size: number): number {
  const magnitude = Math.abs(size);
  if (magnitude === 0 || !Number.isFinite(magnitude)) return 1;
  return Math.min(3, Math.max(0, 1 - Math.floor(Math.log10(magnitude) + 1e-12)));
}

/** A number that may be too small for its decimals: `<0.001` instead of a false zero. */
export function formatSmall(value: number, decimals: number): string {
  const step = 10 ** -decimals;
  if (value > 0 && value < step / 2) return `<${formatDecimal(step, decimals)}`;
  return value === 0 ? '0' : formatDecimal(value, decimals);
}

function powerOfTen(size: number): string {
  const [mantissa = '', exponent = ''] = size.toExponential(1).split('e+');
  const raised = [...exponent].map((digit) => SUPERSCRIPTS[Number(digit)]).join('');
  return `${mantissa} × 10${raised}`;
}
