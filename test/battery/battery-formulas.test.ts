import ExcelJS from 'exceljs';
import { describe, it } from 'vitest';
import type { Battery } from '../../src/battery/battery.js';
import {
  type BatteryReferences,
  batteryDayFormulas as dayFormulas,
  batteryRuleFormulas as ruleFormulas,
  storedEnergyFormulas as storedFormulas,
} from '../../src/battery/battery-formulas.js';
import { runBatteryRule } from '../../src/battery/battery-rule.js';
import { storedEnergyCost } from '../../src/battery/stored-energy-cost.js';
import { describeWithCalc, describeWithGnumeric } from '../engines/availability.js';
import { assertCellsEqual, compareCells, type EngineResult } from '../engines/compare-cells.js';
import { recalculateWithGnumeric } from '../engines/gnumeric.js';
import { recalculateWithCalc } from '../engines/libreoffice.js';
import { withFile } from '../engines/with-file.js';
import type { BatteryCase } from './random-battery-case.js';
import { randomHouseCase } from './random-house-case.js';

const CASES = 12;
const HALF_HOURS = 5 * 48;
/** First row of half-hours, of days; the battery stands above in column B. */
const FIRST = 20;
type Column = readonly [
  letter: string,
  formula: (row: number) => string,
  value: (i: number) => number | boolean,
];

/** One sheet: a home, its battery, the rule and the cost of stored energy as formulas beside what the library says. */
function layOut(sheet: ExcelJS.Worksheet, home: ReturnType<typeof randomHouseCase>): void {
  const { input, battery, use } = home;
  const run = runBatteryRule(input, battery);
  const stored = storedEnergyCost(input, use, battery, run);
  const count = input.importKwh.length;
  const last = FIRST + count - 1;
  const b = Object.fromEntries(
    (Object.keys(battery) as (keyof Battery)[]).map((key, i) => {
      sheet.getCell(i + 1, 1).value = key;
      sheet.getCell(i + 1, 2).value = battery[key];
      return [key, `$B$${i + 1}`];
    }),
  ) as unknown as BatteryReferences;
  const startStock = stored.startStockPence;
  sheet.getCell('D1').value = startStock;
  // Inputs: A day from 1, B import, C export, D car's import, E rate, F export rate, G house, H heat pump, I car.
  for (let i = 0; i < count; i++) {
    const values = [
      input.dayIndex[i]! + 1,
      input.importKwh[i]!,
      input.exportKwh[i]!,
      input.carKwh[i]!,
      input.unitRatePence[i]!,
      input.exportRatePence[i]!,
      use.demandKwh[i]!,
      use.heatPumpKwh[i]!,
      use.carKwh[i]!,
    ];
    values.forEach((value, c) => {
      sheet.getCell(FIRST + i, c + 1).value = value;
    });
  }
  const put = (cell: string, formula: string, result: number | boolean): void => {
    sheet.getCell(cell).value = { formula, result };
  };
  // Days: AO first row, AP rows, AQ to fill, AR charge up to, AS dear, AT worthwhile below, AU serve from, AV refill,
  // AW charge below.
  let first = 1;
  run.days.forEach((day, d) => {
    const row = FIRST + d;
    sheet.getCell(`AO${row}`).value = first;
    sheet.getCell(`AP${row}`).value = day.halfHours;
    first += day.halfHours;
    const rates = `INDEX($E$${FIRST}:$E$${last},AO${row}):INDEX($E$${FIRST}:$E$${last},AO${row}+AP${row}-1)`;
    put(`AQ${row}`, dayFormulas.halfHoursToFill(`COUNT(${rates})`, b), day.halfHoursToFill);
    put(`AR${row}`, dayFormulas.chargeUpTo(rates, `AQ${row}`), day.chargeUpToRatePence);
    put(`AS${row}`, dayFormulas.dear(rates, `AQ${row}`), day.dearRatePence);
    put(`AT${row}`, dayFormulas.worthwhileBelow(`AS${row}`, b), day.worthwhileBelowRatePence);
    const facts = { rates, chargeUpTo: `AR${row}`, dear: `AS${row}`, worthwhileBelow: `AT${row}` };
    put(`AU${row}`, dayFormulas.serveFrom(facts, b), day.serveFromRatePence);
    put(`AW${row}`, dayFormulas.chargeBelow(facts), day.chargeBelowRatePence);
    put(`AV${row}`, dayFormulas.refill(`AR${row}`, `AR${row + 1}`), day.refillRatePence);
  });
  const dayFact = (column: string, row: number): string =>
    `INDEX($${column}$${FIRST}:$${column}$${FIRST + run.days.length - 1},A${row})`;
  put(`P${FIRST - 1}`, ruleFormulas.startLevel(b), run.totals.startLevelKwh);
  put(`S${FIRST - 1}`, 'D1', startStock);
  sheet.getCell(`M${last + 1}`).value = Number(ruleFormulas.noChargingAhead);
  const columns: Column[] = [
    [
      'J',
      (r) => ruleFormulas.surplus(`B${r}`, `C${r}`),
      (i) => Math.max(0, input.exportKwh[i]! - input.importKwh[i]!),
    ],
    [
      'K',
      (r) => ruleFormulas.demand(`B${r}`, `C${r}`, `D${r}`, b),
      (i) =>
        Math.max(0, input.importKwh[i]! - input.exportKwh[i]! - (battery.mayFeedCar ? 0 : input.carKwh[i]!)),
    ],
    [
      'L',
      (r) => ruleFormulas.charging({ rate: `E${r}`, chargeBelow: dayFact('AW', r) }, b),
      (i) => run.chargingHalfHour[i] === 1,
    ],
    ['M', (r) => ruleFormulas.steps(`L${r}`, `M${r + 1}`), (i) => run.stepsToCharging[i]!],
    [
      'N',
      (r) =>
        ruleFormulas.battery(
          {
            charging: `L${r}`,
            steps: `M${r}`,
            surplus: `J${r}`,
            demand: `K${r}`,
            car: `D${r}`,
            rate: `E${r}`,
            levelUp: `P${r - 1}`,
            serveFrom: dayFact('AU', r),
            sells: dayFormulas.sells({ exportRate: `F${r}`, refill: dayFact('AV', r) }, b),
          },
          b,
        ),
      (i) => run.batteryKwh[i]!,
    ],
    ['P', (r) => ruleFormulas.level(`N${r}`, `P${r - 1}`, b), (i) => run.levelKwh[i]!],
    [
      'Q',
      (r) =>
        ruleFormulas.importWith({ imported: `B${r}`, exported: `C${r}`, demand: `K${r}`, battery: `N${r}` }),
      (i) => run.importKwh[i]!,
    ],
    [
      'R',
      (r) =>
        ruleFormulas.exportWith({
          importWith: `Q${r}`,
          battery: `N${r}`,
          imported: `B${r}`,
          exported: `C${r}`,
        }),
      (i) => run.exportKwh[i]!,
    ],
    [
      'S',
      (r) =>
        storedFormulas.stock({
          battery: `N${r}`,
          exported: `C${r}`,
          rate: `E${r}`,
          exportRate: `F${r}`,
          level: `P${r}`,
          levelUp: `P${r - 1}`,
          stockUp: `S${r - 1}`,
        }),
      (i) => stored.stockPence[i]!,
    ],
    ['U', (r) => storedFormulas.house(`G${r}`, `B${r}`), (i) => use.demandKwh[i]!],
  ];
  for (let i = 0; i < count; i++) {
    const r = FIRST + i;
    for (const [letter, formula, value] of columns) put(`${letter}${r}`, formula(r), value(i));
    // The unit cost of a delivered kWh is only ever used times what is delivered.
    const unit = `(${storedFormulas.deliveredUnit(`P${r - 1}`, `S${r - 1}`, b)})`;
    const rest = `(${storedFormulas.rest({ house: `U${r}`, heatPump: `H${r}`, car: `I${r}` })})`;
    const carGrid = `(${storedFormulas.carGrid(`D${r}`, `B${r}`, b)})`;
    const users = { house: `U${r}`, imported: `B${r}`, heatPump: `H${r}`, car: `I${r}`, rest, carGrid };
    const carSunPence = `(${storedFormulas.carSun(users, b)})*F${r}`;
    const rates = { rate: `E${r}`, exportRate: `F${r}` };
    put(`Y${r}`, storedFormulas.usedBy(`H${r}`, users), stored.heatPumpKwh[i]!);
    put(`Z${r}`, storedFormulas.usedBy(`I${r}`, users), stored.carKwh[i]!);
    const ofCar = stored.carPence[i]!;
    put(
      `AA${r}`,
      storedFormulas.shared({
        ...users,
        ...rates,
        carSunPence,
        demand: `K${r}`,
        battery: `N${r}`,
        deliveredUnit: unit,
      }),
      stored.heatPumpPence[i]! + stored.restPence[i]! + (battery.mayFeedCar ? ofCar : 0),
    );
    const part = (letters: string): string =>
      storedFormulas.partOfShared(
        { shared: `AA${r}`, part: `${letters}${r}`, house: `U${r}`, car: `Z${r}` },
        b,
      );
    put(`V${r}`, part('Y'), stored.heatPumpPence[i]!);
    put(`W${r}`, battery.mayFeedCar ? part('Z') : `${carGrid}*E${r}+${carSunPence}`, ofCar);
  }
}

/** A hard case each engine must decide alike: rates a rounding error apart, and a spread that just breaks even. */
function knifeEdge(): ReturnType<typeof randomHouseCase> {
  const home = randomHouseCase(5, 96);
  const battery: BatteryCase['battery'] = {
    ...home.battery,
    usableKwh: 2.1,
    reserveKwh: 0.2,
    startKwh: 1,
    chargeKw: 1,
    chargeEfficiency: 0.95,
    dischargeEfficiency: 1,
    wearPencePerKwh: 0,
    chargeFromGrid: true,
  };
  // 7 × 1.05 and 7.35 are the same rate; 30 p × 0.95 = 28.5 p just fails to pay; filling takes 1.9 / 0.95 / 0.5 = 4
  // half-hours, though the division leaves 4.000000000000001.
  const cycle = [7 * 1.05, 7.35, 7.35, 7.350000000000001, 7.35, 28.5, 30 * 0.95, 30, 30, 7.35 / 0.95];
  return {
    ...home,
    battery,
    input: { ...home.input, unitRatePence: home.input.unitRatePence.map((_, i) => cycle[i % cycle.length]!) },
  };
}

async function workbook(): Promise<Uint8Array> {
  const book = new ExcelJS.Workbook();
  for (let seed = 0; seed < CASES; seed++) {
    const home = randomHouseCase(seed, HALF_HOURS);
    layOut(book.addWorksheet(`Home ${seed}`), home);
  }
  layOut(book.addWorksheet('Knife edge'), knifeEdge());
  return new Uint8Array(await book.xlsx.writeBuffer());
}

let made: Promise<Uint8Array> | undefined;
async function compareWith(recalculate: (path: string) => Promise<EngineResult>): Promise<void> {
  made ??= workbook();
  const file = await made;
  await withFile(file, async (path) =>
    assertCellsEqual(compareCells(file, await recalculate(path)), CASES * HALF_HOURS * 13),
  );
}

describe('the rule and the cost of stored energy: library and formulas agree', () => {
  describeWithCalc('in a full-size engine', () => {
    it('LibreOffice', () => compareWith(recalculateWithCalc), 60_000);
  });
  describeWithGnumeric('in a second one', () => {
    it('Gnumeric', () => compareWith((path) => recalculateWithGnumeric(path)), 60_000);
  });
});
