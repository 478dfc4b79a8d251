import type { FileBytes } from './file-bytes.ts';
import type { Encoding } from './sniff-encoding.ts';

/**
 * The letters of Windows-1252 between 0x80 and 0x9F; the five bytes it leaves open stay controls.
 * Some runtimes decode the label "windows-1252" as Latin-1, so these are mapped here.
 * Source: WHATWG Encoding Standard, index windows-1252.
 */
const HIGH_LETTERS = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/** The text of a file, chunk by chunk, without its byte order mark. */
export async function* decodeFile(chunks: FileBytes, encoding: Encoding): AsyncGenerator<string> {
  const decode = encoding === 'windows-1252' ? decodeWindows1252 : streamDecoder(encoding);
  for await (const chunk of chunks()) {
    const text = decode(chunk);
    if (text !== '') yield text;
  }
  const rest = decode(null);
  if (rest !== '') yield rest;
}

function streamDecoder(encoding: Encoding): (chunk: Buffer | null) => string {
  const decoder = new TextDecoder(encoding);
  return (chunk) => (chunk === null ? decoder.decode() : decoder.decode(chunk, { stream: true }));
}

function decodeWindows1252(chunk: Buffer | null): string {
  if (chunk === null) return '';
  const text = chunk.toString('latin1');
  return text.replace(
    /[\u0080-\u009f]/g,
    (letter) => HIGH_LETTERS[letter.charCodeAt(0) - 0x80] ?? '',
  );
}
