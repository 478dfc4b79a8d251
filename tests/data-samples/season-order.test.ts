import { describe, expect, test } from 'vitest';
import { SEASONS } from '../../data-samples/make/seasons.ts';
import { type Cells, clockMinute, minuteOfTrip, readSample, spoolOn } from './read-season.ts';

describe.each(Object.keys(SEASONS))('the log of %s', (folder) => {
  const season = readSample(folder);
  const tripOf = new Map(season.trips.map((trip) => [trip.trip_id, trip]));

  test('numbers its trips in order of date and its bites in order of time', () => {
    expect(season.trips.length).toBe(
      season.world.months.reduce((sum, { trips }) => sum + trips, 0),
    );
    const dates = season.trips.map(({ date }) => date);
    expect(dates).toEqual([...dates].sort());
    for (const list of [season.trips.map((row) => row.trip_id), season.bites.map(biteId)])
      expect(list).toEqual([...new Set(list)].sort());
  });

  test('has every soak and bite inside its trip', () => {
    const outside = [...timesOfSoaks(season.soaks), ...timesOfBites(season.bites)].filter(
      ({ trip_id, time }) => {
        const trip = tripOf.get(trip_id);
        if (trip === undefined) return true;
        if (trip.lines_in === '' || time === '') return false;
        const minute = minuteOfTrip(time, trip);
        const [from, to] = [trip.lines_in, trip.lines_out].map((at) =>
          minuteOfTrip(at ?? '', trip),
        );
        return minute < (from as number) || minute > (to as number);
      },
    );
    expect(outside).toEqual([]);
  });

  test('never has two lines out of one position or one rod', () => {
    for (const column of ['position', 'rod']) {
      const last = new Map<string, number>();
      for (const soak of season.soaks.filter(({ time_in }) => time_in !== '')) {
        const trip = tripOf.get(soak.trip_id) as Cells;
        const key = `${soak.trip_id} ${soak[column]}`;
        expect(minuteOfTrip(soak.time_in ?? '', trip)).toBeGreaterThan(last.get(key) ?? -1);
        last.set(key, minuteOfTrip(soak.time_out ?? '', trip));
      }
    }
  });

  test('soaks no bait longer than 90 minutes, and none under 20 without a bite', () => {
    const bitten = new Set(season.bites.map(({ soak }) => soak));
    const lengths = season.soaks
      .filter((soak) => soak.time_in !== '' && !bitten.has(soak))
      .map(({ time_in, time_out }) => span(time_in, time_out));
    // A bite written down without its time or position meets no soak, and its soak looks unbitten.
    const unmet = season.bites.filter(({ soak }) => soak === null).length;
    const odd = lengths.filter((minutes) => minutes < 20 || minutes > 90).length;
    expect(odd).toBeLessThanOrEqual(unmet);
  });

  test('says of each bite only what its outcome allows', () => {
    for (const { cells, hooked } of season.bites) {
      expect(cells.lost_to !== '').toBe(cells.outcome === 'lost');
      expect(cells.release_condition !== '').toBe(cells.outcome === 'released');
      if (!hooked) expect([cells.fight_min, cells.hooked_in, cells.angler]).toEqual(['', '', '']);
      if (hooked) expect(cells.species).not.toBe('');
    }
  });

  test('fills every rod before its first trip, and mono before it is 30 trips old', () => {
    const ages = new Map<Cells, Set<string>>();
    for (const { rod = '', trip_id = '' } of season.soaks) {
      const spool = spoolOn(season.spools, rod, tripOf.get(trip_id)?.date ?? '');
      ages.set(spool, (ages.get(spool) ?? new Set()).add(trip_id));
    }
    for (const [spool, trips] of ages)
      if (spool.line_type === 'mono') expect(trips.size, JSON.stringify(spool)).toBeLessThan(30);
  });

  test('never fills a reel while a trip of the night before is still out', () => {
    const nights = acrossMidnight(season.trips);
    const mornings = new Set(nights.map(({ date = '' }) => dayAfter(date)));
    expect(season.spools.filter(({ date = '' }) => mornings.has(date))).toEqual([]);
  });

  test('buys at least what it uses', () => {
    const soakTrips = new Set(season.soaks.map(({ trip_id }) => trip_id));
    for (const trip of soakTrips) {
      const bought = sum(
        season.baitBuys.filter((row) => row.trip_id === trip),
        'count',
      );
      const died = sum(
        season.baitBuys.filter((row) => row.trip_id === trip),
        'died',
      );
      const used = sum(
        season.soaks.filter((row) => row.trip_id === trip),
        'baits_used',
      );
      expect(used, trip).toBeLessThanOrEqual(bought - died);
    }
  });
});

test('some trips of port-vellamy cross midnight', () => {
  expect(acrossMidnight(readSample('port-vellamy').trips).length).toBeGreaterThanOrEqual(5);
});

const acrossMidnight = (trips: readonly Cells[]) =>
  trips.filter((trip) => clockMinute(trip.lines_out ?? '') < clockMinute(trip.lines_in ?? ''));
const biteId = ({ cells }: { readonly cells: Cells }) => cells.bite_id;
const sum = (rows: readonly Cells[], column: string) =>
  rows.reduce((total, row) => total + Number(row[column]), 0);
const span = (from = '', to = '') => (clockMinute(to) - clockMinute(from) + 1440) % 1440;

function timesOfSoaks(soaks: readonly Cells[]): { trip_id: string; time: string }[] {
  return soaks.flatMap(({ trip_id = '', time_in = '', time_out = '' }) =>
    [time_in, time_out].map((time) => ({ trip_id, time })),
  );
}

function timesOfBites(bites: readonly { cells: Cells }[]): { trip_id: string; time: string }[] {
  return bites.map(({ cells: { trip_id = '', time = '' } }) => ({ trip_id, time }));
}

function dayAfter(date: string): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
}
