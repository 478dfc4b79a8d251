// Shares the neighbours' logs into packages: `npx tsx data-samples/make/make-packages.ts`.
// Each log is shared from a copy with a key of its own that everybody may know, so that the packages
// come out the same each time. A real key is drawn at random and never shown.
import { createHash } from 'node:crypto';
import { cp, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run } from '../../src/cli.ts';
import { terminalEffects } from '../../src/commands/effects.ts';
import { PRIVATE_FOLDER } from '../../src/share/private-folder.ts';
import { EMPTY_LEDGER } from '../../src/share/release-ledger.ts';

/** The logs that left as packages, each with its only boat's consent. */
export const PACKAGED = ['linnet-quay', 'sable-roads'] as const;

/** Shares one sample log into a folder; the log itself is not touched. */
export async function makePackage(name: (typeof PACKAGED)[number], out: string): Promise<void> {
  const scratch = await mkdtemp(join(tmpdir(), 'package-'));
  const log = join(scratch, name);
  const source = fileURLToPath(new URL(`../${name}/`, import.meta.url));
  await cp(source, log, { recursive: true, filter: (path) => !path.includes(PRIVATE_FOLDER) });
  await mkdir(join(log, PRIVATE_FOLDER));
  const ledger = JSON.stringify(EMPTY_LEDGER);
  await writeFile(join(log, PRIVATE_FOLDER, 'ledger.json'), ledger);
  const key = createHash('sha256').update(`demo key of ${name}`).digest('hex');
  await writeFile(join(log, PRIVATE_FOLDER, 'key'), `${key}\n`);
  const words = ['share', log, '--out', out, '--consent', '--licence', 'CC-BY-4.0'];
  const exitCode = await run(words, {
    ...terminalEffects(),
    out: () => undefined,
    err: () => undefined,
  });
  await rm(scratch, { recursive: true });
  if (exitCode !== 0) throw new Error(`${name} was not shared.`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const name of PACKAGED) {
    await makePackage(name, fileURLToPath(new URL(`../packages/${name}`, import.meta.url)));
  }
}
