import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { isoDateToSerial } from '../../src/time/serial.js';
import { BATTERY_FIELDS } from '../../src/workbook/fields/battery-fields.js';
import { BILL_FIELDS } from '../../src/workbook/fields/bill-fields.js';
import type { Field } from '../../src/workbook/fields/field.js';
import { TIMER_FIELDS } from '../../src/workbook/fields/timer-fields.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { READING } from '../../src/workbook/model/columns.js';
import {
  ratePeriodRows,
  TARIFF_ROW,
  TODAYS_TARIFF_CELL,
  tariffLetters,
  windowRows,
} from '../../src/workbook/model/tariff-rows.js';
import { describeWithCalc } from '../engines/availability.js';
import { numbersAgree } from '../engines/compare-cells.js';
import { type Calc, type SheetValues, startCalc } from '../engines/libreoffice.js';
import type { TypedInput } from './sample-workbooks.js';
import { smallEmpty, smallFresh, smallMonth } from './small-month.js';

const NAME = 'Mine';

const typed = ({ cell, at }: Field, value: TypedInput['value']): TypedInput => ({
  sheet: cell.place.sheet,
  cell: at,
  value,
});
const onTariffs = (cell: string, value: TypedInput['value']): TypedInput => ({
  sheet: SHEETS.tariffs,
  cell,
  value,
});

const FIRST = tariffLetters(0);
const RATES = ratePeriodRows(0);

/** A first tariff: its name, a standing charge, a rate; and it is today's. */
const FIRST_TARIFF: TypedInput[] = [
  onTariffs(`${FIRST}${TARIFF_ROW.name}`, NAME),
  onTariffs(`${FIRST}${RATES.standing}`, 50),
  onTariffs(`${FIRST}${RATES.base}`, 30),
  onTariffs(TODAYS_TARIFF_CELL, NAME),
];

/** Hours at a rate of their own. */
const NIGHT: TypedInput[] = [
  onTariffs(`${FIRST}${windowRows(0).from}`, 0.5 / 24),
  onTariffs(`${FIRST}${windowRows(0).to}`, 5.5 / 24),
  onTariffs(`${FIRST}${RATES.windowRates[0]}`, 9),
];

const [bill] = BILL_FIELDS;
const { car } = TIMER_FIELDS;

const CASES: { name: string; of: () => Promise<Uint8Array>; typed: TypedInput[] }[] = [
  { name: 'a first tariff, after a fill', of: smallFresh, typed: FIRST_TARIFF },
  {
    name: 'a tariff with a night and the car’s timer, after a fill',
    of: smallFresh,
    typed: [
      ...FIRST_TARIFF,
      typed(car.powerKw, 7),
      typed(car.from, 0.5 / 24),
      typed(car.to, 5.5 / 24),
      typed(car.isOn, 'yes'),
      ...NIGHT,
    ],
  },
  {
    name: 'a bill',
    of: smallFresh,
    typed: [
      ...FIRST_TARIFF,
      typed(bill!.from, isoDateToSerial('2026-10-01')),
      typed(bill!.to, isoDateToSerial('2026-10-20')),
      typed(bill!.total, 88.4),
    ],
  },
  {
    name: 'readings, into an empty workbook',
    of: smallEmpty,
    typed: [
      ...FIRST_TARIFF,
      ...Array.from({ length: 96 }, (_, i): TypedInput[] => {
        const at = (column: string, value: number): TypedInput => ({
          sheet: SHEETS.readings,
          cell: `${column}${FIRST_ROW + i}`,
          value,
        });
        return [
          at(READING.start, isoDateToSerial('2026-11-02') + i / 48),
          at(READING.importKwh, 0.25 + (i % 7) / 10),
        ];
      }).flat(),
    ],
  },
  {
    name: 'another rate, in a home with everything',
    of: smallMonth,
    typed: [onTariffs(`${tariffLetters(1)}${RATES.base}`, 33)],
  },
  {
    name: 'no battery, in a home with everything',
    of: smallMonth,
    typed: [typed(BATTERY_FIELDS.usableKwh, 0)],
  },
];

describeWithCalc('what LibreOffice shows right after something was typed into a workbook just opened', () => {
  let calc: Calc;
  let folder: string;
  beforeAll(async () => {
    calc = await startCalc({ recalculateOnLoad: 'never' });
    folder = await mkdtemp(join(tmpdir(), 'typed-'));
  });
  afterAll(async () => {
    await calc.stop();
    await rm(folder, { recursive: true, force: true });
  });

  it.each(CASES)('is what it shows after all was worked out anew: $name', async ({ of, typed: cells }) => {
    const path = join(folder, 'home.xlsx');
    await writeFile(path, await of());
    const document = await calc.open(path);
    // One after the other, and nothing is asked for in between.
    for (const { sheet, cell, value = null } of cells) {
      await document.setCells([{ sheet, cell, value }], { settle: false });
    }
    const shown = await document.readAll();
    await document.recalculateAll();
    const right = await document.readAll();
    expect(differences(shown, right)).toEqual([]);
    await document.close();
    const untouched = await calc.open(path);
    const changed = differences(await untouched.readAll(), right);
    // More than the cells that were typed: otherwise there is nothing that could have been missed.
    expect(changed.length).toBeGreaterThan(cells.length + 20);
    await untouched.close();
  });
});

/** Cells that show something else than they should. */
function differences(shown: ReadonlyMap<string, SheetValues>, right: ReadonlyMap<string, SheetValues>) {
  return [...right].flatMap(([sheet, values]) =>
    [...values.cells()].flatMap(({ ref, row, column, value }) => {
      const was = shown.get(sheet)?.at(row, column).value;
      const agrees =
        typeof was === 'number' && typeof value === 'number' ? numbersAgree(was, value) : was === value;
      return agrees ? [] : [`${sheet}!${ref}: ${was} was shown, ${value} is right`];
    }),
  );
}
