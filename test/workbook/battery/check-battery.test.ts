import { beforeAll, describe, expect, it } from 'vitest';
import type { InputError } from '../../../src/errors.js';
import type { BatteryCells } from '../../../src/workbook/inputs/battery-cells.js';
import { checkInputs } from '../../../src/workbook/inputs/check-inputs.js';
import { readInputs, shapeOfWorkbook } from '../../../src/workbook/inputs/read-inputs.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { template } from '../template.js';

let inputs: WorkbookInputs;
beforeAll(async () => {
  const workbook = openWorkbookPackage(await template(), 'home.xlsx');
  inputs = readInputs(workbook, shapeOfWorkbook(workbook));
});
const withBattery = (cells: Partial<BatteryCells>): WorkbookInputs => ({
  ...inputs,
  battery: { ...inputs.battery, ...cells },
});
const refused = (cells: Partial<BatteryCells>): InputError => {
  try {
    checkInputs(withBattery(cells), 'home.xlsx');
  } catch (error) {
    return error as InputError;
  }
  throw new Error('the battery was taken');
};

describe('a fill refuses a battery that can’t be worked with, and names the cell', () => {
  const cases: [Partial<BatteryCells>, string, string][] = [
    [{ usableKwh: 'ten' }, 'Battery!C6', 'usable capacity is "ten"'],
    [{ reserveKwh: -1 }, 'Battery!C12', 'reserve is -1'],
    [{ chargeKw: 0 }, 'Battery!C7', 'holds 9.5 kWh but its charge power is 0 kW'],
    [{ dischargeKw: null }, 'Battery!C8', 'discharge power is 0 kW'],
    [{ chargeEfficiency: 95 }, 'Battery!C9', 'efficiency is 95'],
    [{ dischargeEfficiency: null }, 'Battery!C10', 'efficiency is missing'],
    [{ roundTripEfficiency: 0 }, 'Battery!C11', 'efficiency is 0'],
    [{ mayExport: 'perhaps' }, 'Battery!C17', '"perhaps" is no choice here'],
    [{ tariff: 'none of them' }, 'Battery!C20', '"none of them", is none of the tariffs'],
  ];
  it.each(cases)('%o', (cells, place, found) => {
    const error = refused(cells);
    expect(error.message).toContain(place);
    expect(error.found).toContain(found);
    expect(error.whatToDo).not.toBe('');
  });

  it('takes no battery with nothing else filled in, and a round trip instead of two efficiencies', () => {
    const blank = { chargeKw: null, dischargeKw: null, chargeEfficiency: null, dischargeEfficiency: null };
    checkInputs(withBattery({ ...blank, usableKwh: 0 }), 'home.xlsx');
    checkInputs(withBattery({ ...blank, usableKwh: null }), 'home.xlsx');
    checkInputs(
      withBattery({ chargeEfficiency: null, dischargeEfficiency: null, roundTripEfficiency: 0.9 }),
      'home.xlsx',
    );
  });
});
