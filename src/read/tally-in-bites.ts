import { TALLY_FILE } from '../base/files.ts';
import { UserError } from '../base/problem.ts';
import type { Settings } from '../settings/settings.ts';
import { choiceKey } from './cell-choice.ts';
import { cleanText } from './clean-text.ts';
import type { FoundLog } from './find-files.ts';
import { HeaderReader } from './header-plan.ts';
import { openTable, type Table } from './open-table.ts';
import { OUTCOMES } from './rows.ts';

/** A sheet of counts is small; a larger file is written bite by bite. */
const MOST_BYTES = 5_000_000;
/** Rows looked at to see whether the columns hold counts. */
const MOST_ROWS = 50;

/**
 * Whether `bites.csv` is a tally sheet under the name of the bites: a count for each outcome across
 * and no column that says the outcome, or a count for each bait across where the settings know one of
 * them as a bait.
 */
export async function isTallyInBites(
  found: FoundLog['files'],
  settings: Settings,
): Promise<boolean> {
  const file = found.get('bites.csv');
  if (file === undefined || found.has(TALLY_FILE) || file.bytes > MOST_BYTES) return false;
  const own = settings.headers['bites.csv'] ?? {};
  try {
    const table = await openTable(file, new HeaderReader(TALLY_FILE, { own }));
    if (table === null) return false;
    const counts = countColumns(table, new HeaderReader('bites.csv', { own }), settings);
    return counts.length > 0 && (await holdCounts(table, counts));
  } catch (error) {
    // What is wrong with the file is said when it is read.
    if (error instanceof UserError) return false;
    throw error;
  }
}

/** The columns that would be counts if the file were a tally sheet; none where it cannot be one. */
function countColumns({ plan }: Table, bites: HeaderReader, settings: Settings): number[] {
  const { indexOf, columns } = plan;
  if (!indexOf.has('outcome')) {
    return OUTCOMES.flatMap((outcome) => indexOf.get(outcome) ?? []);
  }
  const strange = columns.flatMap(({ header, meaning }, index) =>
    meaning === null && header !== '' ? [{ header, index }] : [],
  );
  const isWritten =
    indexOf.has('count') ||
    indexOf.has('bait') ||
    strange.some(({ header }) => bites.meaningOf(header) !== null);
  const known = baitWords(settings);
  const isOfBaits = strange.some(({ header }) => known.has(choiceKey(cleanText(header))));
  return isWritten || !isOfBaits ? [] : strange.map(({ index }) => index);
}

function baitWords({ baits }: Settings): Set<string> {
  return new Set([...Object.keys(baits), ...Object.values(baits).flat()].map(choiceKey));
}

async function holdCounts(table: Table, columns: readonly number[]): Promise<boolean> {
  for await (const batch of table.records(() => false)) {
    const cells = batch
      .slice(0, MOST_ROWS)
      .flatMap((record) => columns.map((index) => (record.cells[index] ?? '').trim()))
      .filter((text) => text !== '');
    return cells.length > 0 && cells.filter((text) => /^\d+$/.test(text)).length * 2 > cells.length;
  }
  return false;
}
