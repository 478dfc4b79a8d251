import { expect, test } from 'vitest';
import { levelWords, listWords, plural, printable, sentenceCase } from '../../src/base/words.ts';

test('one bite, many bites', () => {
  expect([0, 1, 2, 2013].map((n) => plural(n, 'bite'))).toEqual([
    '0 bites',
    '1 bite',
    '2 bites',
    '2,013 bites',
  ]);
  expect(plural(1, 'fish', 'fish')).toBe('1 fish');
  expect(plural(3, 'fish', 'fish')).toBe('3 fish');
});

test('lists read as they are spoken', () => {
  expect(listWords([])).toBe('');
  expect(listWords(['mullet'])).toBe('mullet');
  expect(listWords(['mullet', 'scad'])).toBe('mullet and scad');
  expect(listWords(['mullet', 'scad', 'squid'])).toBe('mullet, scad and squid');
  expect(listWords(['a', 'b', 'c', 'd', 'e'], 2)).toBe('a, b and 3 others');
  expect(listWords(['a', 'b', 'c'], 2)).toBe('a, b and c');
});

test('a capital where a sentence begins', () => {
  expect(sentenceCase('port-long')).toBe('Port-long');
  expect(sentenceCase('élan')).toBe('Élan');
  expect(sentenceCase('')).toBe('');
});

test('levels lose their underscores and nothing else', () => {
  expect(levelWords('goggle_eye Big')).toBe('goggle eye Big');
});

test('control characters, lone surrogates and line breaks cannot reach a page', () => {
  expect(printable('a\u0000b\u001bc\ud800d')).toBe('a\ufffdb\ufffdc\ufffdd');
  expect(printable('two\r\nlines\tand tab')).toBe('two lines and tab');
  expect(printable('<b>&"\'')).toBe('<b>&"\'');
  expect(printable('🐟 naïve')).toBe('🐟 naïve');
});
