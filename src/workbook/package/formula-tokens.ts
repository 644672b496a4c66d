/**
 * What a piece of a formula is. `cell` (one or a range), `columns` and `rows` are references that move when a
 * formula is copied.
 */
type FormulaTokenKind =
  | 'string'
  | 'sheet'
  | 'bracket'
  | 'error'
  | 'columns'
  | 'rows'
  | 'cell'
  | 'number'
  | 'function'
  | 'name'
  | 'space'
  | 'operator';

/** One piece of a formula; all pieces joined give the formula again. */
export interface FormulaToken {
  kind: FormulaTokenKind;
  text: string;
}

const notAfterReference = String.raw`(?![\p{L}\p{N}_.(\\?!])`;
const cell = String.raw`\$?[A-Za-z]{1,3}\$?[1-9][0-9]{0,6}`;
const sheetName = String.raw`[\p{L}\p{N}_.\\?]+`;

const patterns: [FormulaTokenKind, string][] = [
  ['string', `"(?:[^"]|"")*"`],
  ['sheet', `'(?:[^']|'')*'!|${sheetName}(?::${sheetName})?!`],
  ['bracket', String.raw`\[(?:[^[\]']|'.|\[(?:[^[\]']|'.)*\])*\]`],
  ['error', String.raw`#(?:NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|GETTING_DATA|SPILL!|CALC!)`],
  ['columns', String.raw`\$?[A-Za-z]{1,3}:\$?[A-Za-z]{1,3}${notAfterReference}`],
  ['rows', String.raw`\$?[0-9]{1,7}:\$?[0-9]{1,7}${notAfterReference}`],
  ['cell', `${cell}(?::${cell})?${notAfterReference}`],
  ['number', String.raw`(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?`],
  ['function', String.raw`[\p{L}_][\p{L}\p{N}_.]*(?=\s*\()`],
  ['name', String.raw`[\p{L}_\\][\p{L}\p{N}_.\\?]*`],
  ['space', String.raw`\s+`],
  ['operator', String.raw`<>|<=|>=|[\s\S]`],
];

const grammar = new RegExp(patterns.map(([, pattern]) => `(${pattern})`).join('|'), 'uy');

/** Spreadsheet programs take 8,192 characters; twice that is no formula, and is not worth the time to cut it. */
const longest = 16_384;

/**
 * Cuts a formula of A1 style into pieces.
 *
 * @param formula formula without the equals sign, as a workbook stores it
 * @returns its pieces, in order; joined they give the formula again
 */
export function formulaTokens(formula: string): FormulaToken[] {
  if (formula.length > longest) return [{ kind: 'operator', text: formula }];
  const tokens: FormulaToken[] = [];
  grammar.lastIndex = 0;
  for (let match = grammar.exec(formula); match !== null; match = grammar.exec(formula)) {
    for (let index = 0; index < patterns.length; index++) {
      if (match[index + 1] === undefined) continue;
      tokens.push({ kind: (patterns[index] as [FormulaTokenKind, string])[0], text: match[0] });
      break;
    }
    if (grammar.lastIndex >= formula.length) break;
  }
  return tokens;
}
