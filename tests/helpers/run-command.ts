import picocolors from 'picocolors';
import { run } from '../../src/cli.ts';

/** Runs a command line inside the test and gives back all that it printed. */
export async function runCommand(...words: readonly string[]) {
  let out = '';
  let err = '';
  const exitCode = await run(words, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    isTerminal: false,
    colours: picocolors.createColors(false),
  });
  return { exitCode, out, err };
}
