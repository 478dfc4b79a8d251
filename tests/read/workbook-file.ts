import { zipStored } from '../../src/read/zip-stored.ts';

/** A cell as a spreadsheet stores it: a text, a number with its style, a formula with its value. */
export type StoredCell =
  | string
  | number
  | boolean
  | null
  | { readonly serial: number; readonly style: 'date' | 'time' | 'moment' }
  | { readonly formula: string; readonly value: string };

const STYLES = ['plain', 'date', 'time', 'moment'];
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const LINKS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006/relationships';

/** The bytes of a workbook. Source: ECMA-376 part 1, sections 18.2, 18.3 and 18.8, for its parts. */
export function workbookFile(sheets: Readonly<Record<string, readonly StoredCell[][]>>): Buffer {
  const xmlOfSheets = Object.values(sheets).map((rows) => sheetXml(rows.map(rowXml).join('')));
  return workbookOf(Object.keys(sheets), xmlOfSheets);
}

/** A workbook whose sheets' XML is given. */
export function workbookOf(names: readonly string[], sheets: readonly string[]): Buffer {
  const list = names.map((n, i) => `<sheet name="${escaped(n)}" sheetId="${i + 1}" r:id="r${i}"/>`);
  const link = (id: string, type: string, target: string) =>
    `<Relationship Id="${id}" Type="${LINKS}/${type}" Target="${target}"/>`;
  const links = names.map((_, i) => link(`r${i}`, 'worksheet', `worksheets/sheet${i}.xml`));
  const parts: [string, string][] = [
    [
      'xl/workbook.xml',
      `<workbook xmlns="${MAIN}" xmlns:r="${LINKS}"><sheets>${list.join('')}</sheets></workbook>`,
    ],
    [
      'xl/_rels/workbook.xml.rels',
      `<Relationships xmlns="${PACKAGE}">${links.join('')}${link('s', 'styles', 'styles.xml')}</Relationships>`,
    ],
    [
      'xl/styles.xml',
      `<styleSheet xmlns="${MAIN}"><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="20"/><xf numFmtId="22"/></cellXfs></styleSheet>`,
    ],
    ...sheets.map((xml, i): [string, string] => [`xl/worksheets/sheet${i}.xml`, xml]),
  ];
  return zipStored(parts.map(([name, xml]) => ({ name, content: Buffer.from(HEAD + xml) })));
}

/** A sheet of rows given as XML. */
export function sheetXml(rows: string): string {
  return `<worksheet xmlns="${MAIN}"><sheetData>${rows}</sheetData></worksheet>`;
}

function rowXml(cells: readonly StoredCell[], row: number): string {
  if (cells.length === 0) return '';
  const xml = cells.map((cell, column) => cellXml(cell, `${letters(column)}${row + 1}`));
  return `<row r="${row + 1}">${xml.join('')}</row>`;
}

function cellXml(cell: StoredCell, at: string): string {
  if (cell === null) return '';
  if (typeof cell === 'string') {
    return `<c r="${at}" t="inlineStr"><is><t xml:space="preserve">${escaped(cell)}</t></is></c>`;
  }
  if (typeof cell === 'number') return `<c r="${at}"><v>${cell}</v></c>`;
  if (typeof cell === 'boolean') return `<c r="${at}" t="b"><v>${cell ? 1 : 0}</v></c>`;
  if ('serial' in cell) {
    return `<c r="${at}" s="${STYLES.indexOf(cell.style)}"><v>${cell.serial}</v></c>`;
  }
  return `<c r="${at}" t="str"><f>${escaped(cell.formula)}</f><v>${escaped(cell.value)}</v></c>`;
}

function letters(column: number): string {
  const last = String.fromCharCode(65 + (column % 26));
  return column < 26 ? last : letters(Math.floor(column / 26) - 1) + last;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
