import { InputError } from '../../errors.js';
import { inflateEntry, readZip } from '../../zip/zip-container.js';

/** Parts of a zip file by name, unpacked when asked for. */
export interface PackageParts {
  names: string[];
  /** Bytes of a part; undefined where there is none. */
  part: (name: string) => Buffer | undefined;
  /** Text of a part that is UTF-8 or says by its byte-order mark that it is UTF-16. */
  text: (name: string) => string | undefined;
}

/** What files of readings may unpack to: a year of a minute's readings is less. */
const LIMITS = { totalBytes: 300_000_000, entries: 2_000 };

/**
 * Opens a zip file of readings. Sizes are held to a limit before anything is unpacked, checksums are checked when it is.
 *
 * @param bytes the whole file
 * @param file name for messages
 * @returns its parts
 * @throws InputError where the file is cut, damaged, protected, or unpacks to more than 300 MB
 * @example openParts(bytes, 'may.zip').names // ['may.csv']
 */
export function openParts(bytes: Uint8Array, file: string): PackageParts {
  const entries = told(() => readZip(bytes, file, LIMITS));
  const byName = new Map(entries.map((entry) => [entry.name, entry]));
  const part = (name: string): Buffer | undefined => {
    const entry = byName.get(name);
    if (entry === undefined) return undefined;
    return told(() => inflateEntry(entry, file));
  };
  return {
    names: entries.map(({ name }) => name),
    part,
    text: (name) => {
      const content = part(name);
      if (content === undefined) return undefined;
      const isUtf16 = content[0] === 0xff && content[1] === 0xfe;
      return new TextDecoder(isUtf16 ? 'utf-16le' : 'utf-8').decode(content);
    },
  };
}

/** A zip file of readings is no workbook of ours: the messages of its reader say so otherwise. */
function told<Result>(work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const found = error.found.replace(/^the workbook/, 'the file');
    const isProtected = /password/.test(found);
    throw new InputError(
      found,
      isProtected ? 'Save a copy without a password, or unpack it first.' : 'Download or save it again.',
      error.place,
    );
  }
}
