import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dots, strokes, words } from '../../src/draw/marks.ts';
import { type Frame, plotChart, plotHeight, plotWidth } from '../../src/draw/plot.ts';
import { layOutRows } from '../../src/draw/row-layout.ts';
import { textWidth } from '../../src/draw/text-width.ts';
import { roundTicks } from '../../src/draw/ticks.ts';

fc.configureGlobal({ seed: 1907 });

const FRAME: Frame = { width: 320, height: 200, left: 50, right: 20, top: 30, bottom: 40 };
const LOOK = { ink: 'first', shape: 'circle', dash: [1, 0] } as const;

const ranges = fc
  .tuple(
    fc.double({ min: -1e9, max: 1e9, noNaN: true }),
    fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
  )
  .map(([low, span]) => [low, low + span] as const)
  .filter(([low, high]) => high - low > 1e-6 * Math.abs(low));

test('numbers under a plot stand apart, whatever they are', () => {
  fc.assert(
    fc.property(ranges, fc.integer({ min: 1, max: 40 }), (range, most) => {
      const ticks = roundTicks(range, most);
      const { marks, x } = plotChart(FRAME, { x: { ticks, title: [] }, y: null }, []);
      const pixel = (value: number) => ((value - x[0]) / (x[1] - x[0])) * plotWidth(FRAME);
      let end = Number.NEGATIVE_INFINITY;
      for (const number of marks.words) {
        const half = textWidth(String(number.text), { size: Number(number.size) }) / 2;
        expect(pixel(number.x) - half).toBeGreaterThan(end);
        end = pixel(number.x) + half;
      }
      expect(marks.words.length).toBeGreaterThan(0);
      expect(marks.grid.length).toBe(ticks.values.length);
    }),
  );
});

test('a place in pixels is the same place in the units of the axes', () => {
  const ticks = { domain: [10, 20], values: [], decimals: 0 } as const;
  const y = { domain: [0, 4], values: [], decimals: 0 } as const;
  const { marks } = plotChart(FRAME, { x: { ticks, title: [] }, y: { ticks: y, title: [] } }, [
    dots([{ x: plotWidth(FRAME) / 2, y: plotHeight(FRAME) / 4 }], { ...LOOK, pixels: 'xy' }),
    strokes([{ x: 12, y: 0, y2: plotHeight(FRAME) }], { ink: 'ink', width: 1, pixels: 'y' }),
  ]);
  expect(marks.dots).toMatchObject([{ x: 15, y: 3 }]);
  expect(marks.strokes).toMatchObject([{ x: 12, x2: 12, y: 4, y2: 0 }]);
});

test('without an axis places are pixels from the top left corner', () => {
  const spot = { x: 7, y: 9, text: 'here' };
  const { x, y, marks } = plotChart(FRAME, { x: null, y: null }, [words([spot], {})]);
  expect([x, y]).toEqual([
    [0, plotWidth(FRAME)],
    [plotHeight(FRAME), 0],
  ]);
  expect(marks.words).toMatchObject([spot]);
});

test('a row names the count of its marks once, and none where a mark has none', () => {
  const figure = { kind: 'not-estimable', reason: 'Nothing.' } as never;
  const mark = (n: string) => ({ figure, n, thin: false });
  const chart = {
    rows: [{ label: 'bigeye scad', marks: [mark('497 bites'), mark('')] }],
    series: ['as logged', 'shrunken'],
    style: { kind: 'percent' },
    axisTitle: '',
    reference: null,
    shaded: null,
    span: null,
  } as const;
  const { counts } = layOutRows(chart, 320, { top: 0, bottom: 0 });
  expect(counts.map(({ text }) => text)).toEqual(['497 bites']);
});
