// Bundles the command and the library into .dist, so that a run loads a few files instead of several
// hundred. Where no source is newer than the bundle, there is nothing to do.
import { readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';

const root = new URL('..', import.meta.url).pathname;
const outdir = join(root, '.dist');
const entries = ['src/cli.ts', 'src/index.ts', 'src/draw/drawing-thread.ts'];
const bundled = entries.map((entry) => join(outdir, entry.replace(/.*\/(.*)\.ts$/, '$1.js')));

if ((await lastWritten()) >= (await oldest(bundled))) await bundle();

/** When any source, or what it is built with, was last written or taken away; a folder tells the latter. */
async function lastWritten() {
  const inside = await readdir(join(root, 'src'), { recursive: true });
  const paths = ['src', ...inside.map((path) => join('src', path)), 'package-lock.json', '.config/build.mjs'];
  const times = await Promise.all(paths.map(async (path) => (await stat(join(root, path))).mtimeMs));
  return Math.max(...times);
}

/** When the oldest of these files was written; minus infinity where one is missing. */
async function oldest(files) {
  const times = await Promise.all(
    files.map((file) => stat(file).then(({ mtimeMs }) => mtimeMs, () => Number.NEGATIVE_INFINITY)),
  );
  return Math.min(...times);
}

async function bundle() {
  const { build } = await import('esbuild');
  await rm(outdir, { recursive: true, force: true });
  await build({
    entryPoints: entries.map((entry) => join(root, entry)),
    outdir,
    entryNames: '[name]',
    bundle: true,
    splitting: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    banner: {
      js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
    },
    packages: 'bundle',
    legalComments: 'none',
    logLevel: 'warning',
  });
}
