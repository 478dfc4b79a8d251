import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { hmacSha256, keyedUniforms, pseudonym } from '../../src/share/pseudonym.ts';
import { loadCheckValue } from '../helpers/reference.ts';

test('HMAC-SHA-256 is that of RFC 4231, test cases 1 and 2', () => {
  const { inputs, expected } = loadCheckValue<
    { cases: { key_hex?: string; key?: string; data: string }[] },
    { hex: string[] }
  >('hmac-sha256-rfc4231');
  const got = inputs.cases.map(({ key_hex, key = '', data }) =>
    hmacSha256(key_hex === undefined ? Buffer.from(key) : Buffer.from(key_hex, 'hex'), data),
  );
  expect(got.map((hash) => hash.toString('hex'))).toEqual(expected.hex);
});

describe('pseudonyms', () => {
  const key = Buffer.alloc(32, 7);
  const boats = ['Quillandra', 'Marrowind', 'Teal Hesper'];

  test('a dictionary of names without the key finds none', () => {
    const shown = boats.map((boat) => pseudonym(key, 'vessel', boat));
    const otherKeys = [
      Buffer.alloc(32),
      Buffer.alloc(0),
      Buffer.from('Quillandra'),
      Buffer.alloc(32, 8),
    ];
    const guesses = boats.flatMap((boat) => [
      ...['sha256', 'sha1', 'md5'].flatMap((hash) =>
        [
          boat,
          boat.toLowerCase(),
          `vessel${boat}`,
          `vessel|${boat}`,
          JSON.stringify(['vessel', boat]),
        ].map((text) => createHash(hash).update(text).digest('hex').slice(0, 24)),
      ),
      ...otherKeys.map((other) => pseudonym(other, 'vessel', boat)),
    ]);
    expect(shown.filter((one) => guesses.includes(one))).toEqual([]);
  });

  test('no fewer than 80 bits, one a name, and none that links kinds', () => {
    const shown = boats.map((boat) => pseudonym(key, 'vessel', boat));
    expect(new Set(shown).size).toBe(3);
    expect(shown.every((one) => /^[0-9a-f]{20,}$/.test(one))).toBe(true);
    expect(pseudonym(key, 'trip', 'Quillandra')).not.toBe(pseudonym(key, 'vessel', 'Quillandra'));
    expect(pseudonym(key, 'vessel', 'Quillandra')).toBe(shown[0]);
  });
});

test('keyed uniform numbers fill [0, 1) evenly', () => {
  const key = Buffer.alloc(32, 3);
  const drawn = Array.from({ length: 4000 }, (_, at) => keyedUniforms(key, [String(at)])).flat();
  expect(drawn.every((u) => u >= 0 && u < 1)).toBe(true);
  const inTenths = Array(10).fill(0);
  for (const u of drawn) inTenths[Math.floor(10 * u)] += 1;
  const chiSquare = inTenths.reduce((sum, n) => sum + (n - 800) ** 2 / 800, 0);
  // 99.9 % point of chi-square on 9 degrees of freedom, from a published table.
  expect(chiSquare).toBeLessThan(27.88);
});
