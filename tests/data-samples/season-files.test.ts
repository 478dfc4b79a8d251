import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { drawSeason } from '../../data-samples/make/draw-season.ts';
import { SEASONS } from '../../data-samples/make/seasons.ts';
import { LOG_FILES } from '../../src/base/files.ts';
import { COLUMNS_OF_FILE } from '../../src/read/columns-of-file.ts';
import { SAMPLES } from './read-season.ts';

describe.each(Object.entries(SEASONS))('the files of %s', (folder, world) => {
  test('are what the generator draws, byte for byte', () => {
    const drawn = drawSeason(world);
    // Whoever tries `share` on a sample gets a private folder in it.
    const files = readdirSync(join(SAMPLES, folder)).filter((name) => !name.startsWith('.'));
    expect(files.sort()).toEqual(Object.keys(drawn).sort());
    for (const [file, text] of Object.entries(drawn))
      expect(readFileSync(join(SAMPLES, folder, file), 'utf8') === text, file).toBe(true);
  });

  test('have every column under its own name', () => {
    for (const file of LOG_FILES) {
      const [header = ''] = readFileSync(join(SAMPLES, folder, file), 'utf8').split('\n');
      const known = COLUMNS_OF_FILE[file].map(({ name }) => name);
      expect(known, file).toEqual(expect.arrayContaining(header.split(',')));
    }
  });
});

test('another seed draws another season of the same size', () => {
  const [world] = Object.values(SEASONS);
  if (world === undefined) throw new Error('There is no season.');
  const [one, two] = [world, { ...world, seed: world.seed + 1 }].map(drawSeason);
  expect(two?.['bites.csv']).not.toBe(one?.['bites.csv']);
  expect(two?.['trips.csv']?.split('\n').length).toBe(one?.['trips.csv']?.split('\n').length);
});

test('all sample logs together stay small', () => {
  const sizes = Object.keys(SEASONS).flatMap((folder) =>
    readdirSync(join(SAMPLES, folder)).map((file) => statSync(join(SAMPLES, folder, file)).size),
  );
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(1_200_000);
});
