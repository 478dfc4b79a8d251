import { describe, expect, test } from 'vitest';
import { Random } from '../../src/stats/random.ts';
import { studyScene } from './comparison-study.ts';
import { SCENES } from './comparison-worlds.ts';
import { HOOKUPS, lensesOn } from './coverage-lenses.ts';
import { talliesOfTrips } from './line-tallies.ts';
import { drawTrips } from './line-trips.ts';
import { onMixOf } from './line-truth.ts';

// The study in small. Its full table is comparison.md, made by `npm run comparison-study`.

const named = (start: string) => {
  const world = SCENES.find(({ name }) => name.startsWith(start))?.world;
  return world ?? expect.fail(`No scene "${start}".`);
};

describe('whole seasons, answered with every default', () => {
  test('no difference: clear in about 5 % at most, on the always-valid line hardly ever', () => {
    const study = studyScene(named('fair, 30 trips'), { seasons: 60, seed: 201 });
    // 5 % of 60 are 3; eight or more come up in one study of a hundred.
    expect(study.verdicts.clear).toBeLessThan(8);
    expect(study.everClear).toBeLessThan(5);
    expect(study.verdicts.tied).toBe(0);
  });

  test.each(['braid in late months only', 'braid on long lines only'])(
    '%s: tied every time',
    (name) => {
      const study = studyScene({ ...named(name), trips: 30 }, { seasons: 15, seed: 202 });
      expect(study.verdicts.tied).toBe(15);
      expect(study.adjusted?.intervals).toBe(0);
    },
  );

  test('a difference well inside the margin on 10,000 bites: alike', () => {
    const study = studyScene(named('fair, 200 trips'), { seasons: 3, seed: 203 });
    expect(study.verdicts.alike).toBe(3);
  });
});

test('braid in late months, on long lines: as logged is wrong, adjusted holds the truth', () => {
  const world = named('the same, braid hooks worse');
  const random = new Random(204);
  const held = { as_logged: 0, adjusted: 0 };
  for (let season = 0; season < 60; season++) {
    const rows = talliesOfTrips(drawTrips(world, random));
    const lenses = lensesOn(rows, HOOKUPS);
    const truth = onMixOf(world, rows);
    for (const name of ['as_logged', 'adjusted'] as const) {
      const { difference } = lenses[name];
      const isHeld =
        difference.kind === 'estimated' && difference.lower <= truth && truth <= difference.upper;
      held[name] += Number(isHeld);
    }
  }
  expect(held.as_logged / 60).toBeLessThan(0.5);
  expect(held.adjusted / 60).toBeGreaterThan(0.95 - 3 * Math.sqrt((0.95 * 0.05) / 60));
});
