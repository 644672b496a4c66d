import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PATHS } from '../../../src/cli/paths.js';
import { InputError } from '../../../src/errors.js';
import { calculateWorkbook } from '../../../src/workbook/calculate-inputs.js';
import { BATTERY_FIELDS } from '../../../src/workbook/fields/battery-fields.js';
import { BILLS } from '../../../src/workbook/fields/bill-fields.js';
import type { CellValue } from '../../../src/workbook/fields/cell-value.js';
import { Field, type FieldTree, fieldPairs, listFields } from '../../../src/workbook/fields/field.js';
import { GAS_FIELDS } from '../../../src/workbook/fields/gas-fields.js';
import { HEATING_TABLES } from '../../../src/workbook/fields/heating-fields.js';
import { SETTING_FIELDS } from '../../../src/workbook/fields/heating-settings.js';
import { HOME_FIELDS, PERIOD_FIELDS } from '../../../src/workbook/fields/home-fields.js';
import { TARIFF_FIELDS, TODAYS_TARIFF } from '../../../src/workbook/fields/tariff-fields.js';
import { TEMPERATURE_FIELDS } from '../../../src/workbook/fields/temperature-fields.js';
import { TIMER_FIELDS } from '../../../src/workbook/fields/timer-fields.js';
import { blankReadings } from '../../../src/workbook/inputs/blank-readings.js';
import { checkInputs } from '../../../src/workbook/inputs/check-inputs.js';
import { parseStartingInputs } from '../../../src/workbook/inputs/parse-starting-inputs.js';
import type { TariffCells, WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { allChecks } from '../../../src/workbook/model/checks.js';
import { clockTable } from '../../../src/workbook/model/clock-table.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import { slipsOf } from './slips.js';

const DAYS = 2;
const book = declareBook(DAYS);
const started = parseStartingInputs(readFileSync(PATHS.sampleInputs, 'utf8'), PATHS.sampleInputs);

/** The tariff that is slipped in has everything filled in: each slip counts. */
const FULL = 1;
function fullTariff(): TariffCells {
  const cells = { ...started.tariffs[FULL]!, exitFee: 50 };
  return {
    ...cells,
    windows: cells.windows.map((_, k) => ({ from: (8 * k) / 48, to: (8 * k + 4) / 48, days: 'Every day' })),
    periods: cells.periods.map((_, p) => ({
      validFrom: p === 0 ? null : 46_000 + 100 * p,
      standing: 50 + p,
      base: 30 + p,
      windowRates: cells.windows.map((__, k) => 10 + k + p),
      exportRate: 15,
    })),
  };
}
/** Gas and temperatures in two rows each: a slip counts in both. */
const heating: WorkbookInputs['heating'] = {
  ...started.heating,
  gas: started.heating.gas.map((row, i) =>
    i < 2
      ? {
          ...{ firstDay: 45_600 + 30 * i, lastDay: 45_629 + 30 * i, kwh: 900, volume: 81, volumeUnit: 'm3' },
          ...{ calorificValue: 39.4, degreeDays: 250 },
        }
      : row,
  ),
  temperatures: started.heating.temperatures.map((row, i) =>
    i < 2 ? { date: 45_600 + i, meanC: 8.5, maxC: 11, minC: 6 } : row,
  ),
};
const inputs: WorkbookInputs = {
  ...started,
  heating,
  tariffs: started.tariffs.with(FULL, fullTariff()),
  readings: blankReadings(book.shape.readingRows),
  clock: clockTable(String(started.clockTimeZone)),
};

/** The same inputs with something else in one field. */
function withCell(fields: FieldTree, field: Field, cells: unknown, value: CellValue): unknown {
  if (fields instanceof Field) return fields === field ? value : cells;
  if (fields === undefined) return cells;
  const entries = Object.entries(fields).map(([key, part]): [string, unknown] => [
    key,
    withCell(part as FieldTree, field, (cells as Record<string, unknown>)[key], value),
  ]);
  return Array.isArray(cells)
    ? entries.map(([, part]) => part)
    : { ...(cells as object), ...Object.fromEntries(entries) };
}

const calculated = calculateWorkbook(workbookModel(inputs, book), book, inputs);
const firstCheck = allChecks(book)[0]!.name;
const checkRow = Array.from({ length: 20 }, (_, i) => i + 1).find(
  (row) => calculated.at(SHEETS.checks, `A${row}`) === firstCheck,
)!;

/** What Checks says of readings, of which there are none here. */
const OF_READINGS = ['No readings in the chosen period', 'A battery ran, half-hours lack its readings'];
/** What Checks says of rows that are right, each by itself; a fill with temperatures puts them in order. */
const OF_ROWS = ['Gas: rows without degree days', 'Temperatures: days repeated or out of order'];
/** Names of the checks of inputs that show a fault. */
function faultsOf(): string[] {
  return allChecks(book)
    .map(({ name, kind }, i) => ({ name, kind, count: calculated.at(SHEETS.checks, `B${checkRow + i}`) }))
    .filter(
      ({ name, kind, count }) =>
        kind === 'fault' && count !== 0 && ![...OF_READINGS, ...OF_ROWS].includes(name),
    )
    .map(({ name }) => name);
}

function refusalOf(changed: WorkbookInputs): string | undefined {
  try {
    checkInputs(changed, 'home.xlsx');
    return undefined;
  } catch (error) {
    if (error instanceof InputError) return String(error.place.line);
    throw error;
  }
}

/** Rows of a table are alike: the first, and the first with one above it. */
const firstTwo = <Row>(row: Row, i: number): Row | undefined => (i < 2 ? row : undefined);

const FAMILIES: readonly { name: string; fields: FieldTree; key: keyof WorkbookInputs }[] = [
  { name: 'Home', fields: HOME_FIELDS, key: 'home' },
  { name: 'first month', fields: PERIOD_FIELDS.fromMonth, key: 'fromMonth' },
  { name: 'last month', fields: PERIOD_FIELDS.toMonth, key: 'toMonth' },
  { name: 'rates', fields: PERIOD_FIELDS.ratesUsed, key: 'ratesUsed' },
  { name: 'today’s tariff', fields: TODAYS_TARIFF, key: 'todaysTariff' },
  {
    name: 'a tariff',
    fields: TARIFF_FIELDS.map((fields, t) => (t === FULL ? fields : undefined)),
    key: 'tariffs',
  },
  { name: 'Battery', fields: BATTERY_FIELDS, key: 'battery' },
  {
    name: 'bills',
    fields: { settings: BILLS.settings, rows: BILLS.rows.map(firstTwo) },
    key: 'bills',
  },
  { name: 'timers', fields: TIMER_FIELDS, key: 'timers' },
  {
    name: 'heating',
    fields: {
      settings: SETTING_FIELDS,
      rates: HEATING_TABLES.rates.map(firstTwo),
      monthDegreeDays: HEATING_TABLES.monthDegreeDays.map(firstTwo),
      sensitivity: HEATING_TABLES.sensitivity.map(firstTwo),
      gas: GAS_FIELDS.map(firstTwo),
      temperatures: TEMPERATURE_FIELDS.map(firstTwo),
    },
    key: 'heating',
  },
];

it('refuses nothing of the sample, and shows no fault', () => {
  expect(refusalOf(inputs)).toBeUndefined();
  expect(faultsOf()).toEqual([]);
});

describe.each(FAMILIES)(
  'the fill refuses what Checks shows as a fault, and nothing else: $name',
  (family) => {
    const cases = listFields(family.fields).flatMap((field) =>
      slipsOf(field).map((slip) => ({ at: field.at, label: field.spec.label, field, slip })),
    );
    it.each(cases)('$at $label: $slip.kind', ({ field, slip }) => {
      const changed = {
        ...inputs,
        [family.key]: withCell(family.fields, field, inputs[family.key], slip.value),
      };
      const before = (calculated.value(field.cell.place) ?? null) as CellValue;
      calculated.retype(field.cell.place, slip.value);
      const [refused, faults] = [refusalOf(changed), faultsOf()];
      calculated.retype(field.cell.place, before);
      expect({ isRefused: refused !== undefined, faults }).toEqual({ isRefused: faults.length > 0, faults });
      if (slip.isWrong) expect(refused).toBe(`${field.cell.place.sheet}!${field.at}`);
    });
  },
);

describe('faults across the fields of a tariff are refused as Checks shows them', () => {
  const { windows, periods } = TARIFF_FIELDS[FULL]!;
  const changed = (change: (cells: TariffCells) => void): WorkbookInputs => {
    const cells = structuredClone(inputs.tariffs[FULL]!);
    change(cells);
    return { ...inputs, tariffs: inputs.tariffs.with(FULL, cells) };
  };
  const cases: [name: string, change: (cells: TariffCells) => void, at: Field, check: string][] = [
    [
      'a gap among the dated changes',
      ({ periods: [, first] }) => {
        Object.assign(first!, { validFrom: null, standing: null, base: null, exportRate: null });
        first!.windowRates.fill(null);
      },
      periods[2]!.validFrom!,
      'Dates of change that are missing, no dates, or out of order',
    ],
    [
      'changes out of order',
      ({ periods: [, first] }) => Object.assign(first!, { validFrom: 46_999 }),
      periods[2]!.validFrom!,
      'Dates of change that are missing, no dates, or out of order',
    ],
    [
      'a window without length',
      ({ windows: [first] }) => Object.assign(first!, { to: 0 }),
      windows[0]!.to,
      'Windows that are not two times on the half-hour',
    ],
    [
      'days that can’t be read',
      ({ windows: [first] }) => Object.assign(first!, { days: 'Funday' }),
      windows[0]!.days,
      'Windows whose days can’t be read',
    ],
    [
      'two windows that overlap',
      ({ windows: [first] }) => Object.assign(first!, { to: 10 / 48 }),
      windows[1]!.from,
      'Half-hours of the week in two windows of a tariff',
    ],
    [
      'a rate of no window',
      ({ windows: [first] }) => Object.assign(first!, { from: null, to: null }),
      periods[0]!.windowRates[0]!,
      'Rates of windows that are missing, no numbers, or of no window',
    ],
  ];
  it.each(cases)('%s', (_, change, at, check) => {
    const now = changed(change);
    expect(refusalOf(now)).toBe(`Tariffs!${at.at}`);
    for (const [field, value] of fieldPairs(TARIFF_FIELDS, now.tariffs)) {
      calculated.retype(field.cell.place, value);
    }
    expect(faultsOf()).toContain(check);
    for (const [field, value] of fieldPairs(TARIFF_FIELDS, inputs.tariffs)) {
      calculated.retype(field.cell.place, value);
    }
  });
});

describe('a time of a window that is none is one fault: where the window lies is not known', () => {
  const { windows } = TARIFF_FIELDS[FULL]!;
  const times = windows.flatMap(({ from, to }) => [from, to]);
  const slips = [25 / 24, -1 / 48, 20 / 1440, '05:00', null];
  it.each(times.flatMap((field) => slips.map((value) => ({ at: field.at, field, value }))))(
    '$at: $value',
    ({ field, value }) => {
      const before = (calculated.value(field.cell.place) ?? null) as CellValue;
      calculated.retype(field.cell.place, value);
      const faults = faultsOf();
      calculated.retype(field.cell.place, before);
      expect(faults).toEqual(['Windows that are not two times on the half-hour']);
    },
  );
});
