import { formatClock } from '../../tariffs/clock-text.js';
import type { CellValue } from './cell-value.js';
import type { Field } from './field.js';
import type { NumberLimits } from './limits.js';

/** What was found in a cell, and what to do about it. */
export interface Refusal {
  found: string;
  whatToDo: string;
}

/** A value as a refusal shows it. */
export const shown = (cell: CellValue): string => JSON.stringify(cell);

/**
 * Why what a field holds is refused.
 *
 * @param field the field
 * @param cell what it holds, outside its limits
 * @param names the names that it may be, where it is one of a list
 */
export function refusalOf({ spec }: Field, cell: CellValue, names: readonly string[]): Refusal {
  const { limits, label, mayBeBlank, what = `the ${label.charAt(0).toLowerCase()}${label.slice(1)}` } = spec;
  const orClear = mayBeBlank ? ', or clear the cell' : '';
  const told = (found: string, whatToDo: string): Refusal => ({ found, whatToDo: spec.toDo ?? whatToDo });
  if (limits.kind === 'choice') {
    return told(
      cell === null ? 'the choice is missing' : `"${String(cell)}" is no choice here`,
      `Write ${limits.choices.join(' or ').toLowerCase()}.`,
    );
  }
  if (limits.kind === 'listed') {
    const { blankMeans } = limits;
    const choose = `hoose one of: ${names.join(', ')}.`;
    if (blankMeans !== undefined) {
      return told(
        `${what}, "${String(cell)}", is none of the tariffs`,
        `Leave it blank for ${blankMeans}, or c${choose}`,
      );
    }
    return told(
      cell === null ? `${what} is not chosen` : `${what} "${String(cell)}" is none of the tariffs`,
      names.length === 0 ? 'Type it into a column, or clear the cell.' : `C${choose}`,
    );
  }
  if (limits.kind === 'text' || limits.kind === 'any') {
    return told(cell === null ? `${what} is missing` : `${what} is ${shown(cell)}, not a text`, `Type it.`);
  }
  if (typeof cell !== 'number') {
    const isDate = limits.kind === 'date';
    return told(
      cell === null ? `${what} is missing` : `${what} is ${shown(cell)}, not a ${isDate ? 'date' : 'number'}`,
      `Type a ${isDate ? 'date' : 'number'}${orClear}.`,
    );
  }
  switch (limits.kind) {
    case 'number':
      return told(
        `${what} is ${cell}`,
        `Type a number ${rangeOf(limits, spec.style === 'inputPercent')}${orClear}.`,
      );
    case 'date':
      return told(
        `${what} is ${cell}, not a date`,
        `Type a date from 1990 to 2099${limits.whole ? ' without a time of day' : ''}${orClear}.`,
      );
    case 'time':
      return told(
        `${what} is ${cell >= 0 && cell <= 1 ? formatClock(Math.round(cell * 1440)) : cell}`,
        `Meters count half-hours: write a time that ends in :00 or :30, from 00:00 to ${limits.mayBeMidnightAfter ? '24:00' : '23:30'}${orClear}.`,
      );
  }
}

function rangeOf({ from, above, to, below }: NumberLimits, inPercent: boolean): string {
  const text = (bound: number): string => (inPercent ? `${bound * 100} %` : String(bound));
  return [
    ...(from === undefined ? [] : [`from ${text(from)}`]),
    ...(above === undefined ? [] : [`above ${text(above)}`]),
    ...(to === undefined ? [] : [`up to ${text(to)}`]),
    ...(below === undefined ? [] : [`below ${text(below)}`]),
  ].join(' and ');
}
