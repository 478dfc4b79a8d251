import { EntrySection } from '../entry.tsx';
import { coverEntry } from './log-cover.ts';
import { recordedEntry } from './log-recorded.tsx';
import { filesEntry, repairsEntry, setAsideEntry } from './log-rows.ts';
import { unlocksEntry } from './log-unlocks.ts';
import type { PageContent } from './page-content.ts';
import type { ReportContext } from './report-context.ts';

/** Whether the log can be trusted: what became of its rows, and what they do not say. */
export function logPage(context: ReportContext): PageContent {
  const entries = [
    filesEntry(context),
    repairsEntry(context),
    setAsideEntry(context),
    recordedEntry(context),
    coverEntry(context),
    unlocksEntry(context),
  ];
  return {
    content: entries.map(({ entry }) => <EntrySection entry={entry} key={entry.id} />),
    files: entries.flatMap(({ files }) => files),
  };
}
