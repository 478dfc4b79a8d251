import fc from 'fast-check';
import type { CleanCell, CleanRow } from './clean-season.ts';

/** How a file is written down. */
export interface WildStyle {
  readonly delimiter: ',' | ';' | '\t' | '|';
  readonly encoding: 'utf8' | 'utf8-bom' | 'utf16le-bom' | 'utf16be-bom' | 'utf16le' | 'latin1';
  readonly lineEnd: '\n' | '\r\n' | '\r';
  readonly decimalComma: boolean;
  readonly dates: 'iso' | 'dmy' | 'mdy' | 'dmy-short' | 'named' | 'serial';
  readonly clocks:
    | 'usual'
    | 'seconds'
    | 'half-days'
    | 'run-together'
    | 'point'
    | 'fraction'
    | 'french';
  readonly headers: 'own' | 'spaces' | 'capitals' | 'synonyms';
  readonly imperial: boolean;
  readonly quoteAll: boolean;
  readonly junk: readonly Junk[];
  /** Shuffles the rows. */
  readonly order: number;
}

type Junk = 'blank' | 'empty-cells' | 'header' | 'total' | 'title' | 'trailing' | 'column' | 'sep';

/** Any way in which a spreadsheet or a mate may write a table down. */
export const wildStyle: fc.Arbitrary<WildStyle> = fc.record({
  delimiter: fc.constantFrom(',', ';', '\t', '|'),
  encoding: fc.constantFrom('utf8', 'utf8-bom', 'utf16le-bom', 'utf16be-bom', 'utf16le', 'latin1'),
  lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
  decimalComma: fc.boolean(),
  dates: fc.constantFrom('iso', 'dmy', 'mdy', 'dmy-short', 'named', 'serial'),
  clocks: fc.constantFrom(
    'usual',
    'seconds',
    'half-days',
    'run-together',
    'point',
    'fraction',
    'french',
  ),
  headers: fc.constantFrom('own', 'spaces', 'capitals', 'synonyms'),
  imperial: fc.boolean(),
  quoteAll: fc.boolean(),
  junk: fc.uniqueArray(
    fc.constantFrom<Junk>(
      'blank',
      'empty-cells',
      'header',
      'total',
      'title',
      'trailing',
      'column',
      'sep',
    ),
  ),
  order: fc.nat(),
});

const SYNONYMS: Readonly<Record<string, string>> = {
  trip_id: 'Trip #',
  date: 'Day',
  lines_in: 'Lines In',
  lines_out: 'LINES-OUT',
  vessel: 'Boat',
  area: 'Ground',
  hook_size: 'Hook',
  outcome: 'Result',
  bite_id: 'Bite No.',
  anglers: 'Pax',
  bait: 'Bait Type',
  count: 'Qty',
  notes: 'Comments',
  time: 'Bite time',
};

/** Header and divisor or formula for columns that an imperial log writes in other units. */
const IMPERIAL: Readonly<Record<string, readonly [string, (value: number) => number]>> = {
  wind_kn: ['wind_mph', (kn) => (kn * 1852) / 1609.344],
  depth_m: ['Depth (ft)', (m) => m / 0.3048],
  water_temp_c: ['water_temp_f', (c) => (c * 9) / 5 + 32],
  weight_kg: ['Weight, lbs', (kg) => kg / 0.45359237],
  fight_min: ['fight_sec', (min) => min * 60],
};

/** A table written down in a style, as bytes. `columns` is the order of its columns. */
export function wildFile(
  rows: readonly CleanRow[],
  columns: readonly string[],
  style: WildStyle,
): Buffer {
  const has = (junk: Junk) => style.junk.includes(junk);
  const header = columns.map((column) => headerIn(column, style));
  const body = shuffled(rows, style.order).map((row) =>
    columns.map((column) => cellIn(column, row[column] ?? { kind: 'empty' }, style)),
  );
  const lines: string[][] = [header, ...body];
  if (has('header')) lines.splice(1 + (style.order % lines.length), 0, header);
  if (has('empty-cells'))
    lines.splice(
      1 + (style.order % lines.length),
      0,
      header.map(() => ''),
    );
  if (has('blank')) lines.splice(1 + (style.order % lines.length), 0, []);
  if (has('total')) lines.push(['TOTAL', ...header.slice(1).map(() => '')]);
  if (has('column')) {
    for (const line of lines)
      line.push(line.length === 0 ? '' : line === lines[0] ? 'Moon mood' : 'x');
  }
  if (has('trailing')) for (const line of lines) line.push('', '');
  if (has('title')) lines.unshift(['Quillandra, the season'], []);
  const told = has('sep') && !has('title') ? [`sep=${style.delimiter}`] : [];
  const text = [
    ...told,
    ...lines.map((line) => line.map((cell) => quoted(cell, style)).join(style.delimiter)),
  ]
    .map((line) => line + style.lineEnd)
    .join('');
  return encoded(text, style.encoding);
}

function headerIn(column: string, style: WildStyle): string {
  if (style.imperial && IMPERIAL[column] !== undefined) return IMPERIAL[column][0];
  switch (style.headers) {
    case 'own':
      return column;
    case 'spaces':
      return column.replaceAll('_', ' ');
    case 'capitals':
      return column.toUpperCase().replaceAll('_', '-');
    case 'synonyms':
      return SYNONYMS[column] ?? column;
  }
}

function cellIn(column: string, cell: CleanCell, style: WildStyle): string {
  switch (cell.kind) {
    case 'empty':
      return '';
    case 'text':
      return cell.value;
    case 'number': {
      const convert = style.imperial ? IMPERIAL[column]?.[1] : undefined;
      return decimal(
        convert === undefined ? String(cell.value) : String(convert(cell.value)),
        style,
      );
    }
    case 'clock':
      return clockIn(cell.value, style);
    case 'date':
      return dateIn(cell.value, style);
  }
}

function clockIn(minutes: number, style: WildStyle): string {
  const hours = Math.floor(minutes / 60);
  const two = (value: number) => String(value).padStart(2, '0');
  const rest = two(minutes % 60);
  switch (style.clocks) {
    case 'usual':
      return `${two(hours)}:${rest}`;
    case 'seconds':
      return `${two(hours)}:${rest}:00`;
    case 'half-days':
      return `${((hours + 11) % 12) + 1}:${rest} ${hours < 12 ? 'AM' : 'pm'}`;
    case 'run-together':
      return `${two(hours)}${rest}`;
    case 'point':
      return `${hours}.${rest}`;
    case 'fraction':
      return decimal((minutes / 1440).toFixed(10), style);
    case 'french':
      return `${hours}h${rest}`;
  }
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

function dateIn(iso: string, style: WildStyle): string {
  const [year = '', month = '', day = ''] = iso.split('-');
  switch (style.dates) {
    case 'iso':
      return iso;
    case 'dmy':
      return `${day}/${month}/${year}`;
    case 'mdy':
      return `${Number(month)}/${day}/${year}`;
    case 'dmy-short':
      return `${day}.${month}.${year.slice(2)}`;
    case 'named':
      return `${day}-${MONTHS[Number(month) - 1]}-${year}`;
    case 'serial':
      // Day 45292 of a spreadsheet's calendar is 2024-01-01.
      return String(
        45292 + (Date.parse(`${iso}T00:00Z`) - Date.parse('2024-01-01T00:00Z')) / 864e5,
      );
  }
}

function decimal(text: string, style: WildStyle): string {
  return style.decimalComma ? text.replace('.', ',') : text;
}

function quoted(cell: string, { delimiter, quoteAll }: WildStyle): string {
  const mustQuote = cell.includes(delimiter) || /["\r\n]/.test(cell) || quoteAll;
  return mustQuote ? `"${cell.replaceAll('"', '""')}"` : cell;
}

function encoded(text: string, encoding: WildStyle['encoding']): Buffer {
  switch (encoding) {
    case 'utf8':
      return Buffer.from(text);
    case 'utf8-bom':
      return Buffer.from(`\uFEFF${text}`);
    case 'utf16le-bom':
      return Buffer.from(`\uFEFF${text}`, 'utf16le');
    case 'utf16le':
      return Buffer.from(text, 'utf16le');
    case 'utf16be-bom':
      return Buffer.from(`\uFEFF${text}`, 'utf16le').swap16();
    case 'latin1':
      return Buffer.from(text, 'latin1');
  }
}

/** A fixed shuffle for each number. */
function shuffled<T>(rows: readonly T[], order: number): T[] {
  const left = [...rows];
  const out: T[] = [];
  let state = order;
  while (left.length > 0) {
    state = (state * 1103515245 + 12345) % 2147483648;
    out.push(...left.splice(state % left.length, 1));
  }
  return out;
}
