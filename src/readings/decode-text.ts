import { isUtf8 } from 'node:buffer';
import { InputError } from '../errors.js';

/** Text of a file, as UTF-8 bytes without byte-order mark, and how it was stored. */
interface DecodedText {
  utf8: Buffer;
  /** For the report, for example `UTF-16 LE`. */
  encoding: string;
}

/**
 * Finds the encoding of a text file: UTF-8, UTF-16 either way round (with a byte-order mark or without), else Windows-1252.
 *
 * @param bytes content of the file
 * @param file name for messages
 * @returns the text as UTF-8 bytes, and the name of its encoding
 * @throws InputError when the file is empty or not text
 * @example decodeText(new TextEncoder().encode('a,b'), 'a.csv').encoding // 'UTF-8'
 */
export function decodeText(bytes: Uint8Array, file: string): DecodedText {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (buffer.length === 0) throw new InputError('the file is empty', 'Export the readings again.', { file });
  const decoded = decode(buffer);
  if (
    !/\S/.test(decoded.utf8.subarray(0, 4096).toString('utf8')) &&
    !/\S/.test(decoded.utf8.toString('utf8'))
  ) {
    throw new InputError('the file holds only blanks', 'Export the readings again.', { file });
  }
  if (hasControlBytes(decoded.utf8)) {
    throw new InputError(
      'the file is binary, not text',
      'Give a file of comma, semicolon or tab separated readings.',
      { file },
    );
  }
  return decoded;
}

function decode(buffer: Buffer): DecodedText {
  if (buffer[0] === 0xef && buffer[1] === 0xbb && buffer[2] === 0xbf) {
    const rest = buffer.subarray(3);
    return isUtf8(rest)
      ? { utf8: rest, encoding: 'UTF-8 with byte-order mark' }
      : recode(rest, 'windows-1252', 'Windows-1252 (Latin-1), as it is not UTF-8, though marked so');
  }
  if (buffer[0] === 0xff && buffer[1] === 0xfe) return recode(buffer.subarray(2), 'utf-16le', 'UTF-16 LE');
  if (buffer[0] === 0xfe && buffer[1] === 0xff) return recode(buffer.subarray(2), 'utf-16be', 'UTF-16 BE');
  const sample = buffer.subarray(0, 2000);
  const zeros = [0, 0];
  for (let i = 0; i < sample.length; i++) if (sample[i] === 0) zeros[i % 2]!++;
  const half = sample.length / 2;
  if (zeros[1]! > 0.7 * half && zeros[0] === 0)
    return recode(buffer, 'utf-16le', 'UTF-16 LE, no byte-order mark');
  if (zeros[0]! > 0.7 * half && zeros[1] === 0)
    return recode(buffer, 'utf-16be', 'UTF-16 BE, no byte-order mark');
  if (isUtf8(buffer)) return { utf8: buffer, encoding: 'UTF-8' };
  return recode(buffer, 'windows-1252', 'Windows-1252 (Latin-1), as it is not UTF-8');
}

function recode(buffer: Buffer, label: string, encoding: string): DecodedText {
  return { utf8: Buffer.from(new TextDecoder(label, { ignoreBOM: true }).decode(buffer), 'utf8'), encoding };
}

/** Bytes that no text holds: below space, except tab, line feed, form feed, carriage return and the DOS end mark. */
function hasControlBytes(utf8: Buffer): boolean {
  for (let i = 0; i < utf8.length; i++) {
    const byte = utf8[i]!;
    if (byte < 32 && byte !== 9 && byte !== 10 && byte !== 12 && byte !== 13 && byte !== 26) return true;
  }
  return false;
}
