import { Cells } from '../operands.js';
import { compareValues, FormulaError, toNumber, type Value } from '../values.js';
import { type FormulaFunction, type Operand, single } from './describe.js';

type Matches = (value: Value) => boolean;

/** What a criterion lets through. */
interface Criterion {
  readonly matches: Matches;
  /** Of numbers in rising order it lets the first ones through, or the last ones; undefined where it asks for something else. */
  readonly lets?: 'first' | 'last';
}

/** What a criterion such as `">0"`, a text or a number lets through. */
function criterion(operand: Operand | undefined): Criterion {
  const asked = single(operand);
  const match = typeof asked === 'string' ? /^(<=|>=|<>|<|>|=)(.*)$/s.exec(asked) : null;
  if (match === null) return { matches: equalTo(asked) };
  const [, operator = '', text = ''] = match;
  const bound: Value = text !== '' && Number.isFinite(Number(text)) ? Number(text) : text;
  if (operator === '=') return { matches: equalTo(bound) };
  if (operator === '<>') {
    const equal = equalTo(bound);
    return { matches: (value) => !equal(value) };
  }
  const matches: Matches = (value) => {
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
  if (typeof bound !== 'number') return { matches };
  return { matches, lets: operator.startsWith('<') ? 'first' : 'last' };
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
  const tests: Test[] = [];
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    const cells = pairs[i];
    if (cells instanceof FormulaError) return cells;
    if (!(cells instanceof Cells)) return FormulaError.value;
    tests.push({ cells, ...criterion(pairs[i + 1]) });
  }
  const size = tests[0]?.cells.size ?? 0;
  if (tests.some(({ cells }) => cells.size !== size)) return FormulaError.value;
  const { stretches, left } = narrowed(tests, size);
  for (const { from, to } of stretches) {
    for (let place = from; place < to; place++) {
      if (left.every(({ cells, matches }) => matches(cells.nth(place)))) found(place);
    }
  }
  return undefined;
}

/** Fewer cells than this are looked through one by one. */
const WORTH_A_SEARCH = 500;

interface Test extends Criterion {
  readonly cells: Cells;
}

/** Places from one on, before another. */
interface Places {
  readonly from: number;
  readonly to: number;
}

/**
 * Between which places all that matches stands, and the tests that are left to hold each of them to. Readings in time order
 * are asked for a day among a year's: halving finds its ends.
 */
function narrowed(
  tests: readonly Test[],
  size: number,
): { stretches: readonly Places[]; left: readonly Test[] } {
  const whole = { stretches: [{ from: 0, to: size }], left: tests };
  if (size < WORTH_A_SEARCH) return whole;
  for (const ordered of tests) {
    const rises = ordered.lets === undefined ? undefined : ordered.cells.risingFrom;
    if (rises === undefined) continue;
    const isOrdered = ({ lets, cells }: Test): boolean =>
      lets !== undefined &&
      cells.columns[0] === ordered.cells.columns[0] &&
      cells.firstRow === ordered.cells.firstRow;
    const searched = tests.filter(isOrdered);
    return {
      stretches: rises
        .slice(1)
        .map((to, i) =>
          searched.reduce((places, test) => matching(test, places), { from: rises[i] ?? 0, to }),
        ),
      left: tests.filter((test) => !isOrdered(test)),
    };
  }
  return whole;
}

/** Which of some places in rising order match. */
function matching({ cells, matches, lets }: Test, { from, to }: Places): Places {
  const isFirst = lets === 'first';
  let [low, high] = [from, to];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (matches(cells.nth(middle)) === isFirst) low = middle + 1;
    else high = middle;
  }
  return isFirst ? { from, to: low } : { from: low, to };
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
