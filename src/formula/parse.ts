import type { BinaryOperator, Node } from './nodes.js';

/** What may stand between the pieces of text of a formula. */
export type Part = string | Node;

type Token =
  | { kind: 'number'; value: number }
  | { kind: 'text'; value: string }
  | { kind: 'word'; value: string }
  | { kind: 'sign'; value: string }
  | { kind: 'node'; value: Node };

const TOKEN =
  /\s*(?:(\d+(?:\.\d+)?(?:[eE][-+]?\d+)?|\.\d+)|"((?:[^"]|"")*)"|([A-Za-z_][A-Za-z0-9_.]*)|(<>|<=|>=|[-+*/^&=<>():,]))/y;

function tokensOf(parts: readonly Part[]): Token[] {
  const tokens: Token[] = [];
  for (const part of parts) {
    if (typeof part !== 'string') {
      tokens.push({ kind: 'node', value: part });
      continue;
    }
    TOKEN.lastIndex = 0;
    while (TOKEN.lastIndex < part.length) {
      const at = TOKEN.lastIndex;
      const match = TOKEN.exec(part);
      if (match === null) {
        if (part.slice(at).trim() === '') break;
        throw new SyntaxError(`"${part.slice(at, at + 20)}" is no part of a formula`);
      }
      const [, number, text, word, sign] = match;
      if (number !== undefined) tokens.push({ kind: 'number', value: Number(number) });
      else if (text !== undefined) tokens.push({ kind: 'text', value: text.replaceAll('""', '"') });
      else if (word !== undefined) tokens.push({ kind: 'word', value: word });
      else tokens.push({ kind: 'sign', value: sign ?? '' });
    }
  }
  return tokens;
}

/** Operators from the loosest to the tightest. */
const LEVELS: readonly (readonly BinaryOperator[])[] = [
  ['=', '<>', '<', '>', '<=', '>='],
  ['&'],
  ['+', '-'],
  ['*', '/'],
  ['^'],
];

class Parser {
  private at = 0;

  constructor(private readonly tokens: readonly Token[]) {}

  whole(): Node {
    const node = this.binary(0);
    if (this.at < this.tokens.length) throw this.unexpected();
    return node;
  }

  private binary(level: number): Node {
    const operators = LEVELS[level];
    if (operators === undefined) return this.unary();
    let left = this.binary(level + 1);
    for (;;) {
      const operator = operators.find((sign) => this.isSign(sign));
      if (operator === undefined) return left;
      this.at++;
      left = { kind: 'binary', operator, left, right: this.binary(level + 1) };
    }
  }

  private unary(): Node {
    for (const operator of ['-', '+'] as const) {
      if (this.isSign(operator)) {
        this.at++;
        return { kind: 'unary', operator, operand: this.unary() };
      }
    }
    let node = this.primary();
    while (this.isSign(':')) {
      this.at++;
      node = { kind: 'range', from: node, to: this.primary() };
    }
    return node;
  }

  private primary(): Node {
    const token = this.tokens[this.at++];
    if (token === undefined) throw new SyntaxError('the formula ends too early');
    if (token.kind === 'number' || token.kind === 'text') return token;
    if (token.kind === 'node') return token.value;
    if (token.kind === 'sign' && token.value === '(') {
      const node = this.binary(0);
      this.expect(')');
      return node;
    }
    if (token.kind === 'word') {
      if (this.isSign('(')) return { kind: 'call', name: token.value.toUpperCase(), args: this.args() };
      if (/^(TRUE|FALSE)$/i.test(token.value)) {
        return { kind: 'boolean', value: token.value.toUpperCase() === 'TRUE' };
      }
    }
    this.at--;
    throw this.unexpected();
  }

  private args(): Node[] {
    this.expect('(');
    const args: Node[] = [];
    if (this.isSign(')')) {
      this.at++;
      return args;
    }
    for (;;) {
      args.push(this.isSign(',') || this.isSign(')') ? { kind: 'missing' } : this.binary(0));
      if (this.isSign(')')) break;
      this.expect(',');
    }
    this.at++;
    return args;
  }

  private isSign(sign: string): boolean {
    const token = this.tokens[this.at];
    return token?.kind === 'sign' && token.value === sign;
  }

  private expect(sign: string): void {
    if (!this.isSign(sign)) throw this.unexpected(`"${sign}" is missing`);
    this.at++;
  }

  private unexpected(what = 'the formula goes on in a way that is not understood'): SyntaxError {
    const token = this.tokens[this.at];
    const found = token === undefined ? 'the end' : token.kind === 'node' ? 'a term' : `"${token.value}"`;
    return new SyntaxError(`${what}, at ${found}`);
  }
}

/**
 * Takes a formula apart.
 *
 * @param parts the formula without `=`: pieces of text, and between them terms that are taken apart already
 * @returns the formula as a tree
 * @throws SyntaxError where it is not well formed
 * @example parseFormula(['IF(', price, '>0,1,0)'])
 */
export function parseFormula(parts: readonly Part[]): Node {
  return new Parser(tokensOf(parts)).whole();
}
