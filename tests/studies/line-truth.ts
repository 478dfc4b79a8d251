import { Random } from '../../src/stats/random.ts';
import type { TallyRow } from '../../src/tally/tallies.ts';
import { biteRate, hookupShare } from './line-chances.ts';
import { drawTrip, WIND } from './line-trips.ts';
import type { Rig, World } from './line-world.ts';

/** What all lines, or those of one kind, come to in the long run of trips. */
export interface LongRun {
  /** Hooked / bites. */
  readonly hookupRate: number;
  readonly bitesPerLineHour: number;
}

/** Totals over every way a line may be rigged, by how often it is. */
export function longRun(world: World, isMeant: (rig: Rig) => boolean = () => true): LongRun {
  let [hours, bites, hooked] = [0, 0, 0];
  for (const { rig, share } of everyRig(world)) {
    if (!isMeant(rig)) continue;
    hours += share;
    bites += share * biteRate(world, rig);
    hooked += share * biteRate(world, rig) * hookupShare(world, rig);
  }
  return { hookupRate: hooked / bites, bitesPerLineHour: bites / hours };
}

function everyRig(world: World): readonly { readonly rig: Rig; readonly share: number }[] {
  const reaches = Object.keys(world.reaches) as Rig['reach'][];
  const fixed = world.months.flatMap((_, month) =>
    reaches.flatMap((reach) =>
      Object.keys(world.baits).flatMap((bait) =>
        [true, false].map((windy) => ({ month, reach, bait, windy })),
      ),
    ),
  );
  return fixed.flatMap((rig) => {
    const chance = world.braidChance(rig);
    return [
      { rig: { ...rig, braid: true }, share: chance },
      { rig: { ...rig, braid: false }, share: 1 - chance },
    ];
  });
}

const TRIPS = 20_000;

/**
 * The same-day difference in the long run: what Mantel and Haenszel's weights come to over very many
 * trips. Their hookups are put at what is expected, which leaves an error of about 0.002.
 */
export function sameDayInTheLongRun(world: World, seed: number): number {
  const random = new Random(seed);
  let [gain, weights] = [0, 0];
  for (let at = 0; at < TRIPS; at++) {
    const { lines } = drawTrip({ ...world, monthsDrawn: true }, at, random);
    let [a, n1, b, n0] = [0, 0, 0, 0];
    for (const { rig, bites, expectedHooked } of lines) {
      if (rig.braid) [a, n1] = [a + expectedHooked, n1 + bites];
      else [b, n0] = [b + expectedHooked, n0 + bites];
    }
    if (n1 === 0 || n0 === 0) continue;
    gain += (a * n0 - b * n1) / (n1 + n0);
    weights += (n1 * n0) / (n1 + n0);
  }
  return gain / weights;
}

/** The difference with every bite of these tallies set to braid, then to mono: their mix as it is. */
export function onMixOf(world: World, rows: readonly TallyRow[]): number {
  let [gain, bites] = [0, 0];
  for (const row of rows) {
    const rig = {
      month: Number(row.month?.slice(-2)) - 1,
      windy: row.wind_band === String(WIND.windy.force),
      reach: row.reach as Rig['reach'],
      bait: row.bait ?? '',
    };
    const braid = hookupShare(world, { ...rig, braid: true });
    gain += row.bites * (braid - hookupShare(world, { ...rig, braid: false }));
    bites += row.bites;
  }
  return gain / bites;
}

export const isBraid = (rig: Rig): boolean => rig.braid;
export const isMono = (rig: Rig): boolean => !rig.braid;
