import type { Column } from '../../book/terms.js';
import { inRow } from '../../cell-address.js';
import { FIRST_ROW, SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { ref } from '../references.js';
import type { Cell } from '../sheet-model.js';
import { noTariffFormula } from './asked-for-words.js';
import { REAL_COST as R } from './battery-rows.js';
import { batterySpan } from './battery-span.js';
import type { RealCostMonths } from './real-cost-months.js';
import { SUN_WORDS_NAME } from './sun-words.js';

const NO_TARIFF = 'Choose a tariff above.';

type CellOf = (key: keyof RealCostMonths) => string;

/** What a group of users used and what that cost. */
const USERS: readonly {
  text: string;
  letters: readonly [string, string];
  kwh: (cell: CellOf) => string;
  pence: (cell: CellOf) => string;
}[] = [
  {
    text: 'Heat pump',
    letters: ['C', 'D'],
    kwh: (cell) => cell('heatPumpKwh'),
    pence: (cell) => cell('heatPumpPence'),
  },
  {
    text: 'Car',
    letters: ['E', 'F'],
    kwh: (cell) => cell('carKwh'),
    pence: (cell) => cell('carPence'),
  },
  {
    text: 'Everything else',
    letters: ['G', 'H'],
    kwh: (cell) => `${cell('usedKwh')}-${cell('heatPumpKwh')}-${cell('carKwh')}`,
    pence: (cell) => `(${cell('totalPence')}-${cell('heatPumpPence')}-${cell('carPence')})`,
  },
  {
    text: 'The whole home',
    letters: ['I', 'J'],
    kwh: (cell) => cell('usedKwh'),
    pence: (cell) => cell('totalPence'),
  },
];

/** Less than this is no use at all, kWh: sums leave crumbs. */
const CRUMB_KWH = '0.000001';

/** Monthly cost of a kWh through the battery, for heat pump, car and the rest. */
export function batteryRealCostCells(book: Book): Cell[] {
  const { months, period, halfHours, lookedName } = batterySpan(book);
  const { monthRows } = book.shape;
  const looked = ref(book.workings.looked);
  const last = R.first + monthRows;
  const header = (letters: string, text: string, style: StyleName = 'header'): Cell =>
    label(`${letters}${R.header}`, text, style);
  const ofMonth =
    (m: number): CellOf =>
    (key) =>
      inRow(SHEETS.batterySpan, months[key].letters, months[key].firstRow + m);
  const ofPeriod: CellOf = (key) => {
    const line = lineOf(months[key]);
    return ref(line);
  };
  const lineOf = (column: Column) => {
    const line = period.get(column);
    if (line === undefined) throw new RangeError(`"${column.text.label}" has no sum over the period`);
    return line;
  };
  /** Cells of a row; `used` says whether the row stands for anything. */
  const userCells = (row: number, used: string, cell: CellOf): Cell[] =>
    USERS.flatMap(({ letters: [kwh, pence], ...user }) => [
      formula(`${kwh}${row}`, `IF(${used},${user.kwh(cell)},"")`, 'kwh'),
      formula(
        `${pence}${row}`,
        `IF(AND(SUM(${kwh}${row})>${CRUMB_KWH},${looked}>0),${user.pence(cell)}/${kwh}${row},"")`,
        'rate',
      ),
    ]);
  return [
    label(`B${R.heading}`, 'What energy really cost through the battery', 'section', {
      mergeTo: `J${R.heading}`,
    }),
    formula(
      `B${R.tariff}`,
      `IF(${looked}=0,${noTariffFormula(NO_TARIFF)},"On "&${ref(lookedName)}&": grid energy at its rate, stored energy at the day’s average cost and wear (in no bill)"&${SUN_WORDS_NAME})`,
      'hint',
    ),
    header('B', 'Month', 'headerLeft'),
    ...USERS.flatMap(({ text, letters: [kwh, pence] }) => [
      header(kwh, `${text}, kWh`),
      header(pence, `${text}, {minor}/kWh`),
    ]),
    ...Array.from({ length: monthRows }, (_, m) => {
      const row = R.first + m;
      const start = inRow(SHEETS.months, book.workings.months.start.letters, FIRST_ROW + m);
      return [
        formula(`B${row}`, `IF(${start}="","",${start})`, 'monthLeft'),
        ...userCells(row, `$B${row}<>""`, ofMonth(m)),
      ];
    }).flat(),
    label(`B${last}`, 'Chosen period', 'labelStrong'),
    ...userCells(last, `${ref(halfHours)}>0`, ofPeriod),
  ];
}
