import type { CellScalar } from '../../functions/described-function.js';

/** How a figure is shown. */
export type LineFormat = 'number0' | 'number1' | 'number2' | 'pounds' | 'pence' | 'share' | 'date' | 'text';

/** Values that a line may read. A blank cell, and a formula that shows nothing, are `null` as numbers. */
export interface LineValues {
  /** An input, a single figure, or a line of the same row, as a number. */
  number(key: string): number | null;
  text(key: string): string;
  /** A line of every row. */
  column(key: string): (number | null)[];
}

/** References that a line may point at, as they read in its own cell. */
export interface LineReferences {
  cell(key: string): string;
  column(key: string): string;
}

/** One line item in its two faces: a column of the month or gas table, or a row of the figures. */
export interface HeatingLine {
  /** camelCase, with the unit where there is one; unique among all lines and inputs. */
  key: string;
  label: string;
  unit: string;
  format: LineFormat;
  /** One or two sentences: what it is and how it comes about. */
  description: string;
  /** The library's value; '' where it can't be said. */
  value(at: LineValues): CellScalar;
  /** The native formula, without `=`. */
  formula(at: LineReferences): string;
}

/** What is the same in every face of a line. */
export type LineLabel = Omit<HeatingLine, 'value' | 'formula'>;

/** What a cell shows where a figure can't be said. */
export const BLANK = '';

/**
 * A line that has a value where all the figures that it needs are known, and is blank otherwise.
 *
 * @param label key, label, unit, format, description
 * @param needs keys of the figures (inputs, single figures, lines of the same row)
 * @param value the computation on them, in the same order
 * @param formula the formula on their references, in the same order
 */
export function lineOf(
  label: LineLabel,
  needs: readonly string[],
  value: (figures: number[], at: LineValues) => CellScalar,
  formula: (cells: string[], at: LineReferences) => string,
): HeatingLine {
  return {
    ...label,
    value: (at) => {
      const figures = needs.map((key) => at.number(key));
      return figures.includes(null) ? BLANK : value(figures as number[], at);
    },
    formula: (at) => {
      const cells = needs.map((key) => at.cell(key));
      const known = `COUNT(${cells.join(',')})=${cells.length}`;
      return `IF(${known},${formula(cells, at)},"")`;
    },
  };
}

/** A line that takes one figure from another. */
export function differenceOf(label: LineLabel, fromKey: string, takenKey: string): HeatingLine {
  return lineOf(
    label,
    [fromKey, takenKey],
    ([from, taken]) => from! - taken!,
    ([from, taken]) => `${from}-${taken}`,
  );
}

/** A line in £: energy in kWh at a rate in p/kWh, and what comes on top of it in £. */
export function energyAndFixedOf(
  label: LineLabel,
  energyKey: string,
  rateKey: string,
  fixedKey: string,
): HeatingLine {
  return lineOf(
    label,
    [energyKey, rateKey, fixedKey],
    ([energy, rate, fixed]) => (energy! * rate!) / 100 + fixed!,
    ([energy, rate, fixed]) => `${energy}*${rate}/100+${fixed}`,
  );
}

/** The numbers of a column that are known. */
export function known(column: readonly (number | null)[]): number[] {
  return column.filter((value) => value !== null);
}

/** Their sum. */
export function total(column: readonly (number | null)[]): number {
  let sum = 0;
  for (const value of column) sum += value ?? 0;
  return sum;
}
