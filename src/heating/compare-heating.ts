import { InputError } from '../errors.js';
import type { CellScalar } from '../functions/described-function.js';
import { GAS_FIT_LINES, GAS_MONTH_LINES } from './comparison/gas-lines.js';
import {
  GAS_MONTH_INPUTS,
  HEATING_INPUTS,
  HEATING_MONTH_INPUTS,
  type HeatingInput,
} from './comparison/heating-inputs.js';
import type { HeatingLine, LineValues } from './comparison/heating-line.js';
import { FIT_MONTH_LINES } from './comparison/month-fit-lines.js';
import { HEATING_MONTH_LINES, MONTH_LINES_BEFORE_TOTALS } from './comparison/month-lines.js';
import {
  SENSITIVITY_BASE_LINES,
  SENSITIVITY_KEYS,
  SENSITIVITY_LINES,
  SENSITIVITY_ROWS,
  type SensitivityKind,
  type SensitivityRow,
} from './comparison/sensitivity-lines.js';
import { HEATING_TOTAL_LINES } from './comparison/total-lines.js';
import { HEATING_YEAR_LINES } from './comparison/year-lines.js';

/** Figures of one row or of the single cells, by key; '' where a formula shows nothing. */
export type HeatingFigures = Record<string, CellScalar>;

/** What the comparison is made from; keys as in the input lists, left out or `null` where not known. */
export interface HeatingInputs {
  /** Single inputs, by key of `HEATING_INPUTS`; what is left out takes its initial value, or is not known where it has none. */
  settings: Readonly<HeatingFigures>;
  /** Last year's gas, by key of `GAS_MONTH_INPUTS`. */
  gasMonths: readonly Readonly<HeatingFigures>[];
  /** Months compared, by key of `HEATING_MONTH_INPUTS`. */
  months: readonly Readonly<HeatingFigures>[];
  /** Rows of the sensitivity table; `SENSITIVITY_ROWS` unless given. */
  sensitivity?: readonly SensitivityRow[];
}

/** Every line of the comparison, by key, inputs included. */
export interface HeatingComparison {
  settings: HeatingFigures;
  gasMonths: HeatingFigures[];
  gasFit: HeatingFigures;
  months: HeatingFigures[];
  totals: HeatingFigures;
  year: HeatingFigures;
  sensitivity: HeatingFigures[];
}

/**
 * The blocks in the order in which figures flow: a line reads its own row, blocks before it, and lines above it. The
 * sensitivity table comes after them: `SENSITIVITY_LINES`.
 */
export const HEATING_BLOCKS = {
  gasMonths: { inputs: GAS_MONTH_INPUTS, lines: GAS_MONTH_LINES },
  gasFit: { inputs: [], lines: GAS_FIT_LINES },
  months: { inputs: HEATING_MONTH_INPUTS, lines: HEATING_MONTH_LINES },
  totals: { inputs: [], lines: [...HEATING_TOTAL_LINES, ...SENSITIVITY_BASE_LINES] },
  year: { inputs: [], lines: HEATING_YEAR_LINES },
} as const;

/**
 * Did the heat pump cost more than the boiler would have? The whole comparison, line by line, as the heating sheets
 * show it: month by month, in total, for a year, and how far the answer moves with what it rests on.
 * Sources: those of the functions that the lines use; see each line's description.
 *
 * @param inputs settings, last year's gas and the months compared; units in the input lists
 * @returns every figure by key, in the unit of its line
 * @throws InputError when a key is unknown, a value is of the wrong kind or out of range, or the figures can not be
 *   fitted (every month of last year's gas with the same weather, a summer gas a day above what was metered)
 * @example
 * compareHeating({
 *   settings: { boilerEfficiency: 0.9, gasRatePence: 7.57, gasStandingPencePerDay: 30, singleRatePence: 28.71 },
 *   gasMonths: [],
 *   months: [{ days: 31, electricityKwh: 502, heatKwh: 1857, degreeDays: 310 }],
 * }).totals.verdict
 */
export function compareHeating(inputs: HeatingInputs): HeatingComparison {
  const settings = withoutIdleRates(checkedRow(HEATING_INPUTS, inputs.settings, 'settings'));
  const gasMonths = inputs.gasMonths.map((row, i) => checkedRow(GAS_MONTH_INPUTS, row, `gas month ${i + 1}`));
  const months = inputs.months.map((row, i) => checkedRow(HEATING_MONTH_INPUTS, row, `month ${i + 1}`));
  const sensitivity = (inputs.sensitivity ?? SENSITIVITY_ROWS).map(checkedSensitivity);

  const figures: HeatingFigures = {};
  for (const row of gasMonths) fill(row, GAS_MONTH_LINES, [settings], []);
  fill(figures, GAS_FIT_LINES, [settings], gasMonths);
  for (const row of months) fill(row, MONTH_LINES_BEFORE_TOTALS, [figures, settings], []);
  fill(figures, HEATING_BLOCKS.totals.lines, [settings], months);
  for (const row of months) fill(row, FIT_MONTH_LINES, [figures, settings], []);
  fill(figures, HEATING_YEAR_LINES, [settings], months);
  for (const row of sensitivity) {
    fill(row, SENSITIVITY_LINES[row.sensitivityKind as SensitivityKind], [figures, settings], []);
  }

  return {
    settings,
    gasMonths,
    gasFit: pick(figures, GAS_FIT_LINES),
    months,
    totals: pick(figures, HEATING_BLOCKS.totals.lines),
    year: pick(figures, HEATING_YEAR_LINES),
    sensitivity,
  };
}

/** Works the lines out in order and writes each into `own`, where the next ones find it. */
function fill(
  own: HeatingFigures,
  lines: readonly HeatingLine[],
  outer: readonly HeatingFigures[],
  rows: readonly HeatingFigures[],
): void {
  const find = (key: string): CellScalar => {
    const holder = [own, ...outer].find((figures) => Object.hasOwn(figures, key));
    if (holder === undefined) throw new RangeError(`no figure is called ${key}`);
    return holder[key]!;
  };
  const at: LineValues = {
    number: (key) => numberOrNull(find(key)),
    text: (key) => String(find(key) ?? ''),
    column: (key) => rows.map((row) => numberOrNull(row[key]!)),
  };
  for (const line of lines) own[line.key] = line.value(at);
}

/** An immersion heater that is not there pays nothing, so that its rate need not be known. */
function withoutIdleRates(settings: HeatingFigures): HeatingFigures {
  const rateOf = (side: string, rate: string): CellScalar =>
    settings.hotWaterSide === 'both' && settings[side] === 'immersion heater'
      ? settings[rate]!
      : (settings[rate] ?? 0);
  return {
    ...settings,
    heatPumpSideHotWaterPence: rateOf('heatPumpSideHotWater', 'heatPumpSideHotWaterPence'),
    boilerSideHotWaterPence: rateOf('boilerSideHotWater', 'boilerSideHotWaterPence'),
  };
}

function numberOrNull(value: CellScalar): number | null {
  return typeof value === 'number' ? value : null;
}

function pick(figures: HeatingFigures, lines: readonly HeatingLine[]): HeatingFigures {
  return Object.fromEntries(lines.map(({ key }) => [key, figures[key]!]));
}

function checkedRow(
  inputs: readonly HeatingInput[],
  given: Readonly<HeatingFigures>,
  where: string,
): HeatingFigures {
  for (const key of Object.keys(given)) {
    if (!inputs.some((input) => input.key === key)) {
      throw new InputError(`"${key}" is no input`, `Give ${inputs.map((input) => input.key).join(', ')}.`, {
        line: where,
      });
    }
  }
  return Object.fromEntries(
    inputs.map((input) => [input.key, checked(input, given[input.key] ?? input.initial, where)]),
  );
}

/**
 * Checks one input against its description.
 *
 * @throws InputError naming the input
 */
function checked(input: HeatingInput, value: CellScalar, where: string): CellScalar {
  if (value === null || value === '') {
    if (input.optional === true) return null;
    throw new InputError(`${input.label} is blank`, `Give it in ${input.unit}.`, { line: where });
  }
  if (input.choices !== undefined) {
    if (typeof value === 'string' && input.choices.includes(value)) return value;
    throw new InputError(`${input.label} is "${value}"`, `Choose ${input.choices.join(' or ')}.`, {
      line: where,
    });
  }
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = input;
  if (typeof value === 'number' && Number.isFinite(value) && value >= min && value <= max) return value;
  const limits = [
    input.min === undefined ? [] : [`at least ${input.min}`],
    input.max === undefined ? [] : [`at most ${input.max}`],
  ].flat();
  throw new InputError(
    `${input.label} is ${typeof value === 'string' ? `"${value}"` : value}`,
    `Give a number in ${[input.unit, limits.join(' and ')].filter((part) => part !== '').join(', ')}.`,
    { line: where },
  );
}

function checkedSensitivity(row: SensitivityRow, index: number): HeatingFigures {
  if (!(Number.isFinite(row.sensitivityValue) && row.sensitivityValue > 0)) {
    throw new InputError(`the changed figure is ${row.sensitivityValue}`, 'Give a number above 0.', {
      line: `sensitivity row ${index + 1}`,
    });
  }
  return { ...row, ...Object.fromEntries(SENSITIVITY_KEYS.map((key) => [key, ''])) };
}
