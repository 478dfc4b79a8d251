import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';

/** Every file of a folder by name, as text. */
export function filesOf(folder: string): Record<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  return Object.fromEntries(names.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));
}

/** Rows of a CSV of a package, numbers as numbers, empty cells as null. */
export function rowsOf(folder: string, table: string): Record<string, string | number | null>[] {
  const text = readFileSync(join(folder, `${table}.csv`), 'utf8');
  const rows: Record<string, string>[] = parse(text, { columns: true });
  return rows.map((row) =>
    Object.fromEntries(
      Object.entries(row).map(([name, cell]) => {
        const isCode = name === 'cwp_cell' || name === 'trip' || name === 'vessel';
        if (cell === '') return [name, null];
        return [name, !isCode && /^-?[\d.]+$/.test(cell) ? Number(cell) : cell];
      }),
    ),
  );
}
