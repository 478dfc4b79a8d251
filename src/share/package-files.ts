import { catchTable, effortTable } from './cell-rows.ts';
import { descriptorFile } from './descriptor.ts';
import { DISCLOSURE_PAGE, disclosurePage } from './disclosure-page.tsx';
import { disclosureRecord } from './disclosure-record.ts';
import type { SharedPackage } from './shared-package.ts';
import { ratesTable } from './shared-rates.ts';
import { checksum, type SharedFile, type SharedTable, tableFile } from './table-schema.ts';
import { totalsTable } from './total-rows.ts';
import { tripCatchTable, tripsTable } from './trip-rows.ts';

const DISCLOSURE_RECORD = 'disclosure.json';

/** Every file of a package: its tables, the disclosure report, and the descriptor of them all. */
export function packageFiles(shared: SharedPackage, release: number): SharedFile[] {
  const { main, tables } = tablesOf(shared);
  const names = [
    'datapackage.json',
    ...tables.map((file) => file.name),
    DISCLOSURE_PAGE,
    DISCLOSURE_RECORD,
  ];
  const page = main((table) => disclosurePage(shared, table, names));
  const text = `${JSON.stringify(disclosureRecord(shared, names), null, 2)}\n`;
  const record: SharedFile = {
    name: DISCLOSURE_RECORD,
    text,
    resource: {
      name: 'disclosure',
      path: DISCLOSURE_RECORD,
      title: 'Disclosure report for machines',
      format: 'json',
      mediatype: 'application/json',
      encoding: 'utf-8',
    },
  };
  const files = [...tables, withChecksum(page), withChecksum(record)];
  return [descriptorFile(shared, files, release), ...files];
}

/** The tables as files; `main` hands on the one whose rows the report shows. */
function tablesOf({ content, rates }: SharedPackage) {
  const rateFiles = rates.length === 0 ? [] : [tableFile(ratesTable(rates))];
  if (content.tier === 'trips') {
    const trips = tripsTable(content.rows);
    const tables = [tableFile(trips), tableFile(tripCatchTable(content.rows)), ...rateFiles];
    return { main: handOn(trips), tables };
  }
  const effort = effortTable(content.rows);
  const totals = content.totals.length === 0 ? [] : [tableFile(totalsTable(content.totals))];
  const tables = [tableFile(effort), tableFile(catchTable(content.rows)), ...totals, ...rateFiles];
  return { main: handOn(effort), tables };
}

function handOn<Row>(table: SharedTable<Row>) {
  return (use: <R>(table: SharedTable<R>) => SharedFile): SharedFile => use(table);
}

function withChecksum(file: SharedFile): SharedFile {
  return { ...file, resource: { ...file.resource, hash: checksum(file.text) } };
}
