import { describe, expect, it } from 'vitest';
import { type GasPeriod, importTemperatureFiles } from '../../../src/readings/index.js';
import { isoDateToSerial } from '../../../src/time/serial.js';
import { parseCell } from '../../../src/workbook/cell-address.js';
import { SETTING_FIELDS } from '../../../src/workbook/fields/heating-settings.js';
import { type FillOptions, fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { gasStretches } from '../../../src/workbook/fill/gas-rows.js';
import { FIRST_ROW, SHEETS } from '../../../src/workbook/layout.js';
import { GAS, TEMPERATURE } from '../../../src/workbook/model/heating/heating-rows.js';
import { type InputValue, openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { verifyWorkbook } from '../../../src/workbook/verify/verify-workbook.js';
import { filledYear, sampleGas } from '../sample-workbooks.js';
import { filledMonth, template, ZONE } from '../template.js';
import { inputsOf } from './heated-year.js';

const day = isoDateToSerial;

function period(from: string, to: string, value: number, unit: GasPeriod['unit'] = 'm3'): GasPeriod {
  return { fromSerial: day(from), toSerial: day(to), value, unit, estimated: false };
}

const fill = (workbook: Uint8Array, options: FillOptions) =>
  fillWorkbook(workbook, 'home.xlsx', undefined, options);

const temperatures = (text: string): FillOptions['temperature'] & {} =>
  importTemperatureFiles([{ name: 'weather.csv', bytes: Buffer.from(text) }], { timeZone: ZONE });

describe('gas as rows of the gas sheet', () => {
  it('keeps meter readings some weeks apart as they are', () => {
    expect(gasStretches([period('2024-10-03', '2024-11-01', 86.8)], 'gas.csv')).toEqual([
      { firstDay: day('2024-10-03'), lastDay: day('2024-10-31'), value: 86.8, unit: 'm3' },
    ]);
  });

  it('puts days together by calendar month, and begins anew after a gap', () => {
    const days = ['2024-10-30', '2024-10-31', '2024-11-01', '2024-11-02', '2024-11-04'].map(
      (from): GasPeriod => ({
        ...period(from, from, 3.5, 'kWh'),
        toSerial: day(from) + 1,
      }),
    );
    expect(gasStretches(days, 'gas.csv')).toEqual([
      { firstDay: day('2024-10-30'), lastDay: day('2024-10-31'), value: 7, unit: 'kWh' },
      { firstDay: day('2024-11-01'), lastDay: day('2024-11-02'), value: 7, unit: 'kWh' },
      { firstDay: day('2024-11-04'), lastDay: day('2024-11-04'), value: 3.5, unit: 'kWh' },
    ]);
  });
});

describe('a fill of gas and temperatures', () => {
  it('holds what the files hold, and every stored value is the library’s', async () => {
    const verification = verifyWorkbook(await filledYear(), 'home.xlsx');
    expect(verification.agrees).toBe(true);
    const { gas, temperatures: held } = inputsOf(await filledYear()).heating;
    const rows = gas.filter(({ firstDay }) => firstDay !== null);
    expect(rows).toHaveLength(12);
    expect(rows[0]).toMatchObject({ firstDay: day('2024-10-01'), lastDay: day('2024-10-31'), volume: 86.8 });
    expect(held.filter(({ date }) => date !== null)).toHaveLength(365);
  });

  it('changes nothing when the same files come again', async () => {
    const year = await filledYear();
    const again = fill(year, sampleGas());
    expect(again.bytes).toBe(year);
    expect(again.gas).toEqual({ added: 0, duplicates: 12, replaced: 0 });
    expect(again.temperatures).toEqual({ added: 0, duplicates: 365, replaced: 0 });
  });

  it('refuses other gas for the same days, with the cell, unless told to replace', async () => {
    const once = fill(await template(), { gas: [period('2024-10-01', '2024-11-01', 80)] }).bytes;
    const other: FillOptions = { gas: [period('2024-10-15', '2024-11-01', 40)] };
    expect(() => fill(once, other)).toThrow(`home.xlsx, ${SHEETS.gas}!${GAS.firstDay}${FIRST_ROW}: `);
    const replaced = fill(once, { ...other, onConflict: 'replace' });
    expect(replaced.gas).toEqual({ added: 0, duplicates: 0, replaced: 1 });
    expect(inputsOf(replaced.bytes).heating.gas[0]).toMatchObject({
      firstDay: day('2024-10-15'),
      volume: 40,
    });
  });

  it('puts rows in order of time, whatever the order of the files', async () => {
    const later = fill(await template(), { gas: [period('2024-11-01', '2024-12-01', 90)] }).bytes;
    const both = fill(later, { gas: [period('2024-10-01', '2024-11-01', 80)] }).bytes;
    expect(inputsOf(both).heating.gas.slice(0, 2)).toMatchObject([{ volume: 80 }, { volume: 90 }]);
    expect(verifyWorkbook(both, 'home.xlsx').agrees).toBe(true);
  });

  it('refuses another temperature for the same day, with the cell', async () => {
    const once = fill(await template(), {
      temperature: temperatures('date,mean °C\n2024-10-01,11\n2024-10-02,9\n'),
    });
    const other = temperatures('date,mean °C\n2024-10-02,9.5\n2024-10-03,8\n');
    expect(() => fill(once.bytes, { temperature: other })).toThrow(
      `home.xlsx, ${SHEETS.temperatures}!${TEMPERATURE.date}${FIRST_ROW + 1}: `,
    );
  });

  it('completes days of which only one file’s figure is there', async () => {
    const once = fill(await template(), { temperature: temperatures('date,max °C\n2024-10-01,14\n') });
    const twice = fill(once.bytes, { temperature: temperatures('date,min °C\n2024-10-01,6\n') });
    expect(inputsOf(twice.bytes).heating.temperatures[0]).toMatchObject({ maxC: 14, minC: 6 });
  });

  it('takes no temperature that air never had, and says where it stands', () => {
    expect(() => temperatures('date,mean °C\n2024-10-01,11\n2024-10-02,-999\n')).toThrow(
      /weather\.csv, .*3.*: the temperature of 2024-10-02.* is -999 °C/,
    );
  });

  it('puts half-hourly temperatures beside the readings that there are, other days on their sheet', async () => {
    const hours = (isoDate: string): string[] =>
      Array.from({ length: 24 }, (_, hour) => `${isoDate}T${String(hour).padStart(2, '0')}:00Z,7.5`);
    const text = ['start,outdoor °C', ...hours('2026-12-01'), ...hours('2026-12-02'), ''].join('\n');
    const month = await filledMonth();
    const before = inputsOf(month).readings.count;
    const { bytes, temperatures: counts } = fill(month, { temperature: temperatures(text) });
    expect(counts).toEqual({ added: 2, duplicates: 0, replaced: 0 });
    expect(inputsOf(bytes).readings.count).toBe(before);
  });

  it('refuses more stretches than the workbook holds, with what to do', async () => {
    const weeks = Array.from(
      { length: 30 },
      (_, i): GasPeriod => ({
        ...period('2024-01-01', '2024-01-01', 20),
        fromSerial: day('2024-01-01') + 11 * i,
        toSerial: day('2024-01-01') + 11 * (i + 1),
      }),
    );
    const empty = await template();
    expect(() => fill(empty, { gas: weeks })).toThrow(/30 stretches, the workbook holds 24.*by months/);
  });
});

describe('a wrong heating input is named with its cell', () => {
  const cases: [what: string, sheet: string, cell: string, value: InputValue, message: RegExp][] = [
    [
      'efficiency',
      SHEETS.heatingInputs,
      SETTING_FIELDS.boilerEfficiency!.at,
      85,
      /"Boiler efficiency" is 85/,
    ],
    ['choice', SHEETS.heatingInputs, SETTING_FIELDS.hotWaterSide!.at, 'left', /Choose both or neither/],
    ['tariff', SHEETS.heatingInputs, SETTING_FIELDS.tariff!.at, 'Nobody’s', /none of the tariffs/],
    ['gas without dates', SHEETS.gas, `${GAS.kwh}${FIRST_ROW}`, 900, /no date/],
    [
      'text for a temperature',
      SHEETS.temperatures,
      `${TEMPERATURE.meanC}${FIRST_ROW}`,
      'mild',
      /"mild", not a number/,
    ],
  ];
  it.each(cases)('%s', async (_, sheet, cell, value, message) => {
    const workbook = openWorkbookPackage(await template(), 'home.xlsx');
    const { row, column } = parseCell(cell);
    workbook.editSheet(sheet, { inputs: [{ column, firstRow: row, values: [value] }] });
    const attempt = (): unknown => fill(workbook.toBytes(), {});
    expect(attempt).toThrow(message);
    expect(attempt).toThrow(`home.xlsx, ${sheet}!`);
  });
});
