import { crc32, inflateRawSync } from 'node:zlib';
import { UserError } from '../base/problem.ts';
import * as say from './messages-workbook.ts';

/** One file out of a zip archive, unpacked. */
export interface ZipEntry {
  readonly name: string;
  readonly content: Buffer;
}

/** What the directory of an archive says of one entry. */
interface Listed {
  readonly name: string;
  readonly encrypted: boolean;
  readonly method: number;
  readonly crc: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly at: number;
}

const MOST_ENTRIES = 10_000;
const MOST_UNPACKED = 300_000_000;
/** Sheets of one repeated row pack 200 to 1; only larger entries than this are held to the limit. */
const MOST_TIMES_PACKED = 300;
const RATIO_FROM_BYTES = 5_000_000;
const END_BYTES = 22;
const LONGEST_COMMENT = 65_535;

/**
 * Unpacks the entries of a zip archive that `wanted` names, in bounded memory: the directory's own
 * sizes are checked before anything is unpacked, and no entry may grow beyond its stated size.
 * Throws a `UserError` (exit code 3) for an archive that is broken, encrypted or too large.
 * Source: PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16, for the layout of the records.
 */
export function zipEntries(
  bytes: Buffer,
  file: string,
  wanted: (name: string) => boolean,
): ZipEntry[] {
  const listed = readDirectory(bytes, file);
  const total = listed.reduce((sum, entry) => sum + entry.unpacked, 0);
  const swollen = listed.some(
    ({ packed, unpacked }) =>
      unpacked > RATIO_FROM_BYTES && unpacked > MOST_TIMES_PACKED * Math.max(1, packed),
  );
  if (total > MOST_UNPACKED || swollen) {
    throw new UserError(say.workbookSwells(file, total, MOST_UNPACKED), 3);
  }
  if (listed.some((entry) => entry.encrypted)) throw new UserError(say.workbookLocked(file), 3);
  return listed
    .filter((entry) => wanted(entry.name))
    .map((entry) => ({ name: entry.name, content: unpack(bytes, entry, file) }));
}

function readDirectory(bytes: Buffer, file: string): Listed[] {
  const end = bytes.lastIndexOf('PK\u0005\u0006', bytes.length - END_BYTES, 'latin1');
  if (end < 0 || end < bytes.length - END_BYTES - LONGEST_COMMENT) {
    throw new UserError(say.workbookBroken(file), 3);
  }
  const count = bytes.readUInt16LE(end + 10);
  if (count > MOST_ENTRIES) throw new UserError(say.workbookCrowded(file, count), 3);
  const listed: Listed[] = [];
  let at = bytes.readUInt32LE(end + 16);
  for (let i = 0; i < count; i++) {
    if (at + 46 > end || bytes.readUInt32LE(at) !== 0x02014b50) {
      throw new UserError(say.workbookBroken(file), 3);
    }
    const nameLength = bytes.readUInt16LE(at + 28);
    listed.push({
      name: bytes.toString('utf8', at + 46, at + 46 + nameLength).replaceAll('\\', '/'),
      encrypted: (bytes.readUInt16LE(at + 8) & 1) === 1,
      method: bytes.readUInt16LE(at + 10),
      crc: bytes.readUInt32LE(at + 16),
      packed: bytes.readUInt32LE(at + 20),
      unpacked: bytes.readUInt32LE(at + 24),
      at: bytes.readUInt32LE(at + 42),
    });
    at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
  }
  return listed;
}

function unpack(bytes: Buffer, entry: Listed, file: string): Buffer {
  const { at, method, packed, unpacked } = entry;
  if (at + 30 > bytes.length || bytes.readUInt32LE(at) !== 0x04034b50) {
    throw new UserError(say.workbookBroken(file), 3);
  }
  const start = at + 30 + bytes.readUInt16LE(at + 26) + bytes.readUInt16LE(at + 28);
  const content = inflated(bytes.subarray(start, start + packed), method, unpacked);
  if (content === null || content.length !== unpacked || crc32(content) !== entry.crc) {
    throw new UserError(say.workbookBroken(file), 3);
  }
  return content;
}

/** null: neither stored nor deflated, not sound, or larger than the directory says. */
function inflated(raw: Buffer, method: number, unpacked: number): Buffer | null {
  if (method === 0) return raw;
  if (method !== 8) return null;
  try {
    return inflateRawSync(raw, { maxOutputLength: Math.max(1, unpacked) });
  } catch {
    return null;
  }
}
