import { InputError } from '../errors.js';
import type { InputFile } from './import-options.js';
import { kindOfBytes } from './kind-of-bytes.js';
import { openParts, type PackageParts } from './sheets/package-parts.js';
import { isWorkbook } from './sheets/read-sheets.js';

/** Names of texts that come with a download and are no readings. */
const READ_ME = /(^|\/)(read[ _-]?me|licen[cs]e|terms)[^/]*\.(txt|md|html?|rtf)$/i;

/** Files as they were given, those out of zip files by themselves. */
export interface UnpackedFiles {
  files: InputFile[];
  /** What was left out of zip files, and why. */
  notRead: { file: string; why: string }[];
}

/** Names that archivers leave behind, and folders. */
const LEFTOVERS = /(^|\/)(__MACOSX\/|\.DS_Store$|Thumbs\.db$|desktop\.ini$|\._)|\/$/;

/**
 * Takes the files out of zip files: what is in one is read as if it were given by itself. Workbooks are zip files too and stay whole.
 *
 * @param files names and bytes
 * @returns files, and what zip files hold beside readings
 * @throws InputError for a zip file that is damaged, protected, without files, or in another one
 * @example unpackFiles([{ name: 'may.zip', bytes }]).files.map(({ name }) => name) // ['may.zip/may.csv']
 */
export function unpackFiles(files: readonly InputFile[]): UnpackedFiles {
  const unpacked: UnpackedFiles = { files: [], notRead: [] };
  for (const file of files) {
    if (kindOfBytes(file.bytes) !== 'zip') {
      unpacked.files.push(file);
      continue;
    }
    const parts = openParts(file.bytes, file.name);
    if (isWorkbook(parts)) unpacked.files.push(file);
    else takeOut(file, parts, unpacked);
  }
  return unpacked;
}

function takeOut(file: InputFile, parts: PackageParts, unpacked: UnpackedFiles): void {
  let taken = 0;
  for (const part of parts.names) {
    if (LEFTOVERS.test(part)) {
      if (!part.endsWith('/'))
        unpacked.notRead.push({ file: `${file.name}/${part}`, why: 'left by an archiver' });
      continue;
    }
    const name = `${file.name}/${part}`;
    const bytes = parts.part(part)!;
    const kind = kindOfBytes(bytes);
    if (kind === 'pdf' || kind === 'picture') {
      unpacked.notRead.push({ file: name, why: kind === 'pdf' ? 'a PDF' : 'a picture' });
      continue;
    }
    if (kind === 'other' && READ_ME.test(part)) {
      unpacked.notRead.push({ file: name, why: 'by its name a word to the reader' });
      continue;
    }
    if (bytes.length === 0) {
      unpacked.notRead.push({ file: name, why: 'it is empty' });
      continue;
    }
    if (kind === 'zip' && !isWorkbook(openParts(bytes, name))) {
      throw new InputError('a zip file stands inside another', 'Unpack the outer one first.', { file: name });
    }
    unpacked.files.push({ name, bytes, packedIn: file.name });
    taken++;
  }
  if (taken === 0) {
    throw new InputError(
      'the zip file holds no file of readings',
      'Give one with files of readings, such as CSV or .xlsx.',
      { file: file.name },
    );
  }
}
