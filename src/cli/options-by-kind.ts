import { InputError } from '../errors.js';
import type { FileKind, ImportOptions } from '../readings/index.js';

/** What the user says about files; the zone is the home's. */
export type SaidOptions = Omit<ImportOptions, 'timeZone'>;

const KINDS: readonly FileKind[] = ['readings', 'gas', 'temperature'];

/**
 * Shares what the user says among the kinds of files. What is said of one file goes to the kind that holds it. What is
 * said of all goes to the readings, or to the only kind that is given: a gas meter's unit is not that of the
 * electricity. What to do about conflicts, and that nothing is to be remembered, holds for every
 * kind.
 *
 * @param files paths of each kind, as the user gave them
 * @param options what the user says
 * @returns options of each kind
 * @throws InputError when options are given for a file that is of no kind, or for all and there is no telling which
 * @example
 * optionsByKind({ readings: ['may.csv'], gas: ['gas.csv'], temperature: [] }, { unit: 'Wh' }).gas // {}
 */
export function optionsByKind(
  files: Readonly<Record<FileKind, readonly string[]>>,
  options: SaidOptions,
): Record<FileKind, SaidOptions> {
  const { onConflict, perFile = {}, forget, ...general } = options;
  for (const file of Object.keys(perFile)) {
    if (KINDS.some((kind) => holds(files[kind], file))) continue;
    throw new InputError(
      `options are given for "${file}", which is not among the files`,
      'Give its name as in the list of files.',
    );
  }
  const spoken = generalKind(files);
  if (spoken === undefined && Object.keys(general).length > 0) {
    throw new InputError(
      'options are given for files of readings, and there is none',
      'Say which file an option is for: --for FILE:OPTION=VALUE.',
    );
  }
  const optionsOf = (kind: FileKind): SaidOptions => {
    const own = Object.entries(perFile).filter(([file]) => holds(files[kind], file));
    return {
      ...(kind === spoken ? general : {}),
      ...(onConflict === undefined ? {} : { onConflict }),
      ...(forget === undefined ? {} : { forget }),
      ...(own.length === 0 ? {} : { perFile: Object.fromEntries(own) }),
    };
  };
  return {
    readings: optionsOf('readings'),
    gas: optionsOf('gas'),
    temperature: optionsOf('temperature'),
  };
}

/** Whether a file is among those given, or packed in one of them: `months.zip/may.csv`. */
function holds(given: readonly string[], file: string): boolean {
  return given.some((one) => file === one || (/\.zip$/i.test(one) && file.startsWith(`${one}/`)));
}

/**
 * The kind that options for all files are about.
 *
 * @param files paths of each kind
 * @returns the readings, or the only kind that is given; undefined where neither is
 */
export function generalKind(files: Readonly<Record<FileKind, readonly string[]>>): FileKind | undefined {
  const given = KINDS.filter((kind) => files[kind].length > 0);
  return given.length === 1 || given[0] === 'readings' ? given[0] : undefined;
}
