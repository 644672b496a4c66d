import type { StyleName } from '../../look/styles.js';
import { absolute } from '../../cell-address.js';
import type { RealCostLines } from '../../evaluate/battery/battery-real-cost.js';
import { sumSelected } from '../../evaluate/tariff-totals.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import { FIRST_ROW, MONTH_ROWS, SHEETS } from '../../layout.js';
import { formula, label } from '../cells.js';
import { MONTH, PERIOD_ROW } from '../columns.js';
import { tariffRow } from '../sentences.js';
import type { Cell } from '../sheet-model.js';
import { TARIFF_ROW } from '../tariff-rows.js';
import { fact, BATTERY_MONTH as M } from './battery-columns.js';
import { REAL_COST as R } from './battery-rows.js';

type Sums = Record<keyof RealCostLines['months'], number>;

const NO_TARIFF = 'Choose a tariff above.';

/** What a group of users used and what that cost, from the sums of a row of the battery months. */
const USERS: readonly {
  text: string;
  letters: readonly [string, string];
  kwh: (cell: (letters: string) => string) => string;
  pence: (cell: (letters: string) => string) => string;
  pick: (sums: Sums) => readonly [kwh: number, pence: number];
}[] = [
  {
    text: 'Heat pump',
    letters: ['C', 'D'],
    kwh: (cell) => cell(M.heatPumpKwh),
    pence: (cell) => cell(M.heatPumpPence),
    pick: (s) => [s.heatPumpKwh, s.heatPumpPence],
  },
  {
    text: 'Car',
    letters: ['E', 'F'],
    kwh: (cell) => cell(M.carKwh),
    pence: (cell) => cell(M.carPence),
    pick: (s) => [s.carKwh, s.carPence],
  },
  {
    text: 'Everything else',
    letters: ['G', 'H'],
    kwh: (cell) => `${cell(M.houseKwh)}-${cell(M.heatPumpKwh)}-${cell(M.carKwh)}`,
    pence: (cell) => `${cell(M.total)}-${cell(M.heatPumpPence)}-${cell(M.carPence)}`,
    pick: (s) => [s.houseKwh - s.heatPumpKwh - s.carKwh, s.totalPence - s.heatPumpPence - s.carPence],
  },
  {
    text: 'The whole home',
    letters: ['I', 'J'],
    kwh: (cell) => cell(M.houseKwh),
    pence: (cell) => cell(M.total),
    pick: (s) => [s.houseKwh, s.totalPence],
  },
];

/** Less than this is no use at all, kWh: sums leave crumbs. */
const CRUMB_KWH = 1e-6;

/** Cells of a row; `used` says, as a formula and of the results, whether the row stands for anything. */
function userCells(
  row: number,
  source: number,
  used: { formula: string; of: (r: WorkbookResults) => boolean },
  pick: (r: WorkbookResults) => Sums,
): Cell[] {
  const cell = (letters: string): string => absolute(SHEETS.batteryMonths, letters, source);
  return USERS.flatMap((user) => {
    const [kwh, pence] = user.letters;
    return [
      formula(
        `${kwh}${row}`,
        `IF(${used.formula},${user.kwh(cell)},"")`,
        (r) => (used.of(r) ? user.pick(pick(r))[0] : ''),
        'kwh',
      ),
      formula(
        `${pence}${row}`,
        `IF(AND(SUM(${kwh}${row})>${CRUMB_KWH.toFixed(6)},${fact('chosen')}>0),(${user.pence(cell)})/${kwh}${row},"")`,
        (r) => {
          const [kwhUsed, cost] = user.pick(pick(r));
          return used.of(r) && kwhUsed > CRUMB_KWH && r.battery.chosen >= 0 ? cost / kwhUsed : '';
        },
        'rate',
      ),
    ];
  });
}

/** Monthly cost of a kWh through the battery, for heat pump, car and the rest. */
export function batteryRealCostCells(): Cell[] {
  const last = R.first + MONTH_ROWS;
  const chosen = fact('chosen');
  const keys = ['houseKwh', 'heatPumpKwh', 'carKwh', 'totalPence', 'heatPumpPence', 'carPence'] as const;
  const sums = (r: WorkbookResults, of: (values: Float64Array) => number): Sums =>
    Object.fromEntries(keys.map((key) => [key, of(r.battery.realCost.months[key])])) as Sums;
  const header = (letters: string, text: string, style: StyleName = 'header'): Cell =>
    label(`${letters}${R.header}`, text, style);
  return [
    label(`B${R.heading}`, 'What energy really cost through the battery', 'section', {
      mergeTo: `J${R.heading}`,
    }),
    formula(
      `B${R.tariff}`,
      `IF(${chosen}=0,"${NO_TARIFF}","On "&INDEX(${tariffRow(TARIFF_ROW.name)},1,MAX(1,${chosen}))&": grid energy at its rate, stored energy at its running average cost, the roof’s at the export rate forgone.")`,
      (r) =>
        r.battery.chosen < 0
          ? NO_TARIFF
          : `On ${String(r.inputs.tariffs[r.battery.chosen]!.name)}: grid energy at its rate, stored energy at its running average cost, the roof’s at the export rate forgone.`,
      'hint',
    ),
    header('B', 'Month', 'headerLeft'),
    ...USERS.flatMap(({ text, letters: [kwh, pence] }) => [
      header(kwh, `${text}, kWh`),
      header(pence, `${text}, {minor}/kWh`),
    ]),
    ...Array.from({ length: MONTH_ROWS }, (_, m) => {
      const row = R.first + m;
      const start = absolute(SHEETS.months, MONTH.start, FIRST_ROW + m);
      return [
        formula(
          `B${row}`,
          `IF(${start}=0,"",${start})`,
          (r) => (r.months.start[m] === 0 ? '' : r.months.start[m]!),
          'monthLeft',
        ),
        ...userCells(row, FIRST_ROW + m, { formula: `${start}>0`, of: (r) => r.months.start[m]! > 0 }, (r) =>
          sums(r, (values) => values[m]!),
        ),
      ];
    }).flat(),
    label(`B${last}`, 'Chosen period', 'labelStrong'),
    ...userCells(
      last,
      PERIOD_ROW,
      { formula: `${fact('halfHours')}>0`, of: (r) => r.battery.period.halfHours > 0 },
      (r) => sums(r, (values) => sumSelected(r.months, values)),
    ),
  ];
}
