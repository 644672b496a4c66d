import type { BinaryOperator } from './nodes.js';
import { compareValues, FormulaError, toNumber, toText, type Value } from './values.js';

type Arithmetic = (a: number, b: number) => number | FormulaError;

function arithmetic(work: Arithmetic): (x: Value, y: Value) => Value {
  return (x, y) => {
    const a = typeof x === 'number' ? x : toNumber(x);
    if (a instanceof FormulaError) return a;
    const b = typeof y === 'number' ? y : toNumber(y);
    return b instanceof FormulaError ? b : work(a, b);
  };
}

function comparison(holds: (order: number) => boolean): (x: Value, y: Value) => Value {
  return (x, y) => {
    if (x instanceof FormulaError) return x;
    return y instanceof FormulaError ? y : holds(compareValues(x, y));
  };
}

/** What each operator does with two values. */
export const OPERATORS: Record<BinaryOperator, (x: Value, y: Value) => Value> = {
  '+': arithmetic((a, b) => a + b),
  '-': arithmetic((a, b) => a - b),
  '*': arithmetic((a, b) => a * b),
  '/': arithmetic((a, b) => (b === 0 ? FormulaError.divisionByZero : a / b)),
  '^': arithmetic((a, b) => a ** b),
  '&': (x, y) => {
    const a = toText(x);
    if (a instanceof FormulaError) return a;
    const b = toText(y);
    return b instanceof FormulaError ? b : a + b;
  },
  '=': comparison((order) => order === 0),
  '<>': comparison((order) => order !== 0),
  '<': comparison((order) => order < 0),
  '>': comparison((order) => order > 0),
  '<=': comparison((order) => order <= 0),
  '>=': comparison((order) => order >= 0),
};

/** A value with its sign turned. */
export function negated(value: Value): Value {
  const number = toNumber(value);
  return number instanceof FormulaError ? number : number === 0 ? 0 : -number;
}
