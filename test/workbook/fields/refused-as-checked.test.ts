import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PATHS } from '../../../src/cli/paths.js';
import { InputError } from '../../../src/errors.js';
import { calculateWorkbook } from '../../../src/workbook/calculate-inputs.js';
import { BATTERY_FIELDS } from '../../../src/workbook/fields/battery-fields.js';
import type { CellValue } from '../../../src/workbook/fields/cell-value.js';
import { Field, type FieldTree, listFields } from '../../../src/workbook/fields/field.js';
import { blankReadings } from '../../../src/workbook/inputs/blank-readings.js';
import { checkInputs } from '../../../src/workbook/inputs/check-inputs.js';
import { parseStartingInputs } from '../../../src/workbook/inputs/parse-starting-inputs.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { allChecks } from '../../../src/workbook/model/checks.js';
import { clockTable } from '../../../src/workbook/model/clock-table.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import { slipsOf } from './slips.js';

const DAYS = 2;
const book = declareBook(DAYS);
const started = parseStartingInputs(readFileSync(PATHS.sampleInputs, 'utf8'), PATHS.sampleInputs);
const inputs: WorkbookInputs = {
  ...started,
  // There are no readings that could lack its channels.
  home: { ...started.home, batteryRan: 'no' },
  readings: blankReadings(book.shape.readingRows),
  clock: clockTable(String(started.clockTimeZone)),
};

/** The same inputs with something else in one field. */
function withCell(fields: FieldTree, field: Field, cells: unknown, value: CellValue): unknown {
  if (fields instanceof Field) return fields === field ? value : cells;
  if (fields === undefined || cells === null) return cells;
  const entries = Object.entries(fields).map(([key, part]): [string, unknown] => [
    key,
    withCell(part as FieldTree, field, (cells as Record<string, unknown>)[key], value),
  ]);
  return Array.isArray(cells) ? entries.map(([, part]) => part) : Object.fromEntries(entries);
}

const calculated = calculateWorkbook(workbookModel(inputs, book), book, inputs);
const firstCheck = allChecks(book)[0]!.name;
const checkRow = Array.from({ length: 20 }, (_, i) => i + 1).find(
  (row) => calculated.at(SHEETS.checks, `A${row}`) === firstCheck,
)!;

/** Names of the checks that show a fault; that there are no readings, and so no period, does not count here. */
function faultsOf(): string[] {
  return allChecks(book)
    .map(({ name, kind }, i) => ({ name, kind, count: calculated.at(SHEETS.checks, `B${checkRow + i}`) }))
    .filter(({ name, kind, count }) => kind === 'fault' && count !== 0 && !/^No readings/.test(name))
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

const FAMILIES: readonly { name: string; fields: FieldTree; key: keyof WorkbookInputs }[] = [
  { name: 'Battery', fields: BATTERY_FIELDS, key: 'battery' },
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
      expect({ isRefused: refused !== undefined }).toEqual({ isRefused: faults.length > 0 });
      if (slip.isWrong) expect(refused).toBe(`${field.cell.place.sheet}!${field.at}`);
    });
  },
);
