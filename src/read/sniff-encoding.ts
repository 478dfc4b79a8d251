import type { FileBytes } from './file-bytes.ts';

/** The encodings a log may come in. */
export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** How a file's bytes are to be turned into text. */
export interface FoundEncoding {
  readonly encoding: Encoding;
  /** The file begins with a byte order mark. */
  readonly marked: boolean;
  /** Bytes that are no text in that encoding; each becomes the replacement character. */
  readonly badBytes: number;
}

/** Enough of a file to tell UTF-16 by its empty bytes. */
const HEAD_BYTES = 4096;

/**
 * Finds the encoding of a file: by its byte order mark; else UTF-16 by the pattern of zero bytes;
 * else UTF-8 if the whole file is sound UTF-8 (or has more sound letters than bad bytes); else
 * Windows-1252. Reads the file once, in bounded memory. The machine's own locale plays no part.
 */
export async function sniffEncoding(chunks: FileBytes): Promise<FoundEncoding> {
  const scan = new Utf8Scan();
  let head: Buffer | null = null;
  for await (const bytes of chunks()) {
    if (head === null) {
      head = bytes.subarray(0, HEAD_BYTES);
      const wide = markedEncoding(head) ?? wideEncoding(head);
      if (wide !== null) return wide;
    }
    scan.take(bytes);
  }
  const marked = head !== null && head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf;
  const isUtf8 = marked || scan.bad === 0 || scan.sound > scan.bad;
  return isUtf8
    ? { encoding: 'utf-8', marked, badBytes: scan.bad }
    : { encoding: 'windows-1252', marked: false, badBytes: 0 };
}

function markedEncoding(head: Buffer): FoundEncoding | null {
  if (head[0] === 0xff && head[1] === 0xfe) {
    return { encoding: 'utf-16le', marked: true, badBytes: 0 };
  }
  if (head[0] === 0xfe && head[1] === 0xff) {
    return { encoding: 'utf-16be', marked: true, badBytes: 0 };
  }
  return null;
}

/** UTF-16 without a mark: in a log every other byte is zero, and always on the same side. */
function wideEncoding(head: Buffer): FoundEncoding | null {
  const pairs = Math.floor(head.length / 2);
  if (pairs < 2) return null;
  let high = 0;
  let low = 0;
  for (let i = 0; i < pairs; i++) {
    if (head[2 * i] === 0) high++;
    if (head[2 * i + 1] === 0) low++;
  }
  if (low > 0.6 * pairs && high < 0.05 * pairs) {
    return { encoding: 'utf-16le', marked: false, badBytes: 0 };
  }
  if (high > 0.6 * pairs && low < 0.05 * pairs) {
    return { encoding: 'utf-16be', marked: false, badBytes: 0 };
  }
  return null;
}

/** Counts the sound multi-byte letters and the bad bytes of UTF-8 text, chunk by chunk. */
class Utf8Scan {
  sound = 0;
  bad = 0;
  #awaited = 0;
  #least = 0x80;
  #most = 0xbf;

  take(bytes: Buffer): void {
    for (const byte of bytes) {
      if (byte < 0x80 && this.#awaited === 0) continue;
      this.#step(byte);
    }
  }

  #step(byte: number): void {
    if (this.#awaited > 0) {
      if (byte >= this.#least && byte <= this.#most) {
        this.#awaited--;
        if (this.#awaited === 0) this.sound++;
        this.#least = 0x80;
        this.#most = 0xbf;
        return;
      }
      this.bad++;
      this.#awaited = 0;
    }
    if (byte < 0x80) return;
    this.#least = 0x80;
    this.#most = 0xbf;
    if (byte >= 0xc2 && byte <= 0xdf) this.#awaited = 1;
    else if (byte >= 0xe0 && byte <= 0xef) this.#awaited = 2;
    else if (byte >= 0xf0 && byte <= 0xf4) this.#awaited = 3;
    else this.bad++;
    // Overlong forms, surrogates and code points past the last one are no UTF-8 (RFC 3629).
    if (byte === 0xe0) this.#least = 0xa0;
    if (byte === 0xed) this.#most = 0x9f;
    if (byte === 0xf0) this.#least = 0x90;
    if (byte === 0xf4) this.#most = 0x8f;
  }
}
