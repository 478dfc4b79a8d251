import type { Settings } from '../settings/settings.ts';
import { foldWords, type WordColumn } from './fold-words.ts';
import { pointOutWords } from './near-words.ts';
import type { ReadTable } from './read-file.ts';
import type { BaitBuyRow, BiteRow, SoakRow, SpoolRow, TripRow } from './rows.ts';

/** The tables of a log whose words are to agree; null where the log has no such file. */
export interface WordTables {
  readonly trips: ReadTable<TripRow> | null;
  readonly soaks: ReadTable<SoakRow> | null;
  readonly bites: ReadTable<BiteRow> | null;
  readonly tallied: ReadTable<BiteRow> | null;
  readonly spools: ReadTable<SpoolRow> | null;
  readonly baitBuys: ReadTable<BaitBuyRow> | null;
}

/**
 * Lets the words of a log agree over all its files: one spelling where only case and spacing
 * differ; likely slips and words that the settings do not list pointed out.
 */
export function settleWords(tables: WordTables, settings: Settings): void {
  const { trips, soaks, bites, tallied, spools, baitBuys } = tables;
  const onLines = [soaks, bites, tallied];
  const { baits, species, line_types } = settings;
  settle('bait', [...onLines, baitBuys], Object.keys(baits));
  settle('species', [bites, tallied], Object.keys(species));
  settle('line_type', [...onLines, spools], Object.keys(line_types));
  for (const column of ['vessel', 'trip_kind', 'area', 'clarity', 'sky'])
    settle(column, [trips], []);
  settle('rod', [...onLines, spools], []);
  settle('hook_model', [soaks], []);
  settle('reason', [spools], []);
  settle('source', [baitBuys], []);
  settle('angler', [bites, tallied], null);
}

/** `listed` are the words of the settings; null for people, where near names are not slips (`Maria`, `Mario`). */
function settle(
  column: string,
  tables: readonly (ReadTable<TripRow | SoakRow | BiteRow | SpoolRow | BaitBuyRow> | null)[],
  listed: readonly string[] | null,
): void {
  const columns = tables.flatMap((table): WordColumn[] =>
    table === null ? [] : [{ rows: table.rows, column, ledger: table.ledger }],
  );
  const counts = foldWords(columns);
  if (listed !== null) pointOutWords(columns, counts, listed);
}
