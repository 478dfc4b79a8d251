// Draws the demo seasons and writes them beside this folder: `npx tsx data-samples/make/make-season.ts`.
import { mkdir, writeFile } from 'node:fs/promises';
import { drawSeason } from './draw-season.ts';
import { SEASONS } from './seasons.ts';

for (const [folder, world] of Object.entries(SEASONS)) {
  const out = new URL(`../${folder}/`, import.meta.url);
  await mkdir(out, { recursive: true });
  for (const [file, text] of Object.entries(drawSeason(world)))
    await writeFile(new URL(file, out), text);
}
