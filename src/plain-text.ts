/**
 * What a terminal obeys or turns round instead of showing: control characters, marks that change the direction of writing, breaks of lines and
 * paragraphs, invisible joiners and fillers (Unicode, general categories Cc, Cf, Zl, Zp; UAX #9 for the direction).
 */
const UNSHOWN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;
const IN_ITS_PLACE = '\ufffd';
/** Quoted text longer than this does not fit a line of 80 characters beside what is said of it. */
const LONGEST_QUOTE = 60;

/**
 * Text of a file, a name or a cell as one line that can be shown anywhere.
 *
 * @param text whatever it holds
 * @returns the text with a blank for each break and tab, and a mark (U+FFFD) for every other character that is not shown
 * @example plainText('Night\u202e\n rate') // 'Night\ufffd  rate'
 */
export function plainText(text: string): string {
  return text.replace(/\r\n|[\r\n\t]/g, ' ').replace(UNSHOWN, IN_ITS_PLACE);
}

/**
 * Text of several lines that can be shown anywhere.
 *
 * @param text its lines, whatever they hold
 * @returns the same lines, with a mark (U+FFFD) for every character that is not shown
 * @example printable('one\n\u001b[2Jtwo') // 'one\n\ufffd[2Jtwo'
 */
export function printable(text: string): string {
  return text.replace(UNSHOWN, (character) => (character === '\n' ? character : IN_ITS_PLACE));
}

/**
 * Plain text of at most a length.
 *
 * @param text the text
 * @param most characters, 60 unless given
 * @returns the text, or its beginning and an ellipsis
 * @example shortened('a long name', 6) // 'a lon…'
 */
export function shortened(text: string, most = LONGEST_QUOTE): string {
  const plain = plainText(text);
  return plain.length <= most ? plain : `${plain.slice(0, most - 1)}…`;
}

/**
 * A message whose quotations are short, and which is plain text.
 *
 * @param text a message with what it quotes between quotation marks
 * @param most characters of the whole message, whatever it quotes
 * @returns the message, each long quotation shortened
 * @example shortQuotes(`"${'n'.repeat(500)}" is no date`, 400).length // 73
 */
export function shortQuotes(text: string, most: number): string {
  return shortened(
    plainText(text).replace(/"([^"]*)"/g, (_, quoted: string) => `"${shortened(quoted)}"`),
    most,
  );
}
