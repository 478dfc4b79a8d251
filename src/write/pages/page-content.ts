import type { ComponentChildren } from 'preact';
import type { TextFile } from '../new-files.ts';

/** One page before its frame is put round it, with the files that lie beside it. */
export interface PageContent {
  readonly content: ComponentChildren;
  readonly files: readonly TextFile[];
}
