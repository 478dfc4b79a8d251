import { describe, expect, test } from 'vitest';
import { breakChance, expectedRate, hookupLogit } from '../../data-samples/make/chances.ts';
import { SEASONS } from '../../data-samples/make/seasons.ts';
import {
  type Cells,
  clockMinute,
  dayOf,
  gearOf,
  type JoinedBite,
  minuteOfTrip,
  reachOf,
  readSample,
} from './read-season.ts';

// What was drawn must look like what it was drawn from: each figure of the CSV files lies within 4
// standard errors of its truth, trips being the unit that varies.
const STANDARD_ERRORS = 4;

describe.each(Object.keys(SEASONS))('the season of %s', (folder) => {
  const season = readSample(folder);
  const { world } = season;

  test('bites on each reach as often as it should, given how often its trips bit', () => {
    const { bites, expected } = bitesAndExpectation(season);
    for (const reach of Object.keys(world.reaches)) {
      const residuals = [...expected].map(([trip, byReach]) => {
        const drawn = bites.get(trip) ?? new Map<string, number>();
        const share = (byReach.get(reach) ?? 0) / total(byReach);
        return (drawn.get(reach) ?? 0) - total(drawn) * share;
      });
      expectBalanced(residuals, `bites on ${reach}`);
    }
  });

  test.each(['hook_size', 'line_type', 'leader_lb', 'bait', 'reach'] as const)(
    'hooks as many as it should at each %s',
    (factor) => {
      const known = season.bites.flatMap((bite) => {
        const gear = gearOf(bite);
        return gear === null ? [] : [{ bite, gear }];
      });
      for (const level of new Set(known.map(({ gear }) => gear[factor]))) {
        const residuals = known
          .filter(({ gear }) => gear[factor] === level)
          .map(({ bite, gear }) => ({
            trip: bite.trip.trip_id ?? '',
            value:
              Number(bite.hooked) -
              meanChance(hookupLogit(world, dayOf(world, bite.trip), gear), world.hookup.day_sd),
          }));
        expectBalanced(byTrip(residuals), `${factor} ${level}`);
      }
    },
  );

  test('bites as often as it should in all, wild days included', () => {
    const { bites, expected } = bitesAndExpectation(season);
    const residuals = [...expected].map(
      ([trip, byReach]) => total(bites.get(trip) ?? new Map()) - total(byReach),
    );
    expectBalanced(residuals, 'bites');
  });

  test.each(Object.keys(world.line_types))(
    'breaks %s as often and as late as it should',
    (type) => {
      const fights = season.bites.flatMap(({ spool, fight, cells }) =>
        spool.line_type === type && fight !== null
          ? [{ fight, broke: cells.lost_to === 'line_broke' }]
          : [],
      );
      // Once for how many, once for whether old line breaks more than young, as far as it should.
      for (const weight of [() => 1, (fight: number) => Math.log(fight / 15)]) {
        const parts = fights.map(({ fight, broke }) => {
          const chance = breakChance(world, type, fight);
          const distance = weight(fight) * (Number(broke) - chance);
          return { distance, variance: weight(fight) ** 2 * chance * (1 - chance) };
        });
        const distance = parts.reduce((sum, part) => sum + part.distance, 0);
        const variance = parts.reduce((sum, part) => sum + part.variance, 0);
        expect(Math.abs(distance)).toBeLessThanOrEqual(STANDARD_ERRORS * Math.sqrt(variance));
      }
    },
  );

  test('fights as long as the species and the line say', () => {
    for (const [species, truth] of Object.entries(world.species)) {
      const logs = season.bites
        .filter(({ cells }) => ['released', 'kept'].includes(cells.outcome ?? ''))
        .filter(({ cells }) => cells.species === species && cells.fight_min !== '')
        .map(({ cells, spool }) => {
          const usual = world.line_types[spool.line_type ?? '']?.fight ?? Number.NaN;
          return Math.log(Number(cells.fight_min) / (truth.fight_min_median * usual));
        });
      const mean = logs.reduce((sum, log) => sum + log, 0) / logs.length;
      const error = world.handling.fight_log_sd / Math.sqrt(logs.length);
      expect(Math.abs(mean), species).toBeLessThanOrEqual(STANDARD_ERRORS * error);
    }
  });

  test('hooks fish where circle hooks hook them, and lets them go as it should', () => {
    const { hooked_in, tired_per_fight_min, bleeding, dead } = world.handling;
    const placed = season.bites.filter(({ cells }) => cells.hooked_in !== '');
    expectShare(placed, ({ cells }) => cells.hooked_in === 'mouth', hooked_in.mouth);
    expectShare(placed, ({ cells }) => cells.hooked_in === 'foul', hooked_in.foul);
    const brief = placed.filter(
      ({ cells }) => cells.drop_back_s !== '' && Number(cells.drop_back_s) <= 15,
    );
    expectShare(brief, ({ cells }) => cells.hooked_in === 'deep', hooked_in.deep);
    const freed = placed.filter(
      ({ cells }) => cells.outcome === 'released' && cells.hooked_in !== 'deep',
    );
    expectShare(freed, ({ cells }) => cells.release_condition === 'dead', dead.elsewhere);
    const alive = freed.filter(({ cells }) => cells.release_condition !== 'dead');
    expectShare(alive, ({ cells }) => cells.release_condition === 'bleeding', bleeding.elsewhere);
    const unhurt = alive.filter(
      ({ cells }) => cells.release_condition !== 'bleeding' && cells.fight_min !== '',
    );
    const tired = unhurt.map(
      ({ cells }) =>
        Number(cells.release_condition === 'tired') -
        Math.min(0.9, tired_per_fight_min * Number(cells.fight_min)),
    );
    expectBalanced(tired, 'tired');
  });

  test('loses bait in the well as it should', () => {
    for (const [bait, { dies }] of Object.entries(world.baits)) {
      const rows = season.baitBuys.filter((row) => row.bait === bait);
      const residuals = rows.map((row) => Number(row.died) - dies * Number(row.count));
      expectBalanced(residuals, bait);
    }
  });
});

/** A sum of independent parts that should balance out at 0 is within 4 of its standard errors. */
function expectBalanced(residuals: readonly number[], what: string): void {
  const sum = residuals.reduce((total, value) => total + value, 0);
  const error = Math.sqrt(residuals.reduce((total, value) => total + value * value, 0));
  expect(Math.abs(sum), what).toBeLessThanOrEqual(STANDARD_ERRORS * error);
}

function expectShare(
  bites: readonly JoinedBite[],
  is: (bite: JoinedBite) => boolean,
  truth: number,
): void {
  const error = Math.sqrt((truth * (1 - truth)) / bites.length);
  const drawn = bites.filter(is).length / bites.length;
  expect(Math.abs(drawn - truth), is.toString()).toBeLessThanOrEqual(STANDARD_ERRORS * error);
}

function byTrip(residuals: readonly { trip: string; value: number }[]): number[] {
  const sums = new Map<string, number>();
  for (const { trip, value } of residuals) sums.set(trip, (sums.get(trip) ?? 0) + value);
  return [...sums.values()];
}

/**
 * The mean of a chance whose logit varies normally from day to day. Source: Zeger, Liang & Albert
 * 1988, Biometrics 44:1049 (formula from memory): the logit shrinks by 1/√(1 + 0.346 sd²).
 */
function meanChance(logit: number, sd: number): number {
  return 1 / (1 + Math.exp(-logit / Math.sqrt(1 + 0.346 * sd * sd)));
}

type ByTripAndReach = Map<string, Map<string, number>>;

/** Bites that met a soak, and what the truth expects of the minutes up to the bite or the end. */
function bitesAndExpectation(season: ReturnType<typeof readSample>): {
  bites: ByTripAndReach;
  expected: ByTripAndReach;
} {
  const tripOf = new Map(season.trips.map((trip) => [trip.trip_id, trip]));
  const bitten = new Map(season.bites.map((bite) => [bite.soak, bite.cells]));
  const bites: ByTripAndReach = new Map();
  const expected: ByTripAndReach = new Map();
  for (const soak of season.soaks.filter(({ time_in }) => time_in !== '')) {
    const trip = tripOf.get(soak.trip_id) as Cells;
    const reach = reachOf(soak.position ?? '');
    const day = { ...dayOf(season.world, trip) };
    if (Number.isNaN(day.weather.current_kn)) continue;
    const bite = bitten.get(soak);
    const from = minuteOfTrip(soak.time_in ?? '', trip);
    const length = span(soak.time_in, bite?.time ?? soak.time_out);
    for (let minute = from + 1; minute <= from + length; minute++) {
      const rate = expectedRate(season.world, day, { reach, bait: soak.bait ?? '', minute });
      add(expected, [soak.trip_id ?? '', reach], rate / 60);
    }
    if (bite !== undefined) add(bites, [soak.trip_id ?? '', reach], 1);
  }
  return { bites, expected };
}

const total = (row: ReadonlyMap<string, number>) =>
  [...row.values()].reduce((sum, value) => sum + value, 0);
const span = (from = '', to = '') => (clockMinute(to) - clockMinute(from) + 1440) % 1440;

function add(table: ByTripAndReach, [trip, reach]: [string, string], value: number): void {
  const row = table.get(trip) ?? new Map<string, number>();
  table.set(trip, row.set(reach, (row.get(reach) ?? 0) + value));
}
