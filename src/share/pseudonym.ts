import { createHmac } from 'node:crypto';

/** 96 bits: more than the 80 below which two names could come to share a pseudonym. */
const HEX_DIGITS = 24;

/** What a pseudonym stands for; each has pseudonyms of its own, so that none links to another. */
export type Pseudonymous = 'vessel' | 'trip' | 'trip-token' | 'trip-id' | 'trip-content';

/**
 * The pseudonym of a name or id: the same for the same key and text, and nothing that a list of
 * names could be tried against without the key.
 * Source: RFC 2104 (HMAC) with SHA-256, cut to 96 bits.
 */
export function pseudonym(key: Buffer, kind: Pseudonymous, text: string): string {
  return keyedHash(key, [kind, text])
    .subarray(0, HEX_DIGITS / 2)
    .toString('hex');
}

/** HMAC-SHA-256 of parts that cannot run into one another. */
export function keyedHash(key: Buffer, parts: readonly string[]): Buffer {
  return hmacSha256(key, JSON.stringify(parts));
}

/** HMAC-SHA-256 of a text in UTF-8. Source: RFC 2104, FIPS 180-4. */
export function hmacSha256(key: Buffer, text: string): Buffer {
  return createHmac('sha256', key).update(text, 'utf8').digest();
}

/** Numbers in [0, 1) that follow from key and text as dice would, and are the same each time. */
export function keyedUniforms(key: Buffer, parts: readonly string[]): readonly [number, number] {
  const bytes = keyedHash(key, ['noise', ...parts]);
  const uniform = (at: number) => Number(bytes.readBigUInt64BE(at) >> 11n) / 2 ** 53;
  return [uniform(0), uniform(8)];
}
