import type { ImportOptions } from '../import-options.js';
import { FILE_OPTION_KEYS, type FileOptions } from '../import-options.js';

/** What the files of a fill are of. */
export type FileKind = 'readings' | 'gas' | 'temperature';

/** What files of one shape were told, so that the next month need not be told again. */
export interface RememberedAnswers {
  kind: FileKind;
  /** The shape: names of the columns, as {@link shapeOfTables} gives them. */
  columns: string;
  /** What is left of the file's name once dates and counters are gone, as {@link nameOfExport} gives it; may be ''. */
  name: string;
  /** Name, without its folder, of the file that was told so. */
  toldFor: string;
  /** What it was told; empty where it was told nothing, while others much like it were. */
  answers: FileOptions;
}

/**
 * What the user says of one file, alone: without the zone and what is said of other files.
 *
 * @param options options that hold for the file
 * @returns those that say how it is to be read
 * @example answersIn({ timeZone: 'Europe/London', unit: 'Wh' }) // { unit: 'Wh' }
 */
export function answersIn(options: FileOptions | ImportOptions): FileOptions {
  return Object.fromEntries(
    FILE_OPTION_KEYS.flatMap((key) => (options[key] === undefined ? [] : [[key, options[key]]])),
  );
}

/**
 * Whether nothing is said.
 *
 * @param answers options of a file
 * @returns true for an empty record
 * @example isNothing({}) // true
 */
export const isNothing = (answers: FileOptions): boolean => Object.keys(answers).length === 0;

/**
 * Whether two files were told the same, in whatever order.
 *
 * @param a options of a file
 * @param b options of another
 * @returns true where they are equal
 * @example isSaidAlike({ unit: 'Wh', stamp: 'end' }, { stamp: 'end', unit: 'Wh' }) // true
 */
export function isSaidAlike(a: FileOptions, b: FileOptions): boolean {
  const text = (answers: FileOptions): string =>
    JSON.stringify(
      Object.entries(answers)
        .map(([key, value]) => [
          key,
          Array.isArray(value) || typeof value !== 'object' ? value : Object.entries(value).sort(),
        ])
        .sort(),
    );
  return text(a) === text(b);
}
