import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BoatPosition, PlacedPosition } from '../../src/draw/boat-layout.ts';
import { layOutBoat } from '../../src/draw/boat-layout.ts';
import { NARROW, WIDE } from '../../src/draw/drawing.ts';
import { textWidth } from '../../src/draw/text-width.ts';
import { REACHES, SIDES } from '../../src/settings/settings.ts';
import { BOAT_EXAMPLES } from '../helpers/chart-examples.ts';

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The words and circle of a position as boxes, by the table of text widths. */
function boxesOf({ words, x, y, radius }: PlacedPosition): Box[] {
  const circle = { left: x - radius, right: x + radius, top: y - radius, bottom: y + radius };
  const lines = words.map((line) => {
    const width = textWidth(line.text, { size: 13, bold: line.kind === 'name' });
    const left = line.x - { start: 0, middle: width / 2, end: width }[line.anchor];
    return { left, right: left + width, top: line.y - 11, bottom: line.y + 3 };
  });
  return [circle, ...lines];
}

function overlap(a: Box, b: Box): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

const position: fc.Arbitrary<BoatPosition> = fc.record({
  name: fc.string({ unit: 'grapheme', maxLength: 40 }),
  side: fc.constantFrom(...SIDES, null),
  reach: fc.constantFrom(...REACHES, null),
  bites: fc.integer({ min: 0, max: 3000 }),
  figure: fc.constantFrom('62\u202f% (54–69)', '100\u202f% (31–100)', 'not known'),
  n: fc.constantFrom('1 bite', '2,013 bites'),
  thin: fc.boolean(),
});

describe.each([NARROW, WIDE])('on a sheet of %i pixels', (width) => {
  test('any spread of up to 14 positions has room for each, on the sheet', () => {
    fc.assert(
      fc.property(fc.array(position, { maxLength: 14 }), (positions) => {
        const layout = layOutBoat(positions, width);
        expect(layout.positions).toHaveLength(positions.length);
        const boxes = layout.positions.map(boxesOf);
        for (const box of boxes.flat()) {
          expect(box.left).toBeGreaterThanOrEqual(-0.01);
          expect(box.right).toBeLessThanOrEqual(width + 0.01);
          expect(box.top).toBeGreaterThanOrEqual(-0.01);
          expect(box.bottom).toBeLessThanOrEqual(layout.height);
        }
        const clashes = boxes.flatMap((some, i) =>
          boxes
            .slice(i + 1)
            .flatMap((others) => some.flatMap((a) => others.filter((b) => overlap(a, b)))),
        );
        expect(clashes).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });

  test('port lies left and starboard right of the boat, the nearer reach above the farther', () => {
    const { positions, hull } = layOutBoat(BOAT_EXAMPLES[0]?.positions ?? [], width);
    for (const { position, x } of positions) {
      if (position.side === 'port') expect(x).toBeLessThan(hull.centre);
      if (position.side === 'starboard') expect(x).toBeGreaterThan(hull.centre);
      if (position.side === 'centre') expect(x).toBe(hull.centre);
    }
    const port = positions.filter(({ position }) => position.side === 'port');
    expect(port.map(({ position }) => position.reach)).toEqual(['flat', 'short', 'middle', 'long']);
  });
});

test('the area of a circle is in proportion to the bites', () => {
  const rig = (bites: number): BoatPosition => ({
    name: `p${bites}`,
    side: 'port',
    reach: 'short',
    bites,
    figure: '',
    n: '',
    thin: false,
  });
  const { positions } = layOutBoat([rig(400), rig(100)], WIDE);
  const [large = 0, small = 0] = positions.map(({ radius }) => radius);
  expect((large / small) ** 2).toBeCloseTo(4, 10);
});
