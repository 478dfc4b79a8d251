import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitText, textWidth, widestText, wrapText } from '../../src/draw/text-width.ts';

const STYLE = { size: 13 };

describe('the width of a text', () => {
  test('is never below that of DejaVu Sans at 100 px, its advance widths read in a browser', () => {
    const measured = {
      '0': 63.6,
      m: 97.4,
      W: 98.9,
      i: 27.8,
      '%': 95,
      '–': 50,
      '\u202f': 20,
      '…': 100,
      '−': 83.8,
    };
    for (const [letter, width] of Object.entries(measured)) {
      const ours = textWidth(letter, { size: 100 });
      expect(ours, letter).toBeGreaterThanOrEqual(width - 0.1);
      expect(ours, letter).toBeLessThan(width * 1.25);
    }
  });

  test('counts accents as their letter, marks as nothing, and wide scripts as wide', () => {
    expect(textWidth('é', STYLE)).toBe(textWidth('e', STYLE));
    expect(textWidth('e\u0301', STYLE)).toBe(textWidth('e', STYLE));
    expect(textWidth('漢', STYLE)).toBeGreaterThan(13);
    expect(textWidth('', STYLE)).toBe(0);
    expect(widestText([], STYLE)).toBe(0);
    expect(textWidth('bold', { ...STYLE, bold: true })).toBeGreaterThan(textWidth('bold', STYLE));
  });
});

describe('fitting', () => {
  test('a text with room stays as it is', () => {
    expect(fitText('port-short', 200, STYLE)).toBe('port-short');
    expect(wrapText('port-short', 200, { ...STYLE, most: 2 })).toEqual(['port-short']);
    expect(wrapText('', 200, { ...STYLE, most: 2 })).toEqual(['']);
  });

  test('lines break at spaces and after hyphens', () => {
    expect(wrapText('starboard-middle kite', 100, { ...STYLE, most: 3 })).toEqual([
      'starboard-',
      'middle kite',
    ]);
  });

  test('what is too long ends in an ellipsis', () => {
    expect(fitText('starboard-middle', 60, STYLE)).toMatch(/^star.*…$/);
    const lines = wrapText('x'.repeat(5000), 60, { ...STYLE, most: 2 });
    expect(lines).toHaveLength(2);
    expect(lines[1]).toMatch(/…$/);
  });

  test('whatever the text, every line fits and there are not too many', () => {
    const room = fc.integer({ min: 30, max: 300 });
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 80 }), room, (text, width) => {
        const lines = wrapText(text, width, { ...STYLE, most: 3 });
        expect(lines.length).toBeLessThanOrEqual(3);
        for (const line of [...lines, fitText(text, width, STYLE)]) {
          expect(textWidth(line, STYLE)).toBeLessThanOrEqual(width);
        }
      }),
    );
  });
});
