import { describe, expect, test } from 'vitest';
import { DEFAULT_SETTINGS } from '../../src/settings/settings.ts';
import { FACTOR_NAMES, factorOf } from '../../src/tally/factors.ts';
import {
  byHookSize,
  byLight,
  byMoon,
  byNumber,
  byText,
  inOrderOf,
  NOT_RECORDED,
} from '../../src/tally/level-order.ts';

describe('levels in the order of the trade', () => {
  test.each([
    [
      'hooks small to large (common practice, no source)',
      byHookSize,
      ['4', '2', '1', '1/0', '5/0', '10/0', '11/0', 'treble', NOT_RECORDED],
    ],
    ['numbers by size, not by digits', byNumber, ['8', '20', '30', '100', NOT_RECORDED]],
    ['text by code unit', byText, ['Bank Edge', 'North Horn', 'area 1', NOT_RECORDED]],
    ['light through the day', byLight, ['dawn', 'day', 'dusk', 'night', NOT_RECORDED]],
    [
      'moon through its cycle',
      byMoon,
      ['new', 'first quarter', 'full', 'last quarter', 'waning crescent', NOT_RECORDED],
    ],
    [
      'a stated order, strangers after it',
      inOrderOf(['scad', 'mullet']),
      ['scad', 'mullet', 'cigar minnow', 'squid', NOT_RECORDED],
    ],
  ])('%s', (_, order, wanted) => {
    expect([...wanted].sort(order)).toEqual(wanted);
    expect([...wanted].reverse().sort(order)).toEqual(wanted);
  });

  test.each(FACTOR_NAMES)('%s: whatever the levels, not recorded comes last', (name) => {
    const order = factorOf(name).order(DEFAULT_SETTINGS);
    const levels = [NOT_RECORDED, '7', '2026-03', 'zz', '', 'long'];
    const sorted = [...levels].sort(order);
    expect(sorted.at(-1)).toBe(NOT_RECORDED);
    for (const a of levels) {
      expect(order(a, a)).toBe(0);
      for (const b of levels) expect(Math.sign(order(a, b)) + Math.sign(order(b, a))).toBe(0);
    }
  });
});
