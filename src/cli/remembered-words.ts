import { forgetting, type RecalledFile, type RememberedAnswers } from '../readings/index.js';
import { TOLD } from '../workbook/fields/told-places.js';
import { optionTexts } from './file-option.js';
import { wrapped } from './format-comparison.js';

const saidText = ({ answers, toldFor }: RememberedAnswers): string =>
  `${optionTexts(answers).join(', ')}, as said of "${toldFor}"`;

/**
 * What a report says of what is remembered of a file.
 *
 * @param recalled the file
 * @returns words for the report; undefined where there is nothing to say
 * @example rememberedText(recalled) // 'unit=Wh, as said of "may.csv" (kept on Notes; --forget leaves it out)'
 */
export function rememberedText(recalled: RecalledFile | undefined): string | undefined {
  if (recalled?.from !== undefined) {
    const over = Object.keys(recalled.stated).length > 0 ? '; what is said now stands above it' : '';
    return `${saidText(recalled.from)} (kept on ${TOLD.sheet}; --forget leaves it out)${over}`;
  }
  if (recalled?.notUsed === undefined) return undefined;
  return `nothing: files of these columns were told ${saidText(recalled.notUsed)}, which was not used, as this one has another name`;
}

/**
 * What to do where a file can't be read as it was remembered.
 *
 * @param recalled the file
 * @returns a sentence
 * @example adviceOnRemembered(recalled) // 'It was read by what is remembered: unit=Wh, as said of "may.csv". …'
 */
export function adviceOnRemembered({ file, from }: RecalledFile): string {
  return `It was read by what is remembered: ${saidText(from!)}; if that no longer fits, say it anew, or ${forgetting(file)}.`;
}

/**
 * What could not be remembered.
 *
 * @param alike files that were told different things and can't be told apart next month
 * @param left files that there was no place for
 * @returns lines for the report; undefined where all is remembered
 * @example notRemembered([], []) // undefined
 */
export function notRemembered(alike: readonly string[], left: readonly string[]): string | undefined {
  const lines: string[] = [];
  if (alike.length > 0) {
    lines.push(
      `Not remembered: what was said of ${quoted(alike)}, as they have the same columns and nearly the same name.`,
    );
  }
  if (left.length > 0) {
    lines.push(
      `Not remembered for want of room: what was said of ${quoted(left)}. Clear rows on ${TOLD.sheet}.`,
    );
  }
  return lines.length === 0 ? undefined : `${lines.flatMap((line) => wrapped(line)).join('\n')}\n`;
}

const quoted = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(', ');
