import { describe, expect, test } from 'vitest';
import {
  INK_NAMES,
  type Ink,
  inkDeclarations,
  type Scheme,
  STAND_IN,
  seriesLook,
  VARIABLE_OF,
} from '../../src/draw/palette.ts';

function colours(scheme: Scheme): Record<string, string> {
  return Object.fromEntries(
    inkDeclarations(scheme)
      .split(';')
      .map((declaration) => declaration.slice(2).split(':')),
  );
}

/** Relative luminance and contrast ratio as defined in WCAG 2.2 (W3C 2023), "Dimension". */
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

describe.each(['light', 'dark', 'print'] as const)('%s', (scheme) => {
  const ink = colours(scheme);
  const against = (name: Ink, ground: Ink) => contrast(ink[name] ?? '', ink[ground] ?? '');

  test('words stand out: WCAG 2.2, 1.4.6 for text and 1.4.3 for secondary text', () => {
    expect(against('ink', 'paper')).toBeGreaterThan(7);
    expect(against('ink', 'wash')).toBeGreaterThan(7);
    expect(against('muted', 'paper')).toBeGreaterThan(4.5);
    expect(against('muted', 'wash')).toBeGreaterThan(4.5);
    expect(against('thin', 'paper')).toBeGreaterThan(4.5);
  });

  test('marks stand out: WCAG 2.2, 1.4.11', () => {
    for (const name of ['first', 'second', 'third', 'thin'] as const) {
      expect(against(name, 'paper'), name).toBeGreaterThan(3);
    }
  });
});

test('the series are colours of Okabe & Ito 2008', () => {
  const published = [
    '#000000',
    '#e69f00',
    '#56b4e9',
    '#009e73',
    '#f0e442',
    '#0072b2',
    '#d55e00',
    '#cc79a7',
  ];
  for (const scheme of ['light', 'dark'] as const) {
    const { first, second, third } = colours(scheme);
    expect(new Set([first, second, third]).size).toBe(3);
    expect([first, second, third].every((colour) => published.includes(colour ?? ''))).toBe(true);
  }
});

test('series differ by shape and dash, not by colour alone', () => {
  const looks = [0, 1, 2].map(seriesLook);
  expect(new Set(looks.map((look) => look.shape)).size).toBe(3);
  expect(new Set(looks.map((look) => String(look.dash))).size).toBe(3);
  expect(() => seriesLook(3)).toThrow('at most three series, not 4');
});

test('each stand-in leads to its own variable', () => {
  expect(new Set(INK_NAMES.map((name) => STAND_IN[name])).size).toBe(INK_NAMES.length);
  for (const name of INK_NAMES) expect(VARIABLE_OF.get(STAND_IN[name])).toBe(`var(--${name})`);
});
