import { Cells } from '../operands.js';
import { FormulaError, toCondition, toNumber, toText, type Value } from '../values.js';

export type Operand = Cells | Value;

/** A function of the language: what its arguments are (the last kind goes on), and what it does. */
export interface FormulaFunction {
  readonly takes: readonly ('value' | 'cells')[];
  readonly work: (operands: readonly Operand[]) => Value;
}

/** A function of values whose errors pass through. */
export function ofValues(work: (values: readonly Exclude<Value, FormulaError>[]) => Value): FormulaFunction {
  return {
    takes: ['value'],
    work: (operands) => {
      const values: Exclude<Value, FormulaError>[] = [];
      for (const operand of operands) {
        const value = single(operand);
        if (value instanceof FormulaError) return value;
        values.push(value);
      }
      return work(values);
    },
  };
}

/** A function of numbers whose errors pass through. */
export function ofNumbers(work: (...numbers: number[]) => Value): FormulaFunction {
  return ofValues((values) => {
    const numbers: number[] = [];
    for (const value of values) {
      const number = toNumber(value);
      if (number instanceof FormulaError) return number;
      numbers.push(number);
    }
    return work(...numbers);
  });
}

/** A function of texts whose errors pass through. */
export function ofTexts(work: (...texts: string[]) => Value): FormulaFunction {
  return ofValues((values) => {
    const texts: string[] = [];
    for (const value of values) {
      const text = toText(value);
      if (text instanceof FormulaError) return text;
      texts.push(text);
    }
    return work(...texts);
  });
}

/** An operand as one value. */
export function single(operand: Operand | undefined): Value {
  if (operand === undefined) return null;
  if (!(operand instanceof Cells)) return operand;
  return operand.size === 1 ? operand.at(0, 0) : FormulaError.value;
}

/**
 * The numbers among operands: in cells, what is no number is passed over; a value by itself is taken as a number.
 */
export function numbersIn(operands: readonly Operand[]): number[] | FormulaError {
  const numbers: number[] = [];
  for (const operand of operands) {
    if (operand instanceof Cells) {
      for (const column of operand.columns) {
        for (let row = operand.firstRow; row <= operand.lastRow; row++) {
          const value = column.get(row);
          if (typeof value === 'number') numbers.push(value);
          else if (value instanceof FormulaError) return value;
        }
      }
    } else {
      const number = toNumber(operand);
      if (number instanceof FormulaError) return number;
      numbers.push(number);
    }
  }
  return numbers;
}

/** A function of all the numbers among its operands. */
export function ofAllNumbers(work: (numbers: number[]) => Value): FormulaFunction {
  return {
    takes: ['cells'],
    work: (operands) => {
      const numbers = numbersIn(operands);
      return numbers instanceof FormulaError ? numbers : work(numbers);
    },
  };
}

/** Conditions among operands: in cells, blanks and text are passed over. */
export function conditionsIn(operands: readonly Operand[]): boolean[] | FormulaError {
  const conditions: boolean[] = [];
  for (const operand of operands) {
    const values =
      operand instanceof Cells ? Array.from({ length: operand.size }, (_, i) => operand.nth(i)) : [operand];
    for (const value of values) {
      if (operand instanceof Cells && (value === null || typeof value === 'string')) continue;
      const condition = toCondition(value);
      if (condition instanceof FormulaError) return condition;
      conditions.push(condition);
    }
  }
  return conditions;
}
