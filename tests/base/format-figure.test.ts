import { describe, expect, test } from 'vitest';
import { estimated, notEstimable } from '../../src/base/estimate.ts';
import type { FigureStyle } from '../../src/base/format-figure.ts';
import {
  figureText,
  PER_10_LINE_HOURS,
  PERCENT,
  POINTS,
  shownScale,
  TIMES,
} from '../../src/base/format-figure.ts';

const BASIS = { level: 0.95, method: 'test', n: 40, exposure: null, notes: [] };

function figure(estimate: number, lower: number, upper: number) {
  return estimated({ estimate, lower, upper, ...BASIS });
}

describe('a share of bites', () => {
  test.each([
    [0.62, 0.541, 0.69, '62 % (54–69)'],
    [0, 0, 0.119, '0 % (0–12)'],
    [1, 0.88, 1, '100 % (88–100)'],
    [0.003, 0.0004, 0.034, '<1 % (<1 to 3)'],
    [0.997, 0.97, 0.9996, '>99 % (97 to >99)'],
    [0.003, 0.001, 0.0094, '0.3 % (0.1–0.9)'],
    [0.0002, 0.0001, 0.0003, '<0.1 % (<0.1 to <0.1)'],
    [0.9998, 0.9991, 1, '>99.9 % (99.9–100)'],
    [0.5, 0, 1, '50 % (0–100)'],
  ])('%s (%s to %s) reads %s', (estimate, lower, upper, text) => {
    const words = figureText(figure(estimate, lower, upper), PERCENT);
    expect(words.short.replaceAll('\u202f', ' ')).toBe(text);
    expect(words.long).toBe(words.short);
  });

  test('the sign stands a narrow space after the number and cannot break from it', () => {
    expect(figureText(figure(0.62, 0.54, 0.69), PERCENT).value).toBe('62\u202f%');
  });
});

describe('a rate', () => {
  test.each([
    [0.18, 0.12, 0.25, '1.8 per 10 line-hours (1.2–2.5)', '1.8 (1.2–2.5)'],
    [0, 0, 0.037, '0 per 10 line-hours (0–0.37)', '0 (0–0.37)'],
    [12.5, 9.8, 16, '125 per 10 line-hours (98–160)', '125 (98–160)'],
    [0.000002, 0, 0.00001, '<0.001 per 10 line-hours (0 to <0.001)', '<0.001 (0 to <0.001)'],
    [
      0.1,
      0.05,
      Number.POSITIVE_INFINITY,
      '1.0 per 10 line-hours (0.5 or more)',
      '1.0 (0.5 or more)',
    ],
    [
      0.1,
      Number.NEGATIVE_INFINITY,
      Number.POSITIVE_INFINITY,
      '1.0 per 10 line-hours (no limits)',
      '1.0 (no limits)',
    ],
  ])('%s (%s to %s)', (estimate, lower, upper, long, short) => {
    const words = figureText(figure(estimate, lower, upper), PER_10_LINE_HOURS);
    expect(words.long).toBe(long);
    expect(words.short).toBe(short);
  });
});

describe('a difference', () => {
  test.each([
    [0.08, 0.01, 0.15, '+8 points (+1 to +15)'],
    [-0.03, -0.09, 0.02, '−3 points (−9 to +2)'],
    [0.01, -0.04, 0.06, '+1 point (−4 to +6)'],
    [0, -0.05, 0.05, '0 points (−5 to +5)'],
    [0.004, -0.001, 0.009, '+0.4 points (−0.1 to +0.9)'],
    [0.04, 0.002, 0.08, '+4.0 points (+0.2 to +8.0)'],
    [0.01, -0.0004, 0.06, '+1.0 points (0.0 to +6.0)'],
    [0.3, -1.4, 1.6, '+30 points (−100 to +100)'],
  ])('%s (%s to %s) reads %s', (estimate, lower, upper, text) => {
    expect(figureText(figure(estimate, lower, upper), POINTS).long).toBe(text);
  });
});

describe('a ratio', () => {
  test.each([
    [1.4, 1.1, 1.8, '1.4 (1.1–1.8)'],
    [1.05, 1.02, 1.08, '1.05 (1.02–1.08)'],
    [1.4, 1.04, 1.9, '1.40 (1.04–1.90)'],
    [1, 1, 1, '1.0 (1.0–1.0)'],
    [1.0002, 0.9997, 1.0006, '1.000 (1.000–1.001)'],
    [0.7, 0.5, 0.9, '0.70 (0.50–0.90)'],
    [1200, 300, 5000, '1,200 (300–5,000)'],
    [0.0002, 0.0001, 0.005, '<0.001 (<0.001 to 0.005)'],
  ])('%s (%s to %s) reads %s', (estimate, lower, upper, text) => {
    expect(figureText(figure(estimate, lower, upper), TIMES).short).toBe(text);
  });
});

test('a figure that cannot be given says why, and never a number', () => {
  const none = notEstimable('No line-hours are recorded for this bait.', BASIS);
  for (const style of [PERCENT, POINTS, PER_10_LINE_HOURS] as FigureStyle[]) {
    expect(figureText(none, style)).toEqual({
      value: 'not known',
      interval: null,
      short: 'not known',
      long: 'No line-hours are recorded for this bait.',
    });
  }
});

test('charts draw the number that the words print', () => {
  expect(shownScale(PERCENT) * 0.62).toBeCloseTo(62, 12);
  expect(shownScale(POINTS) * -0.03).toBeCloseTo(-3, 12);
  expect(shownScale(PER_10_LINE_HOURS) * 0.18).toBeCloseTo(1.8, 12);
  expect(shownScale({ kind: 'number', unit: 'fights' })).toBe(1);
});
