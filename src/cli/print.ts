import { printable } from '../plain-text.js';

/**
 * Writes to standard output what a terminal may be shown, whatever names and cells are in it.
 *
 * @param text lines
 */
export function print(text: string): void {
  process.stdout.write(printable(text));
}

/**
 * Writes to the error stream what a terminal may be shown.
 *
 * @param text lines
 */
export function printError(text: string): void {
  process.stderr.write(printable(text));
}
