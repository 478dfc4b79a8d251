import { type CellReader, repaired, unread } from './cell.ts';
import { type NumberContext, numberReader } from './cell-number.ts';
import { cleanValue } from './clean-text.ts';
import type { ColumnSpec } from './column-spec.ts';
import { bearingRespelt, bearingUnreadable, latLonRespelt } from './messages-places.ts';

const POINTS = [
  'n',
  'nne',
  'ne',
  'ene',
  'e',
  'ese',
  'se',
  'sse',
  's',
  'ssw',
  'sw',
  'wsw',
  'w',
  'wnw',
  'nw',
  'nnw',
] as const;

/** Makes the reader of a bearing in degrees, 0 to 360; the 16 points of the compass are taken too. */
export function bearingReader(context: NumberContext): CellReader<number> {
  const asNumber = numberReader(context);
  const { name } = context.spec;
  return (text) => {
    const bare = cleanValue(text).toLowerCase();
    if (/^\d/.test(bare)) {
      const digits = bare.replace(/\s*(?:°|º|deg(?:rees)?\.?|t|true)$/, '');
      const cell = asNumber(digits);
      return cell.note === null && digits !== bare && cell.value !== null
        ? repaired(cell.value, bearingRespelt(name, text, cell.value))
        : cell;
    }
    const letters = bare
      .replace(/north/g, 'n')
      .replace(/south/g, 's')
      .replace(/east/g, 'e')
      .replace(/west/g, 'w')
      .replace(/erly$/, '')
      .replace(/[^a-z]/g, '');
    const point = POINTS.indexOf(letters as (typeof POINTS)[number]);
    if (point === -1) return unread(bearingUnreadable(name, text));
    return repaired(point * 22.5, bearingRespelt(name, text, point * 22.5));
  };
}

/**
 * Makes the reader of a latitude or longitude in decimal degrees, south and west negative. Degrees
 * and minutes (and seconds) with a hemisphere letter are taken too: `20°15.5'S`, `S 20 15 30`.
 */
export function latLonReader(context: NumberContext): CellReader<number> {
  const asNumber = numberReader(context);
  const { spec } = context;
  return (text) => {
    const bare = cleanValue(text);
    if (/^[+-]?\d+(?:[.,]\d+)?$/.test(bare)) return asNumber(bare.replace(',', '.'));
    const degrees = degreesOf(bare, spec);
    if (degrees === null) return asNumber(bare);
    const [least, most] = spec.range ?? [-180, 180];
    if (degrees < least || degrees > most) return asNumber(String(degrees));
    return repaired(degrees, latLonRespelt(spec.name, text, degrees));
  };
}

/** Degrees, minutes and seconds with or without a hemisphere letter; null where that is unsure. */
function degreesOf(text: string, spec: ColumnSpec): number | null {
  const letters = spec.kind === 'latitude' ? 'NS' : 'EW';
  // In 20d09m30s the last letter may be seconds or south.
  if (/\dm\s*\d+(?:\.\d+)?\s*s$/i.test(text) && !/^[NS]/i.test(text)) return null;
  const hemisphere = new RegExp(`^([${letters}])\\s*|\\s*([${letters}])$`, 'gi');
  const found = [...text.matchAll(hemisphere)].map((match) =>
    (match[1] ?? match[2] ?? '').toUpperCase(),
  );
  if (found.length > 1) return null;
  const [letter = ''] = found;
  const bare = text.replace(hemisphere, '').trim();
  const parts =
    /^(-?)(\d{1,3}(?:[.,]\d+)?)(?:\s*[°ºd:]\s*|\s+|-|$)(?:(\d{1,2}(?:[.,]\d+)?)(?:\s*['’′m:]\s*|\s+|-|$)(?:(\d{1,2}(?:[.,]\d+)?)\s*(?:["”″s]|'')?)?)?$/i.exec(
      bare,
    );
  if (parts === null) return null;
  const [, sign, degrees = '0', minutes = '0', seconds = '0'] = parts;
  if (letter !== '' && sign === '-') return null;
  if (value(minutes) >= 60 || value(seconds) >= 60) return null;
  const size = value(degrees) + value(minutes) / 60 + value(seconds) / 3600;
  return letter === 'S' || letter === 'W' || sign === '-' ? -size : size;
}

function value(digits: string): number {
  return Number(digits.replace(',', '.'));
}
