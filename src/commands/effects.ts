import picocolors from 'picocolors';

/** What a command may do to the terminal; tests pass their own. */
export interface Effects {
  /** Text for standard output. */
  out(text: string): void;
  /** Progress and warnings, for standard error. */
  err(text: string): void;
  /** Whether somebody is watching standard error. */
  readonly isTerminal: boolean;
  readonly colours: ReturnType<typeof picocolors.createColors>;
}

/** The process's own terminal; colour only there, and never against NO_COLOR. */
export function terminalEffects(): Effects {
  for (const stream of [process.stdout, process.stderr]) stream.on('error', leaveQuietly);
  const mayColour = process.stdout.isTTY === true && !process.env.NO_COLOR;
  return {
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    isTerminal: process.stderr.isTTY === true,
    colours: picocolors.createColors(mayColour),
  };
}

/** The reader of a pipe may leave before the end (`| head`); what is still to come is for nobody. */
function leaveQuietly(error: NodeJS.ErrnoException): void {
  if (error.code !== 'EPIPE') throw error;
}

/** Exit code of a command: 0 done; 1 done, but rows were set aside or an answer was refused. */
export type ExitCode = 0 | 1;

/** Says what is being done once it has taken a second, on a terminal only. */
export async function withProgress<Result>(
  effects: Pick<Effects, 'err' | 'isTerminal'>,
  words: string,
  work: () => Promise<Result>,
): Promise<Result> {
  if (!effects.isTerminal) return work();
  let seconds = 0;
  const timer = setInterval(() => {
    seconds += 1;
    effects.err(`\r${words} … ${seconds} s`);
  }, 1000);
  try {
    return await work();
  } finally {
    clearInterval(timer);
    if (seconds > 0) effects.err('\r\u001b[K');
  }
}
