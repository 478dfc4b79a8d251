import { describe, expect, test } from 'vitest';
import { substitutes } from '../../src/decide/substitute-bait.ts';
import { Random } from '../../src/stats/random.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { clock, makeLog } from '../helpers/make-log.ts';

// On the long lines scad is caught four times as often as mullet and herring; on the short ones all
// bite alike. Herring was out there on three trips only.
const ALL = { only: {}, from: null, to: null, level: 0.95, seed: 1 };
const RATES: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  'port-long': { scad: 4, mullet: 1, herring: 1 },
  'port-short': { scad: 2, mullet: 2 },
};
const season = tidySeason(log());

function log() {
  const random = new Random(5);
  const trips = Array.from({ length: 40 }, (_, at) => ({
    trip_id: `T${at}`,
    date: new Date(Date.UTC(2026, 0, 1 + at)).toISOString().slice(0, 10),
  }));
  const soaks = [];
  const bites = [];
  for (const { trip_id } of trips) {
    const at = Number(trip_id.slice(1));
    for (const [position, baits] of Object.entries(RATES)) {
      for (const [i, [bait, rate]] of Object.entries(baits).entries()) {
        if (bait === 'herring' && at > 2) continue;
        const from = clock('6:00') + 120 * i;
        soaks.push({ trip_id, position, bait, time_in: from, time_out: from + 119 });
        for (let fish = random.poisson(rate); fish > 0; fish--) {
          bites.push({ trip_id, position, bait, outcome: 'released' as const, time: from + 60 });
        }
      }
    }
  }
  return makeLog({ trips, soaks, bites });
}

function on(reach: string, missing: readonly string[] = []) {
  const found = substitutes(season, ALL, missing).find((one) => one.reach === reach);
  if (found === undefined) throw new Error(`nothing on ${reach}`);
  return { ...found, order: found.ranking.levels.map(({ raw }) => raw.by.bait) };
}

describe('no scad today: what instead, and where?', () => {
  test('names the best alone where the log can tell', () => {
    expect(on('long').order).toEqual(['scad', 'mullet']);
    expect(on('long').sentence).toMatch(/^On the long lines: scad, .* caught\.$/);
  });

  test('leaves out what is not to be had, and what was hardly ever tried there', () => {
    expect(on('long', ['scad']).sentence).toBe(
      'On the long lines: mullet, the only one that was fished enough.',
    );
    expect(on('long', ['scad', 'mullet']).sentence).toContain('no bait was fished enough');
  });

  test('does not choose where the log cannot tell', () => {
    const { sentence } = on('short');
    expect(sentence).toMatch(/cannot tell them apart|too close to call/);
  });
});
