import { beforeAll, describe, expect, test } from 'vitest';
import { cleanSvg } from '../../src/draw/clean-svg.ts';
import { drawBoat } from '../../src/draw/draw-boat.tsx';
import { NARROW, type Picture, WIDE } from '../../src/draw/drawing.ts';
import { renderPicture } from '../../src/draw/render-picture.ts';
import { BOAT_EXAMPLES, CHART_EXAMPLES, HOSTILE } from '../helpers/chart-examples.ts';

const pictures = new Map<string, Picture>();
const warnings: string[] = [];

beforeAll(async () => {
  for (const { id, title, draw } of CHART_EXAMPLES) {
    const words = { id, title, description: `${title}.` };
    pictures.set(id, await renderPicture(words, draw, (text) => warnings.push(`${id}: ${text}`)));
  }
  for (const { id, positions } of BOAT_EXAMPLES) {
    pictures.set(id, drawBoat({ id, title: HOSTILE, description: HOSTILE }, positions));
  }
});

test('the chart library finds nothing odd in any of them', () => {
  expect(warnings).toEqual([]);
});

describe.each([...CHART_EXAMPLES, ...BOAT_EXAMPLES].map(({ id }) => id))('%s', (id) => {
  const both = () => {
    const { narrow, wide } = pictures.get(id) as Picture;
    return [narrow, wide];
  };

  test('has the two widths, a name and a description', () => {
    const [narrow = '', wide = ''] = both();
    expect(narrow).toContain(`id="${id}-narrow" viewBox="0 0 ${NARROW} `);
    expect(wide).toContain(`id="${id}-wide" viewBox="0 0 ${WIDE} `);
    for (const svg of [narrow, wide]) {
      const [, title, desc] = /aria-labelledby="(\S+) (\S+)"/.exec(svg) ?? [];
      expect(svg).toContain(`<title id="${title}">`);
      expect(svg).toContain(`<desc id="${desc}">`);
    }
  });

  test('needs no style, no script, no font and no colour of its own', () => {
    for (const svg of both()) {
      expect(svg).not.toMatch(/<[^>]*\s(style|class|font-family|href|on\w+)=/i);
      expect(svg).not.toMatch(/<(style|script|image|foreignObject|use|a)[\s>]/i);
      expect(svg).not.toMatch(/#fe01|NaN|undefined|Infinity/);
      expect(svg.match(/(?:fill|stroke)="(?!none|var\(--[a-z]+\))[^"]*"/g) ?? []).toEqual([]);
    }
  });

  test('has straight strokes that are level or upright, on the half pixel too', () => {
    for (const svg of both()) {
      const strokes = svg.match(/<line[^>]*>/g) ?? [];
      expect(strokes.filter((stroke) => !/\s[xy]2="0"/.test(stroke))).toEqual([]);
    }
  });

  test('is well-formed: every tag is closed, every id its own', () => {
    for (const svg of both()) {
      const open: string[] = [];
      for (const [, close, name, rest] of svg.matchAll(/<(\/?)([a-zA-Z]+)([^>]*)>/g)) {
        if (close === '/') expect(open.pop()).toBe(name);
        else if (!rest?.endsWith('/')) open.push(name ?? '');
      }
      expect(open).toEqual([]);
    }
    const ids = both().flatMap((svg) => [...svg.matchAll(/\sid="([^"]*)"/g)].map(([, one]) => one));
    expect(new Set(ids).size).toBe(ids.length);
  });
});

test('the same picture comes out the same, byte by byte, whatever was drawn before it', async () => {
  for (const { id, title, draw } of [...CHART_EXAMPLES].reverse()) {
    const words = { id, title, description: `${title}.` };
    expect(await renderPicture(words, draw), id).toEqual(pictures.get(id));
  }
});

test.each(CHART_EXAMPLES)(
  '$id: drawing and rendering change nothing they are given',
  async (one) => {
    for (const width of [NARROW, WIDE]) {
      const drawing = one.draw(width);
      const before = JSON.stringify(drawing);
      await renderPicture({ id: one.id, title: one.title, description: '' }, () => drawing);
      expect(JSON.stringify(drawing)).toBe(before);
      expect(JSON.stringify(one.draw(width))).toBe(before);
      expect(drawing.width).toBe(width);
    }
  },
);

test('cleaning touches tags and never words', () => {
  const words =
    '<text fill="#fe01a0" class="x" font-size="13px">class="x" 1.23456 #fe01a0 a&lt;g&gt;</text>';
  expect(cleanSvg(`<svg width="1"><g>${words}</g></svg>`)).toBe(
    '<text fill="var(--ink)" font-size="13">class="x" 1.23456 #fe01a0 a&lt;g&gt;</text>',
  );
});
