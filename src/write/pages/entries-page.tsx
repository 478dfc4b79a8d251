import { EntrySection } from '../entry.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import type { PageContent } from './page-content.ts';

/** A page that is a list of questions with their answers. */
export function entriesPage(entries: readonly EntryWithFiles[]): PageContent {
  return {
    content: entries.map(({ entry }) => <EntrySection entry={entry} key={entry.id} />),
    files: entries.flatMap(({ files }) => files),
  };
}
