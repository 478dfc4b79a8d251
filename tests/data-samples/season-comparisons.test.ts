import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { hookupLogit, type Rigged } from '../../data-samples/make/chances.ts';
import { dayOf, gearOf, type JoinedBite, readSample, SAMPLES } from './read-season.ts';

interface ComparisonInTruth {
  readonly factor: string;
  readonly between: readonly [string, string];
  readonly verdict: string;
  readonly true_difference: number;
}

// What the README says of the four comparisons of the demo season, held against its rows. That the
// intervals fall where the README says is the work of the comparison's own tests.
describe('the comparisons of port-vellamy', () => {
  const season = readSample('port-vellamy');
  const truth = JSON.parse(readFileSync(join(SAMPLES, 'port-vellamy', 'truth.json'), 'utf8'));
  const comparisons = truth.comparisons as ComparisonInTruth[];
  const named = (factor: string) =>
    comparisons.find((comparison) => comparison.factor === factor) as ComparisonInTruth;

  test('show one of each verdict', () => {
    expect(comparisons.map(({ verdict }) => verdict).sort()).toEqual([
      'alike',
      'clear',
      'open',
      'tied',
    ]);
  });

  test.each(['hook_size', 'leader_lb', 'line_type'])(
    'state the true difference by %s, averaged over the bites',
    (factor) => {
      const { between, true_difference } = named(factor);
      const chances = season.bites.flatMap((bite) => {
        const gear = gearOf(bite);
        if (gear === null || !between.includes(levelOf(bite, factor))) return [];
        const [a, b] = between.map((level) => chanceWith(bite, { ...gear, [factor]: level }));
        return [(a as number) - (b as number)];
      });
      const mean = chances.reduce((sum, chance) => sum + chance, 0) / chances.length;
      // The README's figure knows each day's own luck and the bites whose cells were left empty.
      expect(Math.abs(mean - true_difference)).toBeLessThan(0.005);
    },
  );

  test('tied: no month and no trip saw both line classes', () => {
    for (const column of ['trip_id', 'month'])
      for (const levels of levelsBy(column, 'line_class_lb').values()) expect(levels.size).toBe(1);
  });

  test('alike: both leaders on most days, at least 900 bites on each', () => {
    const days = [...levelsBy('trip_id', 'leader_lb').values()];
    const both = days.filter((levels) => levels.has('40') && levels.has('60')).length;
    expect(both / days.length).toBeGreaterThan(0.75);
    for (const leader of ['40', '60'])
      expect(
        season.bites.filter((bite) => levelOf(bite, 'leader_lb') === leader).length,
      ).toBeGreaterThan(900);
  });

  test('open: braid leans to the long rods and the calm months, yet meets mono on many days', () => {
    const share = (of: (bite: JoinedBite) => boolean) => {
      const these = season.bites.filter(of);
      return these.filter((bite) => levelOf(bite, 'line_type') === 'braid').length / these.length;
    };
    const long = (bite: JoinedBite) => (bite.cells.position ?? '').endsWith('-long');
    expect(share(long)).toBeGreaterThan(2 * share((bite) => !long(bite)));
    const windy = (bite: JoinedBite) => Number(bite.trip.wind_kn) >= 14;
    expect(share(windy)).toBeLessThan(share((bite) => !windy(bite)));
    const days = [...levelsBy('trip_id', 'line_type').values()];
    expect(days.filter((levels) => levels.size === 2).length).toBeGreaterThan(40);
  });

  function levelsBy(column: string, factor: string): Map<string, Set<string>> {
    const groups = new Map<string, Set<string>>();
    for (const bite of season.bites) {
      const group =
        column === 'month' ? (bite.trip.date ?? '').slice(0, 7) : (bite.cells[column] ?? '');
      const level = levelOf(bite, factor);
      if (level !== '') groups.set(group, (groups.get(group) ?? new Set()).add(level));
    }
    return groups;
  }

  function chanceWith(bite: JoinedBite, gear: Rigged): number {
    return 1 / (1 + Math.exp(-hookupLogit(season.world, dayOf(season.world, bite.trip), gear)));
  }
});

/** The bite's level as the joins have it; '' where no cell says. */
function levelOf({ cells, soak, spool }: JoinedBite, factor: string): string {
  if (factor === 'leader_lb') return soak?.leader_lb ?? '';
  return (factor === 'hook_size' ? cells[factor] : spool[factor]) ?? '';
}
