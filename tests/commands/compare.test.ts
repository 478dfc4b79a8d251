import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { runCommand } from '../helpers/run-command.ts';

const root = join(import.meta.dirname, '../..');
const tenTrips = join(root, 'tests/seasons/ten-trips');
const demo = join(root, 'data-samples/port-vellamy');

const compare = (folder: string, ...words: readonly string[]) =>
  runCommand('compare', folder, '--quiet', ...words);

describe('levels that cannot be compared are said so', () => {
  const bait = (...between: readonly string[]) =>
    compare(tenTrips, '--factor', 'bait', '--between', ...between);

  test.each([
    [
      'scad,scad',
      '--between names scad only, twice: it cannot be compared with itself. Name two or more, e.g. --between scad,mullet. This log has: mullet, scad.',
    ],
    [
      'scad',
      '--between names scad only: there must be something to compare it with. Name two or more, e.g. --between scad,mullet. This log has: mullet, scad.',
    ],
    [
      ' , ',
      '--between names no level. Name two or more, e.g. --between mullet,scad. This log has: mullet, scad.',
    ],
    [
      'mullet,scda',
      '--between: this log has no bait "scda". Did you mean scad? It has: mullet, scad.',
    ],
    ['mullet,scad,eel', '--between: this log has no bait "eel". It has: mullet, scad.'],
    ['eel,ray,scad', '--between: this log has no bait "eel" or "ray". It has: mullet, scad.'],
  ])('--between "%s"', async (between, sentence) => {
    const { exitCode, err, out } = await bait(between);
    expect({ exitCode, err: err.trim(), out }).toEqual({
      exitCode: 2,
      err: `linehours: ${sentence}`,
      out: '',
    });
  });

  test('a log, or what --only leaves of it, with one level or none', async () => {
    const vessel = await compare(tenTrips, '--factor', 'vessel');
    expect(vessel.err).toContain(
      'Two levels of vessel are needed to compare; this log has one only: Quillandra.',
    );
    const model = await compare(tenTrips, '--factor', 'hook_model');
    expect(model.err).toContain(
      'Two levels of hook_model are needed to compare; this log records none.',
    );
    const held = await compare(tenTrips, '--factor', 'bait', '--only', 'bait=scad');
    expect(held.err).toContain('this log, held to --only bait=scad, has one only: scad.');
  });
});

describe('two levels', () => {
  const asked = ['--factor', 'hook_model', '--between', 'bench A,bench B'];

  test('the document has the tables within reach and wind beside the figures it always had', async () => {
    const { out } = await compare(demo, ...asked, '--within', 'reach,wind_band', '--json');
    const document = JSON.parse(out);
    expect(Object.keys(document)).toEqual(
      expect.arrayContaining([
        'factor',
        'levels',
        'measure',
        'lenses',
        'primary',
        'verdict',
        'within',
      ]),
    );
    expect(document.levels).toEqual(['bench A', 'bench B']);
    expect(document.within.map(({ by }: { by: string }) => by)).toEqual(['reach', 'wind_band']);
    const bites = document.within[0].levels.reduce(
      (sum: number, row: { a: { bites: number }; b: { bites: number } }) =>
        sum + row.a.bites + row.b.bites,
      0,
    );
    expect(bites).toBe(document.lenses.adjusted.bites);
  });

  test('says why the same-day difference is not the gap between the shares beside it', async () => {
    const { out } = await compare(demo, ...asked);
    expect(out).toContain(
      'Same day: the difference is taken within each trip that fished both and then averaged; ' +
        'the two shares beside it are over all those trips together, so they need not lie as far apart.',
    );
  });

  test('the text warns of looking at many tables and has no p-value before the first table', async () => {
    const { out } = await compare(demo, ...asked, '--within', 'reach');
    expect(out).toContain('The more such tables are looked at');
    expect(out.split('\n')[0]).not.toMatch(/\bp\b/);
  });
});

test('three levels: all together, and each against the first as it always was', async () => {
  const { out } = await compare(demo, '--factor', 'hook_size', '--json');
  const { levels, pairs, joint } = JSON.parse(out);
  expect(levels).toEqual(['5/0', '6/0', '7/0']);
  expect(pairs.map((pair: { levels: string[] }) => pair.levels)).toEqual([
    ['6/0', '5/0'],
    ['7/0', '5/0'],
  ]);
  expect(joint.levels).toEqual(levels);
  expect(joint.pairs).toHaveLength(3);
  for (const pair of joint.pairs) {
    expect(pair.p_holm).toBeGreaterThanOrEqual(pair.p);
    expect(pair.together.lower).toBeLessThan(pair.difference.lower);
    expect(pair.together.upper).toBeGreaterThan(pair.difference.upper);
  }
  // The season was drawn with 7/0 hooking best and 5/0 worst: data-samples/README.md.
  expect(joint.verdict).toBe('clear');
});

test('three levels: a pair on its own is called so, and what allows for all of them is named', async () => {
  const { out } = await compare(demo, '--factor', 'hook_size');
  expect(out).toMatch(/^CLEAR {2}Hook size, all 3 together/);
  expect(out).toContain(
    'Each against 5/0 on its own, without allowance for looking at 2 of them, so one may look clear ' +
      'by luck. The table above makes that allowance.',
  );
  expect(out.match(/^CLEAR on its own {2}More bites/gm)).toHaveLength(2);
  expect(out).not.toMatch(/^CLEAR {2}More/m);
  const two = await compare(demo, '--factor', 'hook_size', '--between', '7/0,5/0');
  expect(two.out).toMatch(/^CLEAR {2}More bites/);
});
