import { Cells } from '../operands.js';
import { compareValues, FormulaError, toNumber, type Value } from '../values.js';
import { type FormulaFunction, type Operand, single } from './describe.js';

type Matches = (value: Value) => boolean;

/** What a criterion such as `">0"`, a text or a number lets through. */
function criterion(operand: Operand | undefined): Matches {
  const asked = single(operand);
  const match = typeof asked === 'string' ? /^(<=|>=|<>|<|>|=)(.*)$/s.exec(asked) : null;
  if (match === null) return equalTo(asked);
  const [, operator, text = ''] = match;
  const bound: Value = text !== '' && Number.isFinite(Number(text)) ? Number(text) : text;
  if (operator === '=') return equalTo(bound);
  if (operator === '<>') {
    const equal = equalTo(bound);
    return (value) => !equal(value);
  }
  return (value) => {
    // An order holds between values of one kind only.
    if (value === null || value instanceof FormulaError || typeof value !== typeof bound) return false;
    const order = compareValues(value, bound);
    return operator === '<'
      ? order < 0
      : operator === '>'
        ? order > 0
        : operator === '<='
          ? order <= 0
          : order >= 0;
  };
}

function equalTo(asked: Value): Matches {
  if (asked instanceof FormulaError) return () => false;
  if (asked === null) return (value) => value === 0;
  if (asked === '') return (value) => value === null || value === '';
  return (value) =>
    value !== null &&
    !(value instanceof FormulaError) &&
    typeof value === typeof asked &&
    compareValues(value, asked) === 0;
}

/** Calls back for each place where every pair of cells and criterion agrees. */
function forEachMatch(pairs: readonly Operand[], found: (place: number) => void): FormulaError | undefined {
  const tests: { cells: Cells; matches: Matches }[] = [];
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    const cells = pairs[i];
    if (cells instanceof FormulaError) return cells;
    if (!(cells instanceof Cells)) return FormulaError.value;
    tests.push({ cells, matches: criterion(pairs[i + 1]) });
  }
  const size = tests[0]?.cells.size ?? 0;
  if (tests.some(({ cells }) => cells.size !== size)) return FormulaError.value;
  for (let place = 0; place < size; place++) {
    if (tests.every(({ cells, matches }) => matches(cells.nth(place)))) found(place);
  }
  return undefined;
}

function sumWhere(summed: Operand | undefined, pairs: readonly Operand[]): Value {
  if (!(summed instanceof Cells)) return summed instanceof FormulaError ? summed : FormulaError.value;
  let sum = 0;
  let wrong: FormulaError | undefined;
  const unusable = forEachMatch(pairs, (place) => {
    const value = summed.nth(place);
    if (value instanceof FormulaError) wrong ??= value;
    else if (typeof value === 'number') sum += value;
  });
  return unusable ?? wrong ?? sum;
}

function countCells(
  operands: readonly Operand[],
  counts: (value: Value, inCells: boolean) => boolean,
): number {
  let count = 0;
  for (const operand of operands) {
    if (operand instanceof Cells) {
      for (let i = 0; i < operand.size; i++) if (counts(operand.nth(i), true)) count++;
    } else if (counts(operand, false)) count++;
  }
  return count;
}

export const COUNTING: Record<string, FormulaFunction> = {
  COUNT: {
    takes: ['cells'],
    work: (operands) =>
      countCells(operands, (value, inCells) =>
        inCells ? typeof value === 'number' : !(toNumber(value) instanceof FormulaError),
      ),
  },
  COUNTA: { takes: ['cells'], work: (operands) => countCells(operands, (value) => value !== null) },
  COUNTIFS: {
    takes: ['cells'],
    work: (operands) => {
      let count = 0;
      return (
        forEachMatch(operands, () => {
          count++;
        }) ?? count
      );
    },
  },
  SUMIFS: { takes: ['cells'], work: ([summed, ...pairs]) => sumWhere(summed, pairs) },
  SUMIF: {
    takes: ['cells'],
    work: ([tested, asked, summed]) => sumWhere(summed ?? tested, [tested ?? null, asked ?? null]),
  },
};
