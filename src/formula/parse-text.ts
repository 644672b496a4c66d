import type { Area, CellPlace, Node, Reference } from './nodes.js';
import { type Part, parseFormula } from './parse.js';

const REFERENCE =
  /(?:('(?:[^']|'')+'|[A-Za-z_]+)!)?(\$?)([A-Z]{1,3})(\$?)(\d+)(?::(\$?)([A-Z]{1,3})(\$?)(\d+))?(?![A-Za-z0-9_(.])/y;
const NAME = /[A-Za-z_][A-Za-z0-9_.]*/y;
const STRING = /"(?:[^"]|"")*"/y;

function columnNumber(letters: string): number {
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  return column;
}

function referenceOf(match: RegExpExecArray, home: CellPlace): Reference {
  const [text, sheet, , firstLetters = 'A', firstFixed, firstRow, , lastLetters, lastFixed, lastRow] = match;
  const area: Area = {
    sheet: sheet === undefined ? home.sheet : sheet.replace(/^'|'$/g, '').replaceAll("''", "'"),
    firstRow: Number(firstRow),
    lastRow: Number(lastRow ?? firstRow),
    firstColumn: columnNumber(firstLetters),
    lastColumn: columnNumber(lastLetters ?? firstLetters),
  };
  const first = firstFixed === '$' ? 0 : 1;
  return {
    print: () => text,
    area: () => area,
    moves: { first, last: lastRow === undefined ? first : lastFixed === '$' ? 0 : 1 },
  };
}

/**
 * Takes apart a formula as it stands in a cell.
 *
 * @param text the formula without `=`
 * @param home the cell it stands in: rows without `$` move along from there, columns stay
 * @param names areas by their defined names
 * @returns the formula as a tree
 * @throws SyntaxError where it is not well formed or uses a name that is not known
 * @example parseFormulaText('SUM($A$2:$A$9)*rate', { sheet: 'Costs', row: 2, column: 3 }, names)
 */
export function parseFormulaText(text: string, home: CellPlace, names: ReadonlyMap<string, Area>): Node {
  const parts: Part[] = [];
  let plain = '';
  const add = (reference: Reference): void => {
    if (plain !== '') parts.push(plain);
    plain = '';
    parts.push({ kind: 'reference', reference });
  };
  for (let at = 0; at < text.length; ) {
    const string = matchAt(STRING, text, at);
    const reference = string === null ? matchAt(REFERENCE, text, at) : null;
    const word = string === null && reference === null ? matchAt(NAME, text, at) : null;
    const found = string ?? reference ?? word;
    if (reference !== null) add(referenceOf(reference, home));
    else if (word !== null && text[at + word[0].length] !== '(' && !/^(TRUE|FALSE)$/.test(word[0])) {
      const area = names.get(word[0]);
      if (area === undefined) throw new SyntaxError(`"${word[0]}" is no name of this workbook`);
      const [name] = word;
      add({ print: () => name, area: () => area, moves: { first: 0, last: 0 } });
    } else plain += found?.[0] ?? text[at] ?? '';
    at += found?.[0].length ?? 1;
    // A number must not be taken for a reference's row: 1E5 is a number.
    const number = matchAt(/[0-9.]+(?:E[-+]?\d+)?/y, text, at);
    if (number !== null && number[0] !== '') {
      plain += number[0];
      at += number[0].length;
    }
  }
  if (plain !== '') parts.push(plain);
  return parseFormula(parts);
}

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}
