// Bundles the command and the library into .dist, so that a run loads a few files instead of several
// hundred. The charting packages stay outside: only the drawing thread loads them.
import { rm } from 'node:fs/promises';
import { build } from 'esbuild';

const outdir = new URL('../.dist', import.meta.url).pathname;
await rm(outdir, { recursive: true, force: true });
await build({
  entryPoints: ['src/cli.ts', 'src/index.ts', 'src/draw/drawing-thread.ts'].map((p) => new URL(`../${p}`, import.meta.url).pathname),
  outdir,
  entryNames: '[name]',
  bundle: true,
  splitting: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  banner: { js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);" },
  packages: 'bundle',
  external: ['vega', 'vega-lite'],
  legalComments: 'none',
  logLevel: 'warning',
});
