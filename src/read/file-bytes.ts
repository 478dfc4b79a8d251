import { createReadStream } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { UserError } from '../base/problem.ts';
import type { FoundFile } from './find-files.ts';
import { unreadable } from './messages-files.ts';

/** The bytes of a file, chunk by chunk, as often as they are asked for. */
export type FileBytes = () => AsyncIterable<Buffer>;

/** Files up to this size are held while they are read; larger ones are streamed each time. */
const HELD_BYTES = 4_000_000;
const CHUNK_BYTES = 1 << 18;

/**
 * Opens a file for reading several times over, in bounded memory. What the system refuses becomes a
 * `UserError` (exit code 3).
 */
export async function fileBytes(found: FoundFile): Promise<FileBytes> {
  if (found.bytes > HELD_BYTES) return () => streamed(found);
  const bytes = await readFile(found.path).catch((error: Error) => refuse(found, error));
  return () => chunksOf(bytes);
}

async function* streamed(found: FoundFile): AsyncGenerator<Buffer> {
  const stream = createReadStream(found.path, { highWaterMark: CHUNK_BYTES });
  const broken = (error: Error) => refuse(found, error);
  const chunks = stream[Symbol.asyncIterator]();
  try {
    for (let next = await chunks.next().catch(broken); !next.done; ) {
      yield next.value;
      next = await chunks.next().catch(broken);
    }
  } finally {
    stream.destroy();
  }
}

async function* chunksOf(bytes: Buffer): AsyncGenerator<Buffer> {
  for (let at = 0; at < bytes.length; at += CHUNK_BYTES) {
    yield bytes.subarray(at, at + CHUNK_BYTES);
  }
}

function refuse(found: FoundFile, error: Error): never {
  throw new UserError(unreadable(found.name, error), 3);
}
