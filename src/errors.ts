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

/**
 * Wrong input, told in one message: where, what was found, what to do. It is one line of plain text, with short quotations, whatever a file holds.
 *
 * @example
 * throw new InputError('two windows overlap at 02:00', 'Move one of them.', { file: 'home.xlsx', line: 'Tariffs!C14' });
 * // message: "home.xlsx, Tariffs!C14: two windows overlap at 02:00. Move one of them."
 */
export class InputError extends Error {
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
