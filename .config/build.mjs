// Bundles the command and the library into .dist, so that a run loads a few files instead of several
// hundred. Whole packages that are already single files stay outside the bundle.
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
  external: ['arquero', 'vega', 'vega-lite', 'csv-parse', 'simple-statistics', 'commander', 'yaml', 'valibot', 'preact', 'preact-render-to-string', 'ml-matrix', 'pure-rand', 'suncalc', 'temporal-polyfill', 'picocolors', 'fastest-levenshtein'],
  legalComments: 'none',
  logLevel: 'warning',
});
