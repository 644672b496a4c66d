import ExcelJS from 'exceljs';
import { beforeEach, describe, expect, it } from 'vitest';
import { batteryCapacityCell, rateCell } from '../../../scripts/lib/bench/find-cells.js';

describe('the cells that the benchmark changes', () => {
  let workbook: ExcelJS.Workbook;
  let tariffs: ExcelJS.Worksheet;
  let battery: ExcelJS.Worksheet;
  const bytes = async () => new Uint8Array(await workbook.xlsx.writeBuffer());

  beforeEach(() => {
    workbook = new ExcelJS.Workbook();
    tariffs = workbook.addWorksheet('Tariffs');
    tariffs.addRow(['Standing charge', 'p/day', 50, 51]);
    tariffs.addRow(['Base rate, outside the windows', { formula: '"p"', result: 'p' }, 26, 28, 27]);
    tariffs.addRow(['Base rate, outside the windows', 'p/kWh', 36, 38, 37]);
    battery = workbook.addWorksheet('Battery');
    battery.getCell('B6').value = 'Usable capacity';
    battery.getCell('C6').value = 9.5;
    battery.getCell('D6').value = 'kWh';
  });

  it('are the second tariff’s first base rate', async () => {
    expect(rateCell(await bytes())).toEqual({ sheet: 'Tariffs', cell: 'D2', value: 28 });
  });

  it('are found wherever the label has moved, in column A or B', async () => {
    tariffs.spliceColumns(1, 0, []);
    tariffs.spliceRows(1, 0, [], []);
    // Labels are now in B, the unit in C.
    expect(rateCell(await bytes())).toEqual({ sheet: 'Tariffs', cell: 'E4', value: 28 });
  });

  it('are never a formula, and never another row where too few tariffs have a rate', async () => {
    tariffs.getCell('D2').value = { formula: 'C2+2', result: 28 };
    expect(rateCell(await bytes()).cell).toBe('E2');
    tariffs.getCell('E2').value = null;
    const file = await bytes();
    expect(() => rateCell(file)).toThrow('row 2 of sheet Tariffs holds 1 typed numbers');
  });

  it('are not guessed where no label fits', async () => {
    tariffs.getCell('A2').value = tariffs.getCell('A3').value = 'A rate';
    const file = await bytes();
    expect(() => rateCell(file)).toThrow('no label of sheet Tariffs fits');
  });

  it('are the battery’s capacity by its label, or by its name wherever that is', async () => {
    expect(batteryCapacityCell(await bytes())).toEqual({ sheet: 'Battery', cell: 'C6', value: 9.5 });
    workbook.addWorksheet('Home').getCell('E9').value = 12;
    workbook.definedNames.add('Home!$E$9', 'usable_kWh');
    expect(batteryCapacityCell(await bytes())).toEqual({ sheet: 'Home', cell: 'E9', value: 12 });
  });

  it('are the label’s where the name stands for a formula', async () => {
    workbook.addWorksheet('Home').getCell('E9').value = { formula: 'Battery!C6', result: 9.5 };
    workbook.definedNames.add('Home!$E$9', 'battery_usable_kwh');
    expect(batteryCapacityCell(await bytes()).cell).toBe('C6');
  });

  it('are refused where there is no battery, since switching it off would change nothing', async () => {
    battery.getCell('C6').value = 0;
    const file = await bytes();
    expect(() => batteryCapacityCell(file)).toThrow('there is no battery to switch off');
  });
});
