import { crc32 } from 'node:zlib';
import type { ZipEntry } from './zip-entries.ts';

/**
 * Packs entries into a zip archive without compressing them, so that a reader downstream meets
 * nothing but what was checked before. Same entries, same bytes.
 * Source: PKWARE APPNOTE 6.3, sections 4.3.7, 4.3.12 and 4.3.16, for the layout of the records.
 */
export function zipStored(entries: readonly ZipEntry[]): Buffer {
  const parts: Buffer[] = [];
  const directory: Buffer[] = [];
  let at = 0;
  for (const { name, content } of entries) {
    const nameBytes = Buffer.from(name, 'utf8');
    const shared = sharedFields(nameBytes, content);
    const local = Buffer.concat([signed('PK\u0003\u0004'), shared, nameBytes]);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(at, 10);
    directory.push(signed('PK\u0001\u0002'), Buffer.from([20, 0]), shared, place, nameBytes);
    parts.push(local, content);
    at += local.length + content.length;
  }
  const listed = Buffer.concat(directory);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(entries.length, 4);
  end.writeUInt16LE(entries.length, 6);
  end.writeUInt32LE(listed.length, 8);
  end.writeUInt32LE(at, 12);
  return Buffer.concat([...parts, listed, signed('PK\u0005\u0006'), end]);
}

/** The fields from "version needed" to "extra field length", alike in both places. */
function sharedFields(name: Buffer, content: Buffer): Buffer {
  const fields = Buffer.alloc(26);
  fields.writeUInt16LE(20, 0);
  // Names are UTF-8.
  fields.writeUInt16LE(0x0800, 2);
  // The first day an archive can name, 1 January 1980.
  fields.writeUInt16LE(0x0021, 8);
  fields.writeUInt32LE(crc32(content), 10);
  fields.writeUInt32LE(content.length, 14);
  fields.writeUInt32LE(content.length, 18);
  fields.writeUInt16LE(name.length, 22);
  return fields;
}

function signed(signature: string): Buffer {
  return Buffer.from(signature, 'latin1');
}
