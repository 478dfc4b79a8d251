import type { ComponentChildren } from 'preact';
import type { TextFile } from '../new-files.ts';
import type { PageLink } from '../page-shell.tsx';

/** One page before its frame is put round it, with the files that lie beside it. */
export interface PageContent extends PageLink {
  readonly content: ComponentChildren;
  readonly files: readonly TextFile[];
}
