/** Where in a file something was found. */
export interface Place {
  /** Path as the user gave it. */
  file?: string;
  /** Line (text file, from 1) or cell (`Tariffs!C12`) or row. */
  line?: number | string;
}

/**
 * Wrong input, told in one message: where, what was found, what to do.
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
    const line = typeof place.line === 'number' ? `line ${place.line}` : place.line;
    const where = [place.file, line].filter((part) => part !== undefined && part !== '').join(', ');
    super(`${where === '' ? '' : `${where}: `}${found}. ${whatToDo}`);
    this.name = 'InputError';
    this.found = found;
    this.whatToDo = whatToDo;
    this.place = place;
  }
}
