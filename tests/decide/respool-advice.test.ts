import { describe, expect, test } from 'vitest';
import { type RespoolAdvice, respoolAdvice } from '../../src/decide/respool-advice.ts';
import { knownPrices, respoolPrices } from '../../src/decide/respool-prices.ts';
import type { Costs } from '../../src/settings/settings.ts';
import { expectedBreaks } from '../../src/stats/power-law-fit.ts';
import {
  bestRespoolAge,
  minimalRepairCostRate,
} from '../../src/stats/replacement-minimal-repair.ts';
import { type TidySeason, tidySeason } from '../../src/tidy/tidy-season.ts';
import { makeLog } from '../helpers/make-log.ts';
import { wearSeason } from '../studies/wear-world.ts';

// Seasons drawn with known wear; what is asserted are laws that hold whatever was drawn.

const ALL = { only: {}, from: null, to: null, level: 0.95, seed: 1 };
const EVEN = Number.POSITIVE_INFINITY;
const BUSY = { trips: 60, rods: 8, fightsPerTrip: 1.6, spoolShape: EVEN, tripShape: EVEN };
const WEARS = wearSeason({ ...BUSY, beta: 2.2, theta: 30 }, 7);
const COSTS: Costs = { spool: { mono: 38 }, lost_fish: 90, bait_short: null, bait_left: null };

function priced(season: TidySeason, costs: Partial<Costs>): TidySeason {
  const settings = { ...season.log.settings, costs: { ...COSTS, ...costs } };
  return { ...season, log: { ...season.log, settings } };
}

function mono(advice: RespoolAdvice) {
  const [line] = advice.lines;
  if (line === undefined) throw new Error('no line');
  return line;
}

describe('the respool age', () => {
  const advice = respoolAdvice(priced(WEARS, {}), ALL);
  const line = mono(advice);

  test('is the age of least cost under the fitted wear, inside its own interval and range', () => {
    if (line.advice.kind !== 'advised') throw new Error(line.advice.reason);
    const { law, ageFights, age, nearBest, leastCostPerFight } = line.advice;
    const part = { shape: law.shape, theta: law.theta, spoolCost: 38, breakCost: 90 };
    expect(bestRespoolAge(part)).toMatchObject({ age: ageFights });
    const costPerFight = (fights: number) => minimalRepairCostRate(part, fights);
    for (const other of [0.5, 0.9, 1.1, 2]) {
      expect(costPerFight(other * ageFights)).toBeGreaterThan(costPerFight(ageFights));
    }
    expect(costPerFight(nearBest.lower)).toBeCloseTo(1.05 * costPerFight(ageFights), 8);
    expect(age).toMatchObject({ kind: 'estimated', estimate: ageFights });
    if (age.kind !== 'estimated' || leastCostPerFight.kind !== 'estimated') throw new Error('none');
    expect(age.lower).toBeLessThanOrEqual(ageFights);
    expect(age.upper).toBeGreaterThanOrEqual(ageFights);
    expect(leastCostPerFight.lower).toBeLessThan(leastCostPerFight.estimate);
  });

  test('a season at the best age costs no more than the fitted cost of any habit', () => {
    const { cost, advice: ofLine } = line;
    if (ofLine.kind !== 'advised' || cost.best?.kind !== 'estimated') throw new Error('none');
    const { shape, theta } = ofLine.law;
    const part = { shape, theta, spoolCost: 38, breakCost: 90 };
    const habit = minimalRepairCostRate(part, cost.fightsPerFilling) * cost.fights;
    expect(cost.best.estimate).toBeLessThanOrEqual(habit);
    expect(cost.fights).toBe(line.line.fights);
  });

  test('what was spent is fillings and lost fish at their prices', () => {
    const { cost } = line;
    if (cost.actual?.kind !== 'estimated') throw new Error('none');
    expect(cost.actual.estimate).toBeCloseTo(38 * cost.fillings + 90 * cost.breaks, 6);
  });

  test('the dearer a lost fish, the sooner; the price that is set gives the age advised', () => {
    const ages = line.atPrices.map(({ age }) => (age.kind === 'estimated' ? age.estimate : 0));
    expect(ages).toEqual([...ages].sort((a, b) => b - a));
    const asSet = line.atPrices.find(({ lostFish }) => lostFish === 90)?.age;
    if (line.advice.kind !== 'advised') throw new Error('none');
    expect(asSet).toMatchObject({ estimate: line.advice.ageFights });
  });

  test('says the age in fights and trips, and the range that costs hardly more', () => {
    expect(line.sentence).toMatch(/^Respool mono after about \d+ fights \(\d+–\d+\)/);
    expect(line.sentence).toContain('trips at this log’s pace');
    expect(line.sentence).toMatch(/within 5\s% of the least/);
  });
});

describe('the reels now', () => {
  const { rods, lines } = respoolAdvice(priced(WEARS, {}), ALL);

  test('every rod has its age, what to expect, and due exactly where older than the age', () => {
    const [line] = lines;
    if (line?.advice.kind !== 'advised') throw new Error('none');
    expect(rods).toHaveLength(8);
    for (const rod of rods) {
      expect(rod.isDue).toBe(rod.age.fights >= line.advice.ageFights);
      expect(rod.tripsLeft === 0).toBe(rod.isDue);
      const coming = 10 * (rod.fightsPerTrip ?? Number.NaN);
      const { law } = line.advice;
      const ahead =
        expectedBreaks(law, rod.age.fights + coming) - expectedBreaks(law, rod.age.fights);
      expect(rod.ahead).toMatchObject({ kind: 'estimated' });
      if (rod.ahead?.kind === 'estimated') expect(rod.ahead.estimate).toBeCloseTo(ahead, 10);
      expect(rod.aheadOnNewLine).toBeLessThanOrEqual(ahead);
    }
  });

  test('a filling that was not fished yet is new', () => {
    const spools = [
      ...WEARS.spools.all,
      { ...WEARS.spools.all[0], rod: 'K1', date: '2025-12-31', line: 9999 },
    ];
    const fresh = tidySeason({ ...priced(WEARS, {}).log, spools: spools as never });
    const rod = respoolAdvice(fresh, ALL).rods.find((one) => one.rod === 'K1');
    expect(rod).toMatchObject({ age: { fights: 0, trips: 0 }, isDue: false });
  });
});

describe('words where no age can be named', () => {
  test('without prices: wear in fish, and the two numbers to add', () => {
    const line = mono(respoolAdvice(priced(WEARS, { spool: {}, lost_fish: null }), ALL));
    expect(line.advice).toMatchObject({ kind: 'no-age', isWear: true });
    expect(line.sentence).toContain('Mono breaks more often as it ages');
    expect(line.sentence).toContain('costs: spool: mono');
    expect(line.sentence).toContain('costs: lost_fish');
    expect(line.atPrices.map(({ fishPerFilling }) => fishPerFilling)).toEqual([0.5, 1, 2, 4, 8]);
    expect(line.cost).toMatchObject({ actual: null, best: null });
  });

  test('without the one that is missing', () => {
    const line = mono(respoolAdvice(priced(WEARS, { lost_fish: null }), ALL));
    expect(line.sentence).toContain('costs: lost_fish');
    expect(line.sentence).not.toContain('costs: spool');
  });

  test('with fewer than five breaks', () => {
    const few = wearSeason({ ...BUSY, trips: 20, beta: 2, theta: 200 }, 3);
    const line = mono(respoolAdvice(priced(few, {}), ALL));
    expect(line.line.breaks).toBeLessThan(5);
    expect(line.sentence).toContain('too few to say when to respool');
    expect(line.sentence).not.toMatch(/after about/);
  });

  test('where breaks do not come faster with age', () => {
    const even = wearSeason({ ...BUSY, beta: 1, theta: 30 }, 5);
    const line = mono(respoolAdvice(priced(even, {}), ALL));
    expect(line.advice).toMatchObject({ kind: 'no-age', isWear: false });
    expect(line.sentence).toContain('age does not explain the breaks');
  });

  test('where new line breaks more than old', () => {
    const falling = wearSeason({ ...BUSY, trips: 150, beta: 0.5, theta: 6 }, 5);
    expect(mono(respoolAdvice(priced(falling, {}), ALL)).sentence).toContain('look at knots');
  });

  test('at prices of nothing', () => {
    const free = mono(respoolAdvice(priced(WEARS, { spool: { mono: 0 } }), ALL));
    expect(free.sentence).toContain('set to cost nothing');
    const worthless = mono(respoolAdvice(priced(WEARS, { lost_fish: 0 }), ALL));
    expect(worthless.sentence).toContain('no filling ever pays');
  });
});

describe('prices', () => {
  const season = tidySeason(
    makeLog({
      trips: [],
      spools: [10, 40, 30].map((cost, at) => ({
        rod: `K${at}`,
        date: '2025-01-01',
        line_type: 'mono',
        cost,
      })),
    }),
  );

  test('the settings come first, then the median paid in the log, then nothing', () => {
    expect(respoolPrices(season, 'mono')).toMatchObject({ spoolCost: 30, spoolCostFrom: 'spools' });
    const set = priced(season, {});
    expect(respoolPrices(set, 'mono')).toMatchObject({ spoolCost: 38, spoolCostFrom: 'settings' });
    expect(respoolPrices(season, 'braid')).toMatchObject({ spoolCost: null, spoolCostFrom: null });
  });

  test('both or a sentence', () => {
    const both = { spoolCost: 38, spoolCostFrom: 'settings' as const, lostFish: 90 };
    expect(knownPrices(both, 'mono')).toEqual({ spoolCost: 38, lostFish: 90 });
  });
});
