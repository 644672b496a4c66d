import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CellSetting } from '../../../scripts/lib/calc/start-calc.js';
import { isoDateToSerial } from '../../../src/time/serial.js';
import { SETTING_FIELDS } from '../../../src/workbook/fields/heating-settings.js';
import { OwnedCells } from '../../../src/workbook/fill/owned-cells.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { FIRST_ROW, SHEETS } from '../../../src/workbook/layout.js';
import {
  DEGREE_DAY_TABLE,
  GAS,
  RATES_TABLE,
  TEMPERATURE,
} from '../../../src/workbook/model/heating/heating-rows.js';
import type { CellValue } from '../../../src/workbook/model/sheet-model.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import { CellError, cellName } from '../../../src/workbook/package/index.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { describeWithCalc } from '../../engines/availability.js';
import { numbersAgree } from '../../engines/compare-cells.js';
import { type Calc, type CalcDocument, startCalc } from '../../engines/libreoffice.js';
import { checkCounts } from '../shown-by-sheet.js';
import { gappyYear, inputsOf } from './heated-year.js';
import { comparisonOf, figure, libraryComparison, rounded, workedOut } from './heating-values.js';

const COMPARED: readonly string[] = [
  SHEETS.heating,
  SHEETS.gas,
  SHEETS.temperatures,
  SHEETS.heatingFigures,
  SHEETS.heatingMonths,
  SHEETS.heatingDays,
  SHEETS.checks,
];
/** So many formula cells at least: a comparison that finds few has gone blind. */
const LEAST_CELLS = 7_000;

/** A change as the user types it, and as the library reads it. */
interface Change {
  cells: CellSetting[];
  apply: (inputs: WorkbookInputs) => void;
}

function set(key: string, value: CellValue): Change {
  return {
    cells: [{ sheet: SHEETS.heatingInputs, cell: SETTING_FIELDS[key]!.at, value }],
    apply: ({ heating }) => {
      heating.settings[key] = value;
    },
  };
}

function period(from: string, to: string): Change {
  const [first, last] = [isoDateToSerial(from), isoDateToSerial(to)];
  return {
    cells: [
      { sheet: SHEETS.answer, cell: 'C4', value: first },
      { sheet: SHEETS.answer, cell: 'E4', value: last },
    ],
    apply: (inputs) => {
      inputs.fromMonth = first;
      inputs.toMonth = last;
    },
  };
}

const gasRate: Change = {
  cells: [
    { sheet: SHEETS.heatingInputs, cell: `${RATES_TABLE.gasRate}${RATES_TABLE.first + 1}`, value: 9.43 },
  ],
  apply: ({ heating }) => {
    heating.rates[1]!.gasRate = 9.43;
  },
};
const typedDegreeDays: Change = {
  cells: [
    {
      sheet: SHEETS.heatingInputs,
      cell: `${DEGREE_DAY_TABLE.month}${DEGREE_DAY_TABLE.first}`,
      value: isoDateToSerial('2026-01-09'),
    },
    {
      sheet: SHEETS.heatingInputs,
      cell: `${DEGREE_DAY_TABLE.degreeDays}${DEGREE_DAY_TABLE.first}`,
      value: 361,
    },
  ],
  apply: ({ heating }) => {
    heating.monthDegreeDays[0] = { month: isoDateToSerial('2026-01-09'), degreeDays: 361 };
  },
};
const imperialGas: Change = {
  cells: [
    { sheet: SHEETS.gas, cell: `${GAS.volumeUnit}${FIRST_ROW + 3}`, value: '100ft3' },
    { sheet: SHEETS.gas, cell: `${GAS.volume}${FIRST_ROW + 3}`, value: 93 },
    { sheet: SHEETS.gas, cell: `${GAS.calorificValue}${FIRST_ROW + 4}`, value: 38.2 },
    { sheet: SHEETS.gas, cell: `${GAS.degreeDays}${FIRST_ROW + 5}`, value: 301.5 },
  ],
  apply: ({ heating: { gas } }) => {
    Object.assign(gas[3]!, { volumeUnit: '100ft3', volume: 93 });
    gas[4]!.calorificValue = 38.2;
    gas[5]!.degreeDays = 301.5;
  },
};

/** A cell of a table, with the field of its row that it is. */
function typeIn<Row extends object>(
  sheet: string,
  first: number,
  rowsOf: (inputs: WorkbookInputs) => Row[],
  typed: readonly [row: number, key: keyof Row, letters: string, value: CellValue][],
): Change {
  return {
    cells: typed.map(([row, , letters, value]) => ({ sheet, cell: `${letters}${first + row}`, value })),
    apply: (inputs) => {
      for (const [row, key, , value] of typed) Object.assign(rowsOf(inputs)[row]!, { [key]: value });
    },
  };
}

const unusableRows: Change[] = [
  typeIn(SHEETS.gas, FIRST_ROW, ({ heating }) => heating.gas, [
    [0, 'lastDay', GAS.lastDay, 45_000],
    [1, 'volume', GAS.volume, 'lots'],
    [2, 'volumeUnit', GAS.volumeUnit, 'pints'],
    [6, 'degreeDays', GAS.degreeDays, -4],
    [7, 'kwh', GAS.kwh, -1],
    [14, 'firstDay', GAS.firstDay, 'last week'],
  ]),
  typeIn(SHEETS.temperatures, FIRST_ROW, ({ heating }) => heating.temperatures, [
    [10, 'date', TEMPERATURE.date, 'Monday'],
    [11, 'date', TEMPERATURE.date, 45_576.5],
    [12, 'meanC', TEMPERATURE.meanC, 'mild'],
    [13, 'maxC', TEMPERATURE.maxC, 2],
    [13, 'minC', TEMPERATURE.minC, 9],
    [14, 'maxC', TEMPERATURE.maxC, 19],
    [14, 'minC', TEMPERATURE.minC, 9],
    [20, 'date', TEMPERATURE.date, isoDateToSerial('2024-10-04')],
  ]),
  typeIn(SHEETS.heatingInputs, RATES_TABLE.first, ({ heating }) => heating.rates, [
    [2, 'gasRate', RATES_TABLE.gasRate, -3],
    [3, 'singleRate', RATES_TABLE.singleRate, 'free'],
    [5, 'gasStanding', RATES_TABLE.gasStanding, 30],
    [6, 'from', RATES_TABLE.from, isoDateToSerial('2026-05-01')],
  ]),
];

const STEPS: {
  name: string;
  changes: Change[];
  meaning?: (values: WorkbookValues) => void;
}[] = [
  { name: 'another boiler efficiency', changes: [set('boilerEfficiency', 0.91)] },
  { name: 'another gas rate from January', changes: [gasRate] },
  { name: 'another base temperature', changes: [set('degreeDayBaseC', 17.25)] },
  {
    name: 'hot water by immersion heaters',
    changes: [set('heatPumpSideHotWater', 'immersion heater'), set('boilerSideHotWater', 'immersion heater')],
  },
  {
    name: 'hot water on neither side, gas kept, some gas for a hob',
    changes: [set('hotWaterSide', 'neither'), set('gasSupply', 'kept'), set('otherGasKwhPerDay', 1.4)],
  },
  {
    name: 'a tariff of its own, degree days from half-hours and for a year as typed',
    changes: [
      set('tariff', 'Heat pump hours'),
      set('degreeDayMethod', 'half-hours'),
      set('yearDegreeDays', 2300),
    ],
  },
  { name: 'degree days typed for a month, gas by other units', changes: [typedDegreeDays, imperialGas] },
  { name: 'gaps scaled up', changes: [set('scaleDegreeDays', 'yes'), set('leastCoverageShare', 0.9)] },
  {
    name: 'settings that can not be used',
    changes: [
      set('boilerEfficiency', 7),
      set('costBasis', 'whatever'),
      set('tariff', 'None of these'),
      set('enteredBaseGasKwhPerDay', 900),
      set('disagreeBeyondShare', 0.05),
    ],
  },
  {
    name: 'rows that can not be used',
    changes: unusableRows,
    meaning: (values) => {
      const counts = checkCounts(values);
      expect(counts['Gas: rows that can’t be used']).toBe(6);
      expect(counts['Temperatures: rows that can’t be used']).toBe(4);
      expect(counts['Temperatures: days repeated or out of order']).toBe(1);
      expect(counts['Heating: sets of rates out of order, without a month, or not numbers']).toBe(4);
    },
  },
  {
    name: 'a summer gas a day, three winter months',
    changes: [set('enteredBaseGasKwhPerDay', 6.5), period('2025-12-01', '2026-02-28')],
    meaning: (values) => expect(figure(values, 'yearVerdict')).toMatch(/^3 months compared are not a year/),
  },
  {
    name: 'one winter month',
    changes: [period('2026-01-01', '2026-01-01')],
    meaning: (values) =>
      expect(figure(values, 'yearVerdict')).toMatch(/^One winter month compared is not a year\./),
  },
];

describeWithCalc('LibreOffice recalculates the heating sheets to the library’s values', () => {
  let folder: string;
  let calc: Calc;
  let document: CalcDocument;
  let inputs: WorkbookInputs;

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'heating-'));
    const path = join(folder, 'year.xlsx');
    const year = await gappyYear();
    await writeFile(path, year);
    inputs = inputsOf(year);
    calc = await startCalc();
    document = await calc.open(path);
  });
  afterAll(async () => {
    await calc?.stop();
    await rm(folder, { recursive: true, force: true });
  });

  async function differences({
    book,
    calculated,
  }: WorkbookValues): Promise<{ compared: number; differing: string[] }> {
    const differing: string[] = [];
    let compared = 0;
    for (const sheet of workbookModel(inputs, book)) {
      if (!COMPARED.includes(sheet.name)) continue;
      const owned = new OwnedCells(sheet, calculated);
      const read = await document.readSheet(sheet.name);
      for (const { row, column } of owned.positions()) {
        const expected = owned.valueAt(row, column) ?? '';
        const found = read.at(row, column).value;
        compared++;
        const same =
          typeof expected === 'number' && typeof found === 'number'
            ? numbersAgree(found, expected)
            : expected instanceof CellError
              ? String(found) === String(expected)
              : (found ?? '') === expected;
        if (!same) differing.push(`${sheet.name}!${cellName(row, column)}: ${found}, expected ${expected}`);
      }
    }
    return { compared, differing };
  }

  it('in a year with gaps, as filled', async () => {
    const { compared, differing } = await differences(workedOut(inputs));
    expect(differing).toEqual([]);
    expect(compared).toBeGreaterThan(LEAST_CELLS);
    console.info(`LibreOffice: ${compared.toLocaleString('en-GB')} cells of the heating sheets equal`);
  });

  // Each change is made in the open spreadsheet and left there, as a user would.
  it.each(STEPS)('after $name', async ({ changes, meaning }) => {
    const before = comparisonOf(workedOut(inputs));
    for (const { apply } of changes) apply(inputs);
    await document.setCells(changes.flatMap(({ cells }) => cells));
    const values = workedOut(inputs);
    const comparison = comparisonOf(values);
    expect(comparison).not.toEqual(before);
    expect(rounded(comparison)).toEqual(rounded(libraryComparison(comparison)));
    expect((await differences(values)).differing).toEqual([]);
    meaning?.(values);
  });
});
