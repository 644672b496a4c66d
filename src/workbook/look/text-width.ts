/**
 * Widths of Arial's characters in thousandths of the font's size, by groups of about one width.
 * Source: the metrics of Helvetica, whose widths Arial has (Adobe core font metrics; from memory).
 */
const GROUPS: readonly [characters: string, width: number][] = [
  ["ijl'’|", 222],
  [' ,.:;/!I[]ft·', 278],
  ['()-r"“”', 345],
  ['cksvxyzJ', 500],
  ['ABEKPSVXY&', 667],
  ['CDHNRUw', 722],
  ['GOQ', 778],
  ['mM', 833],
  ['W%—', 944],
];
/** Digits, most small letters, and what is in no group. */
const USUAL = 556;
/** Bold is so much wider. */
const BOLD = 1.07;
/** Screens have 96 pixels to the inch, type 72 points. */
const PIXELS_PER_POINT = 96 / 72;
const widths = new Map(GROUPS.flatMap(([characters, width]) => [...characters].map((one) => [one, width])));

/** Size in points and weight of a text. */
export interface Lettering {
  size: number;
  bold: boolean;
}

/**
 * Width of a text on one line.
 *
 * @param text without line breaks
 * @param lettering size in points, and whether it is bold
 * @returns pixels at 96 dots per inch
 * @example textWidthPixels('00', { size: 10, bold: false }) // 14.8
 */
export function textWidthPixels(text: string, { size, bold }: Lettering): number {
  const thousandths = [...text].reduce((sum, one) => sum + (widths.get(one) ?? USUAL), 0);
  return (thousandths / 1000) * size * PIXELS_PER_POINT * (bold ? BOLD : 1);
}

/**
 * Lines that a text takes where it wraps between words; a word that is wider than the line is broken.
 *
 * @param text what is written
 * @param widthPixels room of a line
 * @param lettering size in points, and whether it is bold
 * @returns lines, 1 at least
 */
export function wrappedLines(text: string, widthPixels: number, lettering: Lettering): number {
  return text.split('\n').reduce((lines, paragraph) => {
    let used = 0;
    let more = 1;
    for (const word of paragraph.split(' ')) {
      const width = textWidthPixels(word, lettering);
      const gap = used === 0 ? 0 : textWidthPixels(' ', lettering);
      if (used > 0 && used + gap + width > widthPixels) {
        more++;
        used = 0;
      }
      const own = used === 0 ? width : used + gap + width;
      more += Math.max(0, Math.ceil(own / widthPixels) - 1);
      used = own > widthPixels ? own % widthPixels : own;
    }
    return lines + more;
  }, 0);
}
