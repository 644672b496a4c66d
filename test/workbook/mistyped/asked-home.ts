import { readFileSync } from 'node:fs';
import { PATHS } from '../../../src/cli/paths.js';
import { calculateWorkbook } from '../../../src/workbook/calculate-inputs.js';
import { BATTERY_FIELDS } from '../../../src/workbook/fields/battery-fields.js';
import type { CellValue } from '../../../src/workbook/fields/cell-value.js';
import type { Field } from '../../../src/workbook/fields/field.js';
import { SETTING_FIELDS } from '../../../src/workbook/fields/heating-settings.js';
import { TARIFF_FIELDS } from '../../../src/workbook/fields/tariff-fields.js';
import { blankReadings } from '../../../src/workbook/inputs/blank-readings.js';
import { parseStartingInputs } from '../../../src/workbook/inputs/parse-starting-inputs.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { allChecks } from '../../../src/workbook/model/checks.js';
import { clockTable } from '../../../src/workbook/model/clock-table.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';

/** A field with something typed into it. */
export type Typed = readonly [field: Field, value: CellValue];
/** What each check that asks counts, and what it says before "It counts as typed."; those that count nothing are left out. */
export type Asked = Readonly<Record<string, { count: number; asks: string }>>;

/** Tariffs of the sample, by what they are here for; from 0. */
const TARIFF = { singleRate: 0, twoRates: 1, priced: 3, freeLunch: 4, free: 6 } as const;
export type TariffOfSample = keyof typeof TARIFF;

const FIRST_CHECK_ROW = 6;
const DAYS = 2;

/** The inputs of a workbook without readings, to be typed into. */
export class AskedHome {
  private readonly book = declareBook(DAYS);
  private readonly calculated;

  constructor(path: string = PATHS.sampleInputs) {
    const started = parseStartingInputs(readFileSync(path, 'utf8'), path);
    const inputs: WorkbookInputs = {
      ...started,
      readings: blankReadings(this.book.shape.readingRows),
      clock: clockTable(String(started.clockTimeZone)),
    };
    this.calculated = calculateWorkbook(workbookModel(inputs, this.book), this.book, inputs);
  }

  /** What is asked where this is typed; then the cells are as they were. */
  asked(...typed: readonly Typed[]): Asked {
    const before = typed.map(([{ cell }]) => (this.calculated.value(cell.place) ?? null) as CellValue);
    for (const [{ cell }, value] of typed) this.calculated.retype(cell.place, value);
    const asked = allChecks(this.book).flatMap(({ name, kind }, i) => {
      const row = FIRST_CHECK_ROW + i;
      const [count, asks] = ['B', 'D'].map((letters) =>
        this.calculated.at(SHEETS.checks, `${letters}${row}`),
      );
      return kind !== 'ask' || count === 0 ? [] : [[name, { count, asks: withoutEnd(asks) }]];
    });
    for (const [i, [{ cell }]] of typed.entries()) this.calculated.retype(cell.place, before[i] ?? null);
    return Object.fromEntries(asked) as Asked;
  }
}

const AS_TYPED = ' It counts as typed.';
/** A question without what has to stand after each. */
function withoutEnd(asks: unknown): string {
  const text = String(asks);
  if (!text.endsWith(AS_TYPED)) throw new Error(`"${text}" does not end with "${AS_TYPED}"`);
  return text.slice(0, -AS_TYPED.length);
}

/** The fields of a tariff of the sample. */
export function tariffFields(of: TariffOfSample): (typeof TARIFF_FIELDS)[number] {
  return TARIFF_FIELDS[TARIFF[of]]!;
}
/** The first set of rates of a tariff of the sample. */
export const firstRates = (of: TariffOfSample) => tariffFields(of).periods[0]!;
export const battery = BATTERY_FIELDS;
export const setting = (key: string): Field => SETTING_FIELDS[key]!;
