import { gunzipSync, gzipSync } from 'node:zlib';
import { InputError } from '../errors.js';

/*
 * The container of a workbook: a zip file whose entries are looked up, copied as they are, or replaced.
 *
 * Zip libraries inflate and deflate every entry again. Here an entry that nobody touches keeps its compressed bytes, and
 * only entries that are read get inflated, by Node's own zlib. (Layout: PKWARE APPNOTE 6.3, sections 4.3 and 4.5.)
 */

/** One file of the container, compressed. */
export interface ZipEntry {
  name: string;
  /** 0 = stored, 8 = deflated. */
  method: number;
  /** General purpose bits; bit 11 says that the name is UTF-8. */
  flags: number;
  dosTime: number;
  dosDate: number;
  crc32: number;
  /** Size after inflating, bytes, as the container declares it. */
  size: number;
  compressed: Uint8Array;
  nameBytes: Uint8Array;
  madeBy: number;
  externalAttributes: number;
}

/** What a container may hold at most. */
export interface ZipLimits {
  /** Sum of all declared sizes, bytes. */
  totalBytes: number;
  entries: number;
}

export const defaultZipLimits: ZipLimits = { totalBytes: 600_000_000, entries: 10_000 };

const endSignature = 0x06054b50;
const end64Signature = 0x06064b50;
const end64LocatorSignature = 0x07064b50;
const directorySignature = 0x02014b50;
const localSignature = 0x04034b50;
/** Deflate can't do better than 1032 to 1 (RFC 1951: 258 bytes from two bits). */
const greatestRatio = 1032;
const utf8Names = 1 << 11;

const saveAgain =
  'Open it in a spreadsheet program and save it again as .xlsx, or go back to an earlier copy';

function damaged(fileName: string, what: string): InputError {
  return new InputError(`the workbook is damaged: ${what}`, `${saveAgain}.`, { file: fileName });
}

function tooLarge(fileName: string, limits: ZipLimits): InputError {
  return new InputError(
    `it unpacks to more than ${Math.round(limits.totalBytes / 1e6)} MB`,
    'A workbook of half-hourly readings is far smaller. Check where this file comes from.',
    { file: fileName },
  );
}

function findEnd(bytes: Buffer): number {
  const earliest = Math.max(0, bytes.length - 22 - 0xffff);
  for (let at = bytes.length - 22; at >= earliest; at--) {
    if (bytes.readUInt32LE(at) === endSignature && at + 22 + bytes.readUInt16LE(at + 20) <= bytes.length)
      return at;
  }
  return -1;
}

interface Directory {
  count: number;
  offset: number;
}

function readDirectoryPlace(bytes: Buffer, end: number): Directory {
  const count = bytes.readUInt16LE(end + 10);
  const offset = bytes.readUInt32LE(end + 16);
  if (count !== 0xffff && offset !== 0xffffffff) return { count, offset };
  const locator = end - 20;
  if (locator < 0 || bytes.readUInt32LE(locator) !== end64LocatorSignature) return { count, offset };
  const end64 = Number(bytes.readBigUInt64LE(locator + 8));
  if (bytes.readUInt32LE(end64) !== end64Signature) throw new RangeError('no zip64 end record');
  return {
    count: Number(bytes.readBigUInt64LE(end64 + 32)),
    offset: Number(bytes.readBigUInt64LE(end64 + 48)),
  };
}

interface Sizes {
  size: number;
  compressedSize: number;
  localOffset: number;
}

/** Sizes that don't fit in 32 bits stand in the extra field with id 1, in this order, only those that are missing. */
function widenFromZip64(extra: Buffer, sizes: Sizes): void {
  for (let at = 0; at + 4 <= extra.length; ) {
    const id = extra.readUInt16LE(at);
    let field = at + 4;
    const next = field + extra.readUInt16LE(at + 2);
    if (id === 1) {
      for (const key of ['size', 'compressedSize', 'localOffset'] as const) {
        if (sizes[key] !== 0xffffffff) continue;
        sizes[key] = Number(extra.readBigUInt64LE(field));
        field += 8;
      }
    }
    at = next;
  }
}

function readEntries(bytes: Buffer, end: number, fileName: string, limits: ZipLimits): ZipEntry[] {
  const directory = readDirectoryPlace(bytes, end);
  if (directory.count > limits.entries) {
    throw damaged(fileName, `it claims to hold ${directory.count} parts`);
  }
  const entries: ZipEntry[] = [];
  const spans: [number, number][] = [];
  let total = 0;
  let at = directory.offset;
  for (let index = 0; index < directory.count; index++) {
    if (bytes.readUInt32LE(at) !== directorySignature) throw new RangeError('no directory record');
    const sizes: Sizes = {
      size: bytes.readUInt32LE(at + 24),
      compressedSize: bytes.readUInt32LE(at + 20),
      localOffset: bytes.readUInt32LE(at + 42),
    };
    const nameEnd = at + 46 + bytes.readUInt16LE(at + 28);
    const extraEnd = nameEnd + bytes.readUInt16LE(at + 30);
    const nameBytes = bytes.subarray(at + 46, nameEnd);
    widenFromZip64(bytes.subarray(nameEnd, extraEnd), sizes);
    const flags = bytes.readUInt16LE(at + 8);
    const name = nameBytes.toString(flags & utf8Names ? 'utf8' : 'latin1');
    if ((flags & 1) !== 0) {
      throw new InputError(
        'the workbook is protected by a password',
        'Save a copy without a password to open.',
        {
          file: fileName,
        },
      );
    }
    total += sizes.size;
    if (total > limits.totalBytes) throw tooLarge(fileName, limits);
    if (sizes.size > sizes.compressedSize * greatestRatio + 64) {
      throw damaged(fileName, `part '${name}' claims a size that its bytes can't give`);
    }
    if (bytes.readUInt32LE(sizes.localOffset) !== localSignature) throw new RangeError('no local header');
    const dataStart =
      sizes.localOffset +
      30 +
      bytes.readUInt16LE(sizes.localOffset + 26) +
      bytes.readUInt16LE(sizes.localOffset + 28);
    const dataEnd = dataStart + sizes.compressedSize;
    if (dataEnd > bytes.length) throw new RangeError('part beyond the end');
    spans.push([sizes.localOffset, dataEnd]);
    entries.push({
      name,
      method: bytes.readUInt16LE(at + 10),
      flags,
      dosTime: bytes.readUInt16LE(at + 12),
      dosDate: bytes.readUInt16LE(at + 14),
      crc32: bytes.readUInt32LE(at + 16),
      size: sizes.size,
      compressed: bytes.subarray(dataStart, dataEnd),
      nameBytes,
      madeBy: bytes.readUInt16LE(at + 4),
      externalAttributes: bytes.readUInt32LE(at + 38),
    });
    at = extraEnd + bytes.readUInt16LE(at + 32);
  }
  spans.sort((a, b) => a[0] - b[0]);
  for (let index = 1; index < spans.length; index++) {
    if ((spans[index] as [number, number])[0] < (spans[index - 1] as [number, number])[1]) {
      throw damaged(fileName, 'two of its parts overlap');
    }
  }
  return entries;
}

/**
 * Lists what a zip file holds, without inflating anything.
 *
 * @param bytes the whole file; entries are views of it
 * @param fileName name for messages
 * @param limits what is refused as too large
 * @returns the entries in the order of the directory
 * @throws InputError when the file is not a zip, is cut short or damaged, is encrypted, or claims more than the limits
 */
export function readZip(
  bytes: Uint8Array,
  fileName: string,
  limits: ZipLimits = defaultZipLimits,
): ZipEntry[] {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = buffer.length < 22 ? -1 : findEnd(buffer);
  if (end < 0) throw damaged(fileName, 'its end is missing, as after a broken download or copy');
  try {
    return readEntries(buffer, end, fileName, limits);
  } catch (error) {
    // Node's RangeError: an offset that points outside the file.
    if (error instanceof RangeError)
      throw damaged(fileName, 'its directory of parts does not match its bytes');
    throw error;
  }
}

const gzipHeader = Uint8Array.of(0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 255);

/**
 * Inflates one entry and checks its checksum. Never allocates more than the entry's declared size.
 *
 * @param entry an entry of {@link readZip}
 * @param fileName name for messages
 * @returns the bytes of the part
 * @throws InputError when the bytes are damaged or are more than declared
 */
export function inflateEntry(entry: ZipEntry, fileName: string): Buffer {
  if (entry.method !== 0 && entry.method !== 8) {
    throw damaged(
      fileName,
      `part '${entry.name}' is packed by a method that workbooks don't use (${entry.method})`,
    );
  }
  if (entry.method === 0) {
    if (entry.compressed.length !== entry.size)
      throw damaged(fileName, `part '${entry.name}' has a wrong size`);
    if (crc32Of(entry.compressed) !== entry.crc32)
      throw damaged(fileName, `the checksum of part '${entry.name}' is wrong`);
    return Buffer.from(entry.compressed.buffer, entry.compressed.byteOffset, entry.size);
  }
  // Dressed as a gzip member, zlib checks length and CRC-32 by itself.
  const member = Buffer.allocUnsafe(gzipHeader.length + entry.compressed.length + 8);
  member.set(gzipHeader, 0);
  member.set(entry.compressed, gzipHeader.length);
  member.writeUInt32LE(entry.crc32, member.length - 8);
  member.writeUInt32LE(entry.size, member.length - 4);
  try {
    // A chunk that holds everything spares a second copy; the spare bytes stop zlib from asking for another chunk.
    const inflated = gunzipSync(member, { maxOutputLength: entry.size + 1, chunkSize: entry.size + 64 });
    if (inflated.length === entry.size) return inflated;
  } catch {
    // Told below: every cause of zlib's is the same to the user.
  }
  throw damaged(fileName, `part '${entry.name}' can't be unpacked, or its checksum is wrong`);
}

/** CRC-32 of bytes, as the trailer of a gzip member has it. */
function crc32Of(bytes: Uint8Array): number {
  const member = gzipSync(bytes, { level: 0 });
  return member.readUInt32LE(member.length - 8);
}

/**
 * An entry with new content, in the place and under the name of an old one. Its time is fixed, so that the same
 * content always gives the same bytes.
 *
 * @param old the entry that it replaces
 * @param content new bytes of the part
 * @param level deflate level, 1 (quick) to 9 (small)
 * @returns the new entry
 */
export function deflateEntry(old: ZipEntry, content: Uint8Array, level: number): ZipEntry {
  const member = gzipSync(content, { level });
  return {
    ...old,
    method: 8,
    dosTime: 0,
    dosDate: 0x21, // 1 January 1980, the first day that the format knows
    crc32: member.readUInt32LE(member.length - 8),
    size: content.length,
    compressed: member.subarray(gzipHeader.length, member.length - 8),
  };
}

/**
 * Writes a zip file. Compressed bytes are copied as they are; names, order, times and attributes are kept.
 *
 * @param entries entries in their order
 * @returns the file
 * @throws RangeError when the file would need the 64-bit form (over 4 GB), far above the limits for reading
 */
export function writeZip(entries: readonly ZipEntry[]): Buffer {
  let length = 22;
  for (const entry of entries) length += 30 + 46 + 2 * entry.nameBytes.length + entry.compressed.length;
  if (length > 0xfffffffe || entries.length > 0xfffe) throw new RangeError('too large for a plain zip file');
  const out = Buffer.alloc(length);
  const directory: Buffer[] = [];
  let at = 0;
  for (const entry of entries) {
    // Sizes stand in the header, so nothing follows the data: bit 3 says otherwise.
    const flags = entry.flags & ~8;
    const record = Buffer.alloc(46 + entry.nameBytes.length);
    record.writeUInt32LE(directorySignature, 0);
    record.writeUInt16LE(entry.madeBy, 4);
    record.writeUInt16LE(20, 6);
    record.writeUInt16LE(flags, 8);
    record.writeUInt16LE(entry.method, 10);
    record.writeUInt16LE(entry.dosTime, 12);
    record.writeUInt16LE(entry.dosDate, 14);
    record.writeUInt32LE(entry.crc32, 16);
    record.writeUInt32LE(entry.compressed.length, 20);
    record.writeUInt32LE(entry.size, 24);
    record.writeUInt16LE(entry.nameBytes.length, 28);
    record.writeUInt32LE(entry.externalAttributes, 38);
    record.writeUInt32LE(at, 42);
    record.set(entry.nameBytes, 46);
    directory.push(record);
    // The local header repeats bytes 6 to 30 of the directory record.
    out.writeUInt32LE(localSignature, at);
    record.copy(out, at + 4, 6, 30);
    at += 30;
    out.set(entry.nameBytes, at);
    at += entry.nameBytes.length;
    out.set(entry.compressed, at);
    at += entry.compressed.length;
  }
  const directoryStart = at;
  for (const record of directory) {
    record.copy(out, at);
    at += record.length;
  }
  out.writeUInt32LE(endSignature, at);
  out.writeUInt16LE(entries.length, at + 8);
  out.writeUInt16LE(entries.length, at + 10);
  out.writeUInt32LE(at - directoryStart, at + 12);
  out.writeUInt32LE(directoryStart, at + 16);
  return out;
}
