/** What a file is by its first bytes. */
export type BytesKind = 'zip' | 'compound' | 'pdf' | 'gzip' | 'picture' | 'other';

const SIGNATURES: readonly (readonly [BytesKind, readonly number[]])[] = [
  ['zip', [0x50, 0x4b, 0x03, 0x04]],
  // A zip file without files.
  ['zip', [0x50, 0x4b, 0x05, 0x06]],
  // [MS-CFB] 2.2: older workbooks, and newer ones that are encrypted.
  ['compound', [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1]],
  ['pdf', [0x25, 0x50, 0x44, 0x46]],
  ['gzip', [0x1f, 0x8b, 8]],
  ['picture', [0x89, 0x50, 0x4e, 0x47]],
  ['picture', [0xff, 0xd8, 0xff]],
];

/**
 * What a file is by its first bytes.
 *
 * @param bytes the file, or its beginning
 * @returns its kind; `other` for text
 * @example kindOfBytes(new TextEncoder().encode('%PDF-1.7')) // 'pdf'
 */
export function kindOfBytes(bytes: Uint8Array): BytesKind {
  return SIGNATURES.find(([, signature]) => signature.every((byte, i) => bytes[i] === byte))?.[0] ?? 'other';
}
