import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { isoDateToSerial } from '../../../src/time/serial.js';
import { BATTERY_FIELDS } from '../../../src/workbook/fields/battery-fields.js';
import { HOME_FIELDS } from '../../../src/workbook/fields/home-fields.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { USUAL_DAYS } from '../../../src/workbook/layout.js';
import { batteryResultRow, REAL_COST } from '../../../src/workbook/model/battery/battery-rows.js';
import { batterySpan } from '../../../src/workbook/model/battery/battery-span.js';
import { SPAN_WORDS } from '../../../src/workbook/model/battery/span-words.js';
import { declareBook } from '../../../src/workbook/model/book.js';
import { tariffOf } from '../../../src/workbook/model/period-line.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { describeWithCalc } from '../../engines/availability.js';
import { startCalc } from '../../engines/libreoffice.js';
import { withTyped } from '../sample-workbooks.js';
import { imported, template } from '../template.js';
import { valuesOf } from '../values-of.js';

/*
 * One day, 2 October 2025, on "Two-rate night": 9.70 p from 01:30 to 05:00, else 28.90 p. The home takes 1 kWh in each
 * of the four half-hours from 18:00, half of it for the heat pump, and nothing else.
 *
 * Battery: 4 kWh, 4 kW (2 kWh a half-hour), charges at 80 %, discharges at 100 %, empty at the start.
 *
 *   half-hour        takes  gives  level  import  p/kWh    pence
 *   01:30              2            1.6     2      9.70     19.40
 *   02:00              2            3.2     2      9.70     19.40
 *   02:30              1            4.0     1      9.70      9.70
 *   03:00 to 04:30     holds        4.0     0      9.70      0
 *   18:00                     1     3.0     0     28.90      0
 *   18:30                     1     2.0     0     28.90      0
 *   19:00                     1     1.0     0     28.90      0
 *   19:30                     1     0.0     0     28.90      0
 *                             4             5               48.50      without: 4 × 28.90 = 115.60
 *
 * A delivered kWh costs 48.50 ÷ 4 = 12.125 p, and so does the heat pump's. £0.485 is £0.49 on a bill, £1.156 is £1.16.
 */
const DAY = '2025-10-02';
const TWO_RATE = 1;

function csv(): string {
  const rows = Array.from({ length: 48 }, (_, slot) => {
    const time = `${String(Math.floor(slot / 2)).padStart(2, '0')}:${slot % 2 === 0 ? '00' : '30'}`;
    const isEvening = slot >= 36 && slot < 40;
    return `${DAY} ${time},${isEvening ? 1 : 0},${isEvening ? 0.5 : 0}`;
  });
  return ['Start,Import (kWh),Heat pump (kWh)', ...rows, ''].join('\n');
}

const typed = (key: keyof typeof BATTERY_FIELDS, value: number | string) => ({
  sheet: 'Battery',
  cell: BATTERY_FIELDS[key].at,
  value,
});

let metered: Uint8Array;
let day: Uint8Array;
let values: WorkbookValues;
beforeAll(async () => {
  metered = fillWorkbook(await template(), 'home.xlsx', imported({ 'day.csv': csv() })).bytes;
  const changed = withTyped(metered, [
    { sheet: 'Readings', cell: HOME_FIELDS.batteryRan.at, value: 'no' },
    typed('usableKwh', 4),
    typed('chargeKw', 4),
    typed('dischargeKw', 4),
    typed('chargeEfficiency', 0.8),
    typed('dischargeEfficiency', 1),
  ]);
  day = fillWorkbook(changed, 'home.xlsx', undefined).bytes;
  values = valuesOf(day);
});

describe('a day that a pencil can follow', () => {
  it('takes, holds and gives as in the table', () => {
    const { calculated, book } = values;
    const { level, batteryMonths } = tariffOf(book, TWO_RATE);
    const { chargeEfficiency, dischargeEfficiency } = book.workings.battery;
    const number = (value: unknown): number => value as number;
    const levelAt = (slot: number): number => number(calculated.value(level.cell(slot)));
    /** AC kWh that the battery takes, below 0 gives. */
    const flowAt = (slot: number): number => {
      const rise = levelAt(slot) - levelAt(slot - 1);
      return rise > 0
        ? rise / number(calculated.of(chargeEfficiency))
        : rise * number(calculated.of(dischargeEfficiency));
    };
    const at = (of: (slot: number) => number, slots: number[]): number[] =>
      slots.map((slot) => Number(of(slot).toFixed(9)) + 0);
    expect(calculated.value(book.workings.halfHours.start.cell(36))).toBeCloseTo(
      isoDateToSerial(DAY) + 18 / 24,
      9,
    );
    expect(at(flowAt, [2, 3, 4, 5, 6, 9, 10])).toEqual([0, 2, 2, 1, 0, 0, 0]);
    expect(at(flowAt, [35, 36, 37, 38, 39, 40])).toEqual([0, -1, -1, -1, -1, 0]);
    expect(at(levelAt, [2, 3, 4, 5, 35, 36, 39])).toEqual([0, 1.6, 3.2, 4, 4, 3, 0]);
    expect(calculated.column(batteryMonths.energyPence)[0]).toBeCloseTo(48.5, 9);
  });

  it('saves on the bill what the table says, and leaves nothing on the table', () => {
    const { calculated } = values;
    const row = batteryResultRow(TWO_RATE);
    const [saving, delivered, cyclesPerYear, left] = ['E', 'I', 'J', 'M'].map((letters) =>
      calculated.at('Battery', `${letters}${row}`),
    );
    expect(saving).toBe(0.67);
    expect(delivered).toBeCloseTo(4, 9);
    expect(cyclesPerYear).toBeCloseTo(365, 9);
    expect(left).toBeCloseTo(0, 9);
  });

  it('says what a kWh of the heat pump really cost', () => {
    const { calculated, book } = values;
    const { heatPumpKwh, heatPumpPence } = batterySpan(book).months;
    const [kwh, pence] = [heatPumpKwh, heatPumpPence].map((column) => calculated.numbers(column)[0] ?? 0);
    expect(kwh).toBeCloseTo(2, 9);
    expect((pence ?? 0) / (kwh ?? 0)).toBeCloseTo(12.125, 9);
  });

  it('says on the answer sheet what missing battery channels do, once a battery is said to have run', () => {
    const wordsOf = ({ calculated }: WorkbookValues): string =>
      [SPAN_WORDS.missingStart, SPAN_WORDS.missingEnd].map((name) => String(calculated.named(name))).join('');
    expect(wordsOf(valuesOf(metered))).toContain('the import already holds its shifting');
    expect(wordsOf(values)).toBe('');
  });
});

describeWithCalc('LibreOffice works the same day out', () => {
  it('with the figures of the table', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'hand-case-'));
    const calc = await startCalc();
    try {
      const path = join(folder, 'day.xlsx');
      await writeFile(path, day);
      const document = await calc.open(path);
      const value = async (sheet: string, cell: string): Promise<unknown> => {
        const values = await document.readSheet(sheet, { range: `${cell}:${cell}` });
        const [, letters, row] = /^([A-Z]+)(\d+)$/.exec(cell)!;
        const column = [...letters!].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
        return values.at(Number(row), column).value;
      };
      const row = batteryResultRow(TWO_RATE);
      expect(await value('Battery', `E${row}`)).toBeCloseTo(0.67, 9);
      expect(await value('Battery', `I${row}`)).toBeCloseTo(4, 9);
      expect(await value('Battery', `D${REAL_COST.first}`)).toBeCloseTo(12.125, 9);
      const { sheet, letters, firstRow } = tariffOf(declareBook(USUAL_DAYS), TWO_RATE).level;
      expect(await value(sheet, `${letters}${firstRow + 5}`)).toBeCloseTo(4, 9);
      expect(await value(sheet, `${letters}${firstRow + 39}`)).toBeCloseTo(0, 9);
    } finally {
      await calc.stop();
      await rm(folder, { recursive: true, force: true });
    }
  });
});
