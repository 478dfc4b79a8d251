import { EntrySection } from '../entry.tsx';
import type { PageLink } from '../page-shell.tsx';
import type { EntryWithFiles } from './level-entry.ts';
import type { PageContent } from './page-content.ts';

/** A page that is a list of questions with their answers. */
export function entriesPage(link: PageLink, entries: readonly EntryWithFiles[]): PageContent {
  return {
    ...link,
    content: entries.map(({ entry }) => <EntrySection entry={entry} key={entry.id} />),
    files: entries.flatMap(({ files }) => files),
  };
}
