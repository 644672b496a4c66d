/** How a file may be written. */
export const ENCODINGS = [
  'UTF-8',
  'CRLF',
  'CR',
  'UTF-8 with a mark',
  'UTF-16 LE',
  'UTF-16 BE',
  'UTF-16 LE without a mark',
  'Latin-1',
] as const;

/** One of them; `CRLF` and `CR` are UTF-8 with other line ends. */
export type Encoding = (typeof ENCODINGS)[number];

/**
 * A piece of a text file as bytes.
 *
 * @param text the piece
 * @param encoding how it is written
 * @param isFirst whether it begins the file, where the byte-order mark goes
 * @returns bytes of its own
 * @example encode('°', 'Latin-1', true) // one byte, 0xb0
 */
export function encode(text: string, encoding: Encoding, isFirst: boolean): Buffer {
  const marked = isFirst ? `\ufeff${text}` : text;
  switch (encoding) {
    case 'Latin-1':
      return Buffer.from(text, 'latin1');
    case 'UTF-8 with a mark':
      return Buffer.from(marked);
    case 'UTF-16 LE':
      return Buffer.from(marked, 'utf16le');
    case 'UTF-16 LE without a mark':
      return Buffer.from(text, 'utf16le');
    case 'UTF-16 BE':
      return Buffer.from(marked, 'utf16le').swap16();
    default:
      return Buffer.from(text);
  }
}
