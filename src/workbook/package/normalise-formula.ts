import { type FormulaToken, formulaTokens } from './formula-tokens.js';

/*
 * What LibreOffice 7.4 and Gnumeric 1.12 change in a formula when they load and save an .xlsx file, found by saving
 * some 300 formulas through both:
 *
 *   both        upper case for functions and references; numbers in another form (1.50, 1E-3, .5)
 *   LibreOffice TRUE and FALSE become TRUE() and FALSE(); numbers keep 15 digits; quotes of a sheet name are dropped
 *               where not needed; unknown names in lower case; the comma of a union becomes ~
 *   Gnumeric    spaces are dropped; numbers get 21 digits; --A1 becomes -(-A1) and -A1^2 becomes (-A1)^2; the prefix
 *               _xlfn. is dropped or becomes _xlfngnumeric.; statistical functions get the names of 2010; Q1!A1 is quoted;
 *               a range of one cell, A1:A1, becomes the cell
 */

const newerNames: Record<string, string> = {
  BETAINV: 'BETA.INV',
  BINOMDIST: 'BINOM.DIST',
  CHIDIST: 'CHISQ.DIST.RT',
  CHIINV: 'CHISQ.INV.RT',
  CHITEST: 'CHISQ.TEST',
  CONFIDENCE: 'CONFIDENCE.NORM',
  COVAR: 'COVARIANCE.P',
  EXPONDIST: 'EXPON.DIST',
  FDIST: 'F.DIST.RT',
  FINV: 'F.INV.RT',
  FTEST: 'F.TEST',
  GAMMADIST: 'GAMMA.DIST',
  GAMMAINV: 'GAMMA.INV',
  LOGINV: 'LOGNORM.INV',
  MODE: 'MODE.SNGL',
  NORMDIST: 'NORM.DIST',
  NORMINV: 'NORM.INV',
  NORMSINV: 'NORM.S.INV',
  PERCENTILE: 'PERCENTILE.INC',
  PERCENTRANK: 'PERCENTRANK.INC',
  POISSON: 'POISSON.DIST',
  QUARTILE: 'QUARTILE.INC',
  RANK: 'RANK.EQ',
  STDEV: 'STDEV.S',
  STDEVP: 'STDEV.P',
  TINV: 'T.INV.2T',
  TTEST: 'T.TEST',
  VAR: 'VAR.S',
  VARP: 'VAR.P',
  WEIBULL: 'WEIBULL.DIST',
  ZTEST: 'Z.TEST',
};

const operandEnds = new Set(['cell', 'columns', 'rows', 'name', 'bracket', 'error']);
const operandStarts = new Set(['cell', 'columns', 'rows', 'name', 'function', 'sheet']);

/** A space between two references is the operator that intersects them; any other space means nothing. */
function withoutIdleSpaces(tokens: readonly FormulaToken[]): FormulaToken[] {
  const kept: FormulaToken[] = [];
  for (const [index, token] of tokens.entries()) {
    if (token.kind !== 'space') kept.push(token);
    else {
      const before = kept.at(-1);
      const after = tokens[index + 1];
      if (before === undefined || after === undefined) continue;
      const intersects =
        (operandEnds.has(before.kind) || before.text === ')') &&
        (operandStarts.has(after.kind) || after.text === '(');
      if (intersects) kept.push({ kind: 'operator', text: ' ' });
    }
  }
  return kept;
}

function sheetText(text: string): string {
  const inner = text.slice(0, -1);
  const bare = inner.startsWith("'") ? inner.slice(1, -1).replaceAll("''", "'") : inner;
  const name = bare.toUpperCase();
  return /^[\p{L}\p{N}_.:]+$/u.test(name) ? `${name}!` : `'${name.replaceAll("'", "''")}'!`;
}

function functionText(text: string): string {
  const name = text.toUpperCase().replace(/^(?:_XLFN\.|_XLWS\.|_XLFNGNUMERIC\.)+/, '');
  return newerNames[name] ?? name;
}

function canonical({ kind, text }: FormulaToken): FormulaToken {
  switch (kind) {
    case 'string':
      return { kind, text };
    case 'sheet':
      return { kind, text: sheetText(text) };
    case 'number':
      return { kind, text: String(Number(Number(text).toPrecision(15))) };
    case 'function':
      return { kind, text: functionText(text) };
    default:
      return { kind, text: text === '~' ? ',' : text.toUpperCase() };
  }
}

/** TRUE() and FALSE() as the constants that they are. */
function withoutConstantCalls(tokens: readonly FormulaToken[]): FormulaToken[] {
  const kept: FormulaToken[] = [];
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index] as FormulaToken;
    const isConstant = token.kind === 'function' && (token.text === 'TRUE' || token.text === 'FALSE');
    if (isConstant && tokens[index + 1]?.text === '(' && tokens[index + 2]?.text === ')') {
      kept.push({ kind: 'name', text: token.text });
      index += 2;
    } else kept.push(token);
  }
  return kept;
}

/** A range from a cell to itself as the cell. */
function withoutOneCellRanges(tokens: readonly FormulaToken[]): FormulaToken[] {
  const kept: FormulaToken[] = [];
  for (let index = 0; index < tokens.length; index++) {
    const token = tokens[index] as FormulaToken;
    kept.push(token);
    const isRange =
      token.kind === 'cell' && tokens[index - 1]?.text !== ':' && tokens[index + 1]?.text === ':';
    const isOneCell = tokens[index + 2]?.kind === 'cell' && tokens[index + 2]?.text === token.text;
    if (isRange && isOneCell && tokens[index + 3]?.text !== ':') index += 2;
  }
  return kept;
}

/** Offset of the parenthesis that closes the one at `open`, or -1. */
function closingAt(tokens: readonly FormulaToken[], open: number): number {
  let depth = 0;
  for (let index = open; index < tokens.length; index++) {
    const { kind, text } = tokens[index] as FormulaToken;
    if (kind !== 'operator') continue;
    if (text === '(') depth++;
    else if (text === ')' && --depth === 0) return index;
  }
  return -1;
}

/** Whether the tokens between two offsets are minus signs before one operand. */
function isNegatedOperand(tokens: readonly FormulaToken[], from: number, to: number): boolean {
  let index = from;
  while (index < to && tokens[index]?.text === '-') index++;
  if (index === from || index === to) return false;
  let depth = 0;
  for (; index < to; index++) {
    const { kind, text } = tokens[index] as FormulaToken;
    if (kind !== 'operator') continue;
    if (text === '(' || text === '{') depth++;
    else if (text === ')' || text === '}') depth--;
    else if (depth === 0 && text !== ':' && text !== '%') return false;
  }
  return true;
}

/** Drops parentheses round a negated operand: the sign binds tighter than any operator beside it. */
function withoutSignParentheses(tokens: FormulaToken[]): FormulaToken[] {
  for (let open = tokens.length - 1; open >= 0; open--) {
    if (
      tokens[open]?.text !== '(' ||
      tokens[open]?.kind !== 'operator' ||
      tokens[open - 1]?.kind === 'function'
    )
      continue;
    const close = closingAt(tokens, open);
    if (close < 0 || !isNegatedOperand(tokens, open + 1, close)) continue;
    tokens.splice(close, 1);
    tokens.splice(open, 1);
  }
  return tokens;
}

/**
 * A formula in the one form that it has whichever program saved it last. For comparing, not for showing or storing.
 *
 * It undoes exactly what LibreOffice 7.4 and Gnumeric 1.12 change on saving. Not undone, because it is not the same
 * formula any more: Gnumeric reads `a^b^c` from the right, and turns a formula that it can't read (one with spaces
 * after an opening parenthesis, or an apostrophe in a sheet's name) into a call of `ERROR`.
 *
 * @param formula formula without the equals sign, of A1 style or as `relativeFormula` gives it
 * @returns its comparable form
 * @example normaliseFormula("'Data'!a1 * True()") // 'DATA!A1*TRUE'
 */
export function normaliseFormula(formula: string): string {
  const tokens = withoutIdleSpaces(formulaTokens(formula)).map(canonical);
  return withoutSignParentheses(withoutOneCellRanges(withoutConstantCalls(tokens)))
    .map(({ text }) => text)
    .join('');
}
