/** What became of the row: used after a stated repair, used with a warning, or set aside. */
export type Effect = 'repaired' | 'warned' | 'set-aside';

/**
 * One thing the reader must know about one place in a log.
 * `line` is the physical line in the file (the header is usually line 1); null for a whole file.
 */
export interface Problem {
  readonly effect: Effect;
  /** Stable kebab-case name of the rule, e.g. `hook-size-respelt`. */
  readonly code: string;
  readonly file: string;
  readonly line: number | null;
  /** The contract's column name, or null when the whole row or file is meant. */
  readonly column: string | null;
  /** The offending text as it stood. */
  readonly received: string;
  /** What was found, in a sentence. */
  readonly text: string;
  /** What would mend it, in a sentence. */
  readonly remedy: string;
}

/**
 * A call, a setting or a log that cannot be used at all. The command prints the message and leaves
 * with the exit code: 2 for a wrong call or setting, 3 for a log that cannot be read, 4 for a share
 * stopped by its own scan.
 */
export class UserError extends Error {
  override readonly name = 'UserError';
  constructor(
    message: string,
    readonly exitCode: 2 | 3 | 4,
  ) {
    super(message);
  }
}
