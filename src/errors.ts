import { plainText, shortened, shortQuotes } from './plain-text.js';

// A message names one thing that is wrong; what it quotes of a file must not make it a page.
const LONGEST_FOUND = 400;
const LONGEST_ADVICE = 1000;
const LONGEST_LINE = 80;

/** Where in a file something was found. */
export interface Place {
  /** Path as the user gave it. */
  file?: string;
  /** Line (text file, from 1) or cell (`Tariffs!C12`) or row. */
  line?: number | string;
}

/** Something that is wrong: what was found where, and what to do about it. */
export interface Fault {
  readonly found: string;
  readonly whatToDo: string;
  readonly place: Place;
}

/**
 * Wrong input, told in one message: where, what was found, what to do. It is one line of plain text, with short quotations, whatever a file holds.
 *
 * @example
 * throw new InputError('two windows overlap at 02:00', 'Move one of them.', { file: 'home.xlsx', line: 'Tariffs!C14' });
 * // message: "home.xlsx, Tariffs!C14: two windows overlap at 02:00. Move one of them."
 */
export class InputError extends Error implements Fault {
  readonly found: string;
  readonly whatToDo: string;
  readonly place: Place;

  constructor(found: string, whatToDo: string, place: Place = {}) {
    const line =
      typeof place.line === 'number' ? `line ${place.line}` : shortened(place.line ?? '', LONGEST_LINE);
    const where = [plainText(place.file ?? ''), line].filter((part) => part !== '').join(', ');
    const what = shortQuotes(found, LONGEST_FOUND);
    const advice = shortQuotes(whatToDo, LONGEST_ADVICE);
    super(`${where === '' ? '' : `${where}: `}${what}. ${advice}`);
    this.name = 'InputError';
    this.found = what;
    this.whatToDo = advice;
    this.place = place;
  }
}

/** Faults that are told each; of more, how many there are. */
const FAULTS_TOLD = 10;

/**
 * Several faults, so that all of them can be mended before the next try. It has a line for each of the first ten, written as the message of an
 * {@link InputError} is, and then says how many more there are; as an `InputError`, it is the first of them.
 *
 * @example
 * throw new InputErrors([
 *   { found: 'the base rate is missing', whatToDo: 'Type a number.', place: { file: 'home.xlsx', line: 'Tariffs!C12' } },
 *   { found: 'the reserve is -1', whatToDo: 'Type a number from 0.', place: { file: 'home.xlsx', line: 'Battery!C12' } },
 * ]);
 */
export class InputErrors extends InputError {
  constructor(readonly faults: readonly Fault[]) {
    const told = faults
      .slice(0, FAULTS_TOLD)
      .map(({ found, whatToDo, place }) => new InputError(found, whatToDo, place));
    const [first] = told;
    if (first === undefined) throw new RangeError('no fault to tell');
    super(first.found, first.whatToDo, first.place);
    const more = faults.length - told.length;
    this.message = [
      ...told.map(({ message }) => message),
      ...(more === 0 ? [] : [`and ${more.toLocaleString('en-GB')} more`]),
    ].join('\n');
    this.name = 'InputErrors';
  }
}

/**
 * Refuses input in which anything is wrong.
 *
 * @param faults what is wrong, in the order in which it is to be told; what is found in a place where something was found before is left out,
 *   as the one mostly follows from the other
 * @throws InputError where there is one fault, InputErrors where there are several
 * @example refuse([]) // refuses nothing
 */
export function refuse(faults: readonly Fault[]): void {
  const places = new Set<string>();
  const told = faults.filter(({ place: { file, line } }) => {
    const key = JSON.stringify([file, line]);
    if (line !== undefined && places.has(key)) return false;
    places.add(key);
    return true;
  });
  const [first] = told;
  if (first === undefined) return;
  if (told.length > 1) throw new InputErrors(told);
  throw first instanceof InputError ? first : new InputError(first.found, first.whatToDo, first.place);
}

/**
 * What checks refuse, each by itself.
 *
 * @param checks functions that throw where something is wrong
 * @returns the faults that they found, in the order of the checks
 * @throws what is thrown that is no InputError
 * @example faultsFoundBy([() => assertTimeZone('Mars/Phobos')]).length // 1
 */
export function faultsFoundBy(checks: readonly (() => unknown)[]): Fault[] {
  return checks.flatMap((check): readonly Fault[] => {
    try {
      check();
      return [];
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return error instanceof InputErrors ? error.faults : [error];
    }
  });
}
