import { sheetPrefix } from '../cell-address.js';
import { type CellRange, formulaTokens, LAST_COLUMN, LAST_ROW, parseRangeRef } from '../package/index.js';

/** What a formula may look at in the new workbook. */
export interface Surroundings {
  /** Name of a sheet of the user's in the new workbook; undefined where it is none of theirs. */
  ownSheet: (name: string) => string | undefined;
  /** Name of a sheet of the project in the new workbook. */
  nowCalled: (name: string) => string;
  /** Whether the same stands in some cells of a sheet of the project. */
  stays: (sheet: string, range: CellRange) => boolean;
  /** Whether a defined name stands for the same. */
  hasName: (name: string) => boolean;
}

/** A formula as it reads in the new workbook, or why it can't. */
export type CarriedFormula = { formula: string } | { why: string };

/** Functions that look at cells which can't be followed: by an address as text, or by a distance. */
const BY_TEXT = /^(INDIRECT|OFFSET)$/i;

/**
 * A formula of the user's own as it reads in the new workbook.
 *
 * @param formula formula without the equals sign
 * @param sheet the sheet that it stands on in the old workbook; undefined for a defined name
 * @param around what is there in the new workbook
 */
export function carryFormula(
  formula: string,
  sheet: string | undefined,
  around: Surroundings,
): CarriedFormula {
  let text = '';
  // The sheet that the next reference is of, where one was named.
  let named: string | undefined;
  for (const token of formulaTokens(formula)) {
    switch (token.kind) {
      case 'sheet': {
        const name = sheetOf(token.text);
        const own = around.ownSheet(name);
        named = name;
        const now = own ?? around.nowCalled(name);
        text += now === name ? token.text : sheetPrefix(now);
        continue;
      }
      case 'cell':
      case 'rows':
      case 'columns': {
        const range = rangeOf(token.text);
        const of = named ?? sheet;
        named = undefined;
        text += token.text;
        if (range === undefined) {
          // The form of a reference outside the sheet: a name.
          if (!around.hasName(token.text)) return { why: `"${token.text}" was not carried` };
        } else if (of !== undefined && around.ownSheet(of) === undefined && !around.stays(of, range)) {
          return { why: `it looks at ${of}!${token.text}, where something else stands now` };
        }
        continue;
      }
      case 'bracket':
        return { why: 'it looks at another workbook or at a table' };
      case 'function':
        if (BY_TEXT.test(token.text)) return { why: `${token.text} takes an address that can't be followed` };
        break;
      case 'error':
        if (token.text === '#REF!') return { why: 'it looks at cells that are gone' };
        break;
      case 'name':
        if (named !== undefined) return { why: `the name "${token.text}" of one sheet was not carried` };
        if (!isConstant(token.text) && !around.hasName(token.text)) {
          return { why: `the name "${token.text}" was not carried` };
        }
        break;
    }
    if (named !== undefined) return { why: 'it names several sheets at once' };
    text += token.text;
  }
  return { formula: text };
}

const isConstant = (text: string): boolean => /^(TRUE|FALSE)$/i.test(text);

function sheetOf(text: string): string {
  const name = text.slice(0, -1);
  return name.startsWith("'") ? name.slice(1, -1).replaceAll("''", "'") : name;
}

/** Cells of a reference, whole columns and rows included; undefined where it lies outside a sheet. */
function rangeOf(text: string): CellRange | undefined {
  const [from = '', to = from] = text.replaceAll('$', '').split(':');
  const whole = /^\d+$/.test(from)
    ? `A${from}:XFD${to}`
    : /^[A-Za-z]+$/.test(from)
      ? `${from}1:${to}${LAST_ROW}`
      : `${from}:${to}`;
  try {
    const range = parseRangeRef(whole);
    return range.lastColumn <= LAST_COLUMN ? range : undefined;
  } catch {
    return undefined;
  }
}
