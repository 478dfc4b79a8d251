import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { baitLoad } from '../../src/decide/load-bait.ts';
import { loadByMonth } from '../../src/decide/load-by-month.ts';
import { loadCosts } from '../../src/decide/load-costs.ts';
import { baitsToBuy } from '../../src/decide/load-held.ts';
import { loadList } from '../../src/decide/load-list.ts';
import { loadSentence, shortWords } from '../../src/decide/load-sentence.ts';
import type { BaitTrip } from '../../src/estimate/bait-trips.ts';
import {
  type CountDistribution,
  countCdf,
  countQuantile,
} from '../../src/stats/count-distribution.ts';
import { loadOutcome } from '../../src/stats/newsvendor.ts';
import { tidySeason } from '../../src/tidy/tidy-season.ts';
import { makeLog } from '../helpers/make-log.ts';
import { baitSeason } from '../studies/bait-world.ts';

// One seed: a law that fails must fail again on the next run.
fc.configureGlobal({ seed: 1907 });

const COSTS = { bait_short: 14, bait_left: 2.5 };
const REQUEST = {
  only: {},
  from: null,
  to: null,
  nextTrips: 1,
  month: null,
  tank: null,
  budget: null,
  held: {},
};
const WORLD = {
  logged: 60,
  ahead: 0,
  habit: 1.4,
  baits: [
    { bait: 'mullet', mean: 4, size: 1.5 },
    { bait: 'scad', mean: 11, size: 6 },
  ],
};
const season = baitSeason(WORLD, 11).tidied(COSTS);

describe('the costs of bait', () => {
  const costs = { spool: {}, lost_fish: null };

  test('give the chance of having enough: 14 / (14 + 2.5) (Arrow, Harris & Marschak 1951)', () => {
    expect(loadCosts({ ...costs, ...COSTS })).toMatchObject({ ratio: 14 / 16.5 });
  });

  test('or the sentence that names what to add', () => {
    const none = loadCosts({ ...costs, bait_short: null, bait_left: null });
    expect(none).toContain('costs: bait_short');
    expect(none).toContain('costs: bait_left');
    expect(loadCosts({ ...costs, ...COSTS, bait_left: null })).not.toContain('bait_short');
    expect(loadCosts({ ...costs, ...COSTS, bait_left: 0 })).toContain('no load would be too large');
  });
});

describe('the load of one bait', () => {
  const trips = (used: readonly number[], ranOut: readonly boolean[] = []): BaitTrip[] =>
    used.map((count, at) => ({
      trip: {} as BaitTrip['trip'],
      deployed: count,
      died: 0,
      used: count,
      bought: count,
      ranOut: ranOut[at] ?? false,
    }));
  const costs = { shortCost: 14, leftCost: 2.5, ratio: 14 / 16.5 };

  test('is the smallest that is enough with the chance the costs ask for', () => {
    const { best, law } = baitLoad(
      { bait: 'scad', trips: trips([3, 9, 4, 7, 12, 0, 5]) },
      { nextTrips: 1, costs },
    );
    if (best === null || law === null) throw new Error('no load');
    expect(countCdf(law, best.load)).toBeGreaterThanOrEqual(costs.ratio);
    expect(countCdf(law, best.load - 1)).toBeLessThan(costs.ratio);
    for (const other of [best.load - 1, best.load + 1]) {
      expect(loadOutcome(law, other, costs).expectedCost).toBeGreaterThanOrEqual(best.expectedCost);
    }
  });

  test('grows with the trips ahead, and with wells that ran out', () => {
    const used = [3, 9, 4, 7, 12, 2, 5, 8];
    const load = (nextTrips: number, ranOut: readonly boolean[] = []) =>
      baitLoad({ bait: 'scad', trips: trips(used, ranOut) }, { nextTrips, costs }).best?.load ?? 0;
    expect(load(3)).toBeGreaterThan(2 * load(1));
    expect(load(1, [false, true, false, true])).toBeGreaterThan(load(1));
  });

  test('may be none, and says so when nothing was learned', () => {
    const never = baitLoad(
      { bait: 'mullet', trips: trips(new Array(40).fill(0)) },
      { nextTrips: 1, costs },
    );
    expect(never.best?.load).toBe(0);
    expect(baitLoad({ bait: 'mullet', trips: [] }, { nextTrips: 1, costs }).best).toBeNull();
    const dry = baitLoad(
      { bait: 'mullet', trips: trips([5, 6], [true, true]) },
      { nextTrips: 1, costs },
    );
    expect(dry.notes[0]).toContain('ran out');
    const few = baitLoad({ bait: 'mullet', trips: trips([5, 6]) }, { nextTrips: 1, costs });
    expect(few.notes[0]).toContain('taken as Poisson');
  });
});

describe('bait held from another day', () => {
  test('brute force: enough with survivors, and not with one bait fewer', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 25 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0.05, max: 0.97, noNaN: true }),
        (count, survival, chance) => {
          const law: CountDistribution = { family: 'negative-binomial', mean: 8, size: 3 };
          const buy = baitsToBuy(law, { count, survival }, chance);
          const enough = (bought: number) => {
            let sum = 0;
            let choose = 1;
            for (let alive = 0; alive <= count; alive++) {
              sum +=
                choose *
                survival ** alive *
                (1 - survival) ** (count - alive) *
                countCdf(law, bought + alive);
              choose = (choose * (count - alive)) / (alive + 1);
            }
            return sum;
          };
          expect(enough(buy)).toBeGreaterThanOrEqual(chance - 1e-9);
          if (buy > 0) expect(enough(buy - 1)).toBeLessThan(chance + 1e-9);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('all alive: as many fewer; none alive: as if there were none', () => {
    const law: CountDistribution = { family: 'poisson', mean: 9 };
    const load = countQuantile(law, 0.85);
    expect(baitsToBuy(law, { count: 4, survival: 1 }, 0.85)).toBe(load - 4);
    expect(baitsToBuy(law, { count: 4, survival: 0 }, 0.85)).toBe(load);
    expect(baitsToBuy(law, { count: 0, survival: 1 }, 0.85)).toBe(load);
    expect(baitsToBuy(law, { count: 40, survival: 1 }, 0.85)).toBe(0);
  });
});

describe('the list', () => {
  test('has every bait at its own best load where nothing limits it', () => {
    const list = loadList(season, REQUEST);
    expect(list.method).toBe('free');
    expect(list.lines.map(({ bait }) => bait)).toEqual(['mullet', 'scad']);
    for (const { load, best } of list.lines) expect(best).toMatchObject({ ...load });
    expect(list.total?.baits).toBe(
      list.lines.reduce((sum, { load }) => sum + (load?.load ?? 0), 0),
    );
  });

  test('brute force: within a well, no other sharing costs less', () => {
    const tank = 12;
    const { lines, method } = loadList(season, { ...REQUEST, tank });
    const costs = { shortCost: 14, leftCost: 2.5 };
    const cost = (loads: readonly number[]) =>
      lines.reduce((sum, { law }, at) => {
        if (law === null) throw new Error('no law');
        return sum + loadOutcome(law, loads[at] ?? 0, costs).expectedCost;
      }, 0);
    const got = lines.map(({ load }) => load?.load ?? Number.NaN);
    expect(method).toBe('exact');
    expect((got[0] ?? 0) + (got[1] ?? 0)).toBeLessThanOrEqual(tank);
    let least = Number.POSITIVE_INFINITY;
    for (let a = 0; a <= tank; a++)
      for (let b = 0; a + b <= tank; b++) least = Math.min(least, cost([a, b]));
    expect(cost(got)).toBeCloseTo(least, 10);
  });

  test('what is held is bought less of', () => {
    const [all] = loadList(season, REQUEST).lines;
    const [some] = loadList(season, { ...REQUEST, held: { mullet: 3 } }).lines;
    expect(all?.buy).toBe(all?.load?.load);
    expect(some?.buy).toBeLessThan(some?.load?.load ?? 0);
    expect(some?.buy).toBeGreaterThanOrEqual((some?.load?.load ?? 0) - 3);
  });

  test('by month it looks at the trips of that month only', () => {
    const months = loadByMonth(season, loadList(season, REQUEST));
    expect(months.map(({ month }) => month)).toEqual([1, 2, 3]);
    expect(months.map(({ trips }) => trips)).toEqual([31, 28, 1]);
    expect(months[2]?.list.lines[0]?.notes[0]).toContain('Only 1 trip');
    expect(loadList(season, { ...REQUEST, month: 7 }).refused).toContain('in that month');
  });

  test('without prices: the physical answer, and the two numbers to add', () => {
    const bare = baitSeason(WORLD, 11).tidied({ bait_short: null, bait_left: null });
    const list = loadList(bare, REQUEST);
    expect(list).toMatchObject({ costs: null, total: null, refused: null });
    expect(list.lines[0]?.enough.map(({ chance }) => chance)).toEqual([0.5, 0.8, 0.9, 0.95]);
    expect(list.notes.join(' ')).toContain('costs: bait_short');
    expect(loadSentence(list)).toMatch(
      /^To have enough of each on 8 of 10 trips, load for the next trip/,
    );
  });

  test('without prices a well or a purse cannot be shared out, and it says so', () => {
    const bare = baitSeason(WORLD, 11).tidied({ bait_short: null, bait_left: null });
    for (const limit of [{ tank: 2 }, { budget: 5 }]) {
      const { refused, lines } = loadList(bare, { ...REQUEST, ...limit });
      expect(refused).toMatch(/cannot be shared out without costs.*bait_short/);
      expect(lines).toEqual([]);
    }
  });

  test('the sentence promises no more than the least sure of the loads holds', () => {
    const list = loadList(season, REQUEST);
    const least = Math.min(...list.lines.map(({ load }) => load?.enoughProbability ?? 1));
    const [, told] = /enough (\d+) times in 100/.exec(loadSentence(list)) ?? [];
    expect(Number(told)).toBe(Math.floor(100 * least));
  });

  test('says what the log lacks', () => {
    const empty = { trips: [{ trip_id: 'T1', date: '2026-01-03' }] };
    expect(loadList(tidySeason(makeLog(empty)), REQUEST).refused).toContain('soaks.csv');
    const nameless = makeLog({ ...empty, soaks: [{ trip_id: 'T1', position: 'pitch' }] });
    expect(loadList(tidySeason(nameless), REQUEST).refused).toContain('names its bait');
    const unbought = makeLog({
      ...empty,
      settings: { costs: { spool: {}, lost_fish: null, ...COSTS } },
      soaks: [{ trip_id: 'T1', position: 'pitch', bait: 'scad' }],
    });
    expect(loadList(tidySeason(unbought), REQUEST).notes.join(' ')).toContain('bait-buys.csv');
  });
});

test('says how often a load falls short', () => {
  const words = ['hardly ever', '1 in 7', '4 in 10', 'nearly always'];
  expect([0.001, 0.142, 0.4, 1].map(shortWords)).toEqual(words);
});
