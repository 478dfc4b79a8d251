import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Cover } from './coverage-count.ts';
import { coverIndex } from './coverage-index.ts';
import { coverDifferences, coverRatios } from './coverage-lenses.ts';
import { type CoverLine, linesFromCsv, linesToCsv } from './coverage-lines.ts';
import { coverPlain } from './coverage-plain.ts';
import { coverageText } from './coverage-text.ts';
import { BITES_PER_TRIP, SETTINGS, TRIPS } from './coverage-worlds.ts';
import type { World } from './line-world.ts';

// npm run coverage-study [-- plain differences ratios index continue]: draws the seasons again, all
// or the parts named, and writes coverage-<part>.csv and coverage.md. All of it takes an hour or so;
// `continue` keeps what an earlier run had got to.

const FIRST_SEED = 20_261_125;

interface Part {
  readonly name: string;
  readonly cover: (
    world: World,
    how: { readonly runs: number; readonly seed: number },
  ) => ReadonlyMap<string, Cover>;
  /** Seasons drawn for a row of the table, by trips: small logs are for information. */
  readonly runs: (trips: number) => number;
}

const PARTS: readonly Part[] = [
  { name: 'plain', cover: coverPlain, runs: () => 5000 },
  { name: 'differences', cover: coverDifferences, runs: (trips) => (trips < 30 ? 500 : 1000) },
  { name: 'ratios', cover: coverRatios, runs: (trips) => (trips < 30 ? 500 : 1000) },
  { name: 'index', cover: coverIndex, runs: (trips) => (trips < 30 ? 300 : 500) },
];

const fileOf = (part: Part) => join(import.meta.dirname, `coverage-${part.name}.csv`);

function linesOf(part: Part): CoverLine[] {
  return existsSync(fileOf(part)) ? linesFromCsv(readFileSync(fileOf(part), 'utf8')) : [];
}

/** Draws what is not among the lines yet; writes after each kind of season, so little is lost. */
function draw(part: Part, place: number, done: CoverLine[]): void {
  const cells = SETTINGS.flatMap(({ name, world }) =>
    BITES_PER_TRIP.flatMap((bitesPerTrip) =>
      TRIPS.map((trips) => ({ setting: name, bitesPerTrip, trips, world })),
    ),
  );
  for (const [at, { world, ...cell }] of cells.entries()) {
    const seed = FIRST_SEED + 1000 * place + 2 * at;
    if (done.some((line) => line.seed === seed)) continue;
    const how = { runs: part.runs(cell.trips), seed };
    const covers = part.cover({ ...world, ...cell }, how);
    for (const [figure, cover] of covers) done.push({ figure, ...cell, seed, ...cover });
    writeFileSync(fileOf(part), linesToCsv(done));
    console.log(part.name, cell.setting, cell.bitesPerTrip, cell.trips);
  }
}

const asked = process.argv.slice(2).filter((word) => word !== 'continue');
const isContinued = process.argv.includes('continue');
for (const [place, part] of PARTS.entries()) {
  if (asked.length > 0 && !asked.includes(part.name)) continue;
  draw(part, place, isContinued ? linesOf(part) : []);
}
const parts = PARTS.map((part) => ({ name: part.name, lines: linesOf(part) }));
writeFileSync(join(import.meta.dirname, 'coverage.md'), coverageText(parts, FIRST_SEED));
