import type { StyleName } from '../../look/styles.js';
import { absolute } from '../../cell-address.js';
import {
  type BatteryAnswer,
  batteryAnswer,
  HALF_HOURS_A_YEAR,
  STATUS,
} from '../../evaluate/battery/battery-answers.js';
import { FINGERPRINT_TOLERANCE } from '../../evaluate/battery/battery-period.js';
import type { StoredBatteryResults } from '../../inputs/battery-cells.js';
import { SHEETS, TARIFF_COUNT } from '../../layout.js';
import { formula, input, label } from '../cells.js';
import { PERIOD_ROW } from '../columns.js';
import type { Cell } from '../sheet-model.js';
import { TARIFF_ROW, tariffLetters } from '../tariff-rows.js';
import { BATTERY_REFERENCES as B, BATTERY_MONTH, fact, BATTERY_SPAN_ROW as SPAN } from './battery-columns.js';
import { spanFigure } from './battery-months-sheet.js';
import { batteryInput, batteryResultRow, BATTERY_RESULTS as R, STORED } from './battery-rows.js';

/** Price of a size, in the currency. */
export function priceFormula(usableKwh: string): string {
  return `IF(${usableKwh}>0,SUM(${batteryInput('priceFixed')})+SUM(${batteryInput('pricePerKwh')})*${usableKwh},0)`;
}

/** Says whether a stored fingerprint is that of the inputs as they are. */
export function statusFormula(stored: string, live: string): string {
  return `IF(NOT(ISNUMBER(${stored})),"${STATUS.missing}",IF(ABS(${stored}-${live})<=${FINGERPRINT_TOLERANCE.toExponential().toUpperCase()}*MAX(1,ABS(${live})),"${STATUS.current}","${STATUS.stale}"))`;
}

const HEADERS: readonly [string, string, StyleName][] = [
  ['B', 'Tariff', 'headerLeft'],
  ['C', 'Total without, {major}', 'header'],
  ['D', 'Total with, {major}', 'header'],
  ['E', 'It saves, {major}', 'header'],
  ['F', 'Wear, {major}', 'header'],
  ['G', 'Worth of the level gained, {major}', 'header'],
  ['H', 'Saves after wear and level, {major}', 'header'],
  ['I', 'It gave, kWh', 'header'],
  ['J', 'Cycles a year', 'header'],
  ['K', 'Level at the end, kWh', 'header'],
  ['L', 'Simple payback, years', 'header'],
  ['M', 'Left on the table, {major}', 'header'],
  ['N', 'Left on the table is', 'header'],
  [STORED.leastCost, 'Least cost of any schedule, {major}', 'header'],
  [STORED.fingerprint, 'Fingerprint of its inputs', 'header'],
  [STORED.computedAt, 'Worked out at', 'header'],
];

function tariffRow(tariff: number, stored: StoredBatteryResults['tariffs'][number]): Cell[] {
  const row = batteryResultRow(tariff);
  const typed = (line: number): string => absolute(SHEETS.tariffs, tariffLetters(tariff), line);
  const named = (text: string): string => `IF(${typed(TARIFF_ROW.name)}="","",${text})`;
  const ofPeriod = (letters: (tariff: number) => string): string =>
    absolute(SHEETS.batteryMonths, letters(tariff), PERIOD_ROW);
  const span = (line: number): string => spanFigure(tariff, line);
  const yearly = (text: string): string => `${text}*${HALF_HOURS_A_YEAR}/${fact('halfHours')}`;
  const cell = (letters: string, text: string, key: keyof BatteryAnswer, style: StyleName): Cell =>
    formula(`${letters}${row}`, named(text), (r) => batteryAnswer(r, tariff)[key] ?? '', style);
  return [
    formula(
      `B${row}`,
      named(typed(TARIFF_ROW.name)),
      (r) => r.inputs.tariffs[tariff]!.name ?? '',
      'textStrong',
    ),
    cell('C', typed(TARIFF_ROW.total), 'withoutPounds', 'money'),
    cell('D', ofPeriod(BATTERY_MONTH.totalPounds), 'withPounds', 'moneyStrong'),
    cell('E', `ROUND(C${row}-D${row},2)`, 'savingPounds', 'moneyStrong'),
    cell('F', `${span(SPAN.wear)}/100`, 'wearPounds', 'money'),
    cell(
      'G',
      `${span(SPAN.storedValue)}*(${span(SPAN.levelAfter)}-${span(SPAN.levelBefore)})/100`,
      'levelPounds',
      'money',
    ),
    cell('H', `E${row}-F${row}+G${row}`, 'netSavingPounds', 'money'),
    cell('I', ofPeriod(BATTERY_MONTH.deliveredKwh), 'deliveredKwh', 'kwh'),
    cell(
      'J',
      `IF(AND(${B.usableKwh}>0,${fact('halfHours')}>0),${yearly(`I${row}/${B.usableKwh}`)},"")`,
      'cyclesPerYear',
      'kwh',
    ),
    cell('K', span(SPAN.levelAfter), 'levelAfterKwh', 'rate'),
    cell(
      'L',
      `IF(AND(E${row}>0,${fact('halfHours')}>0),${priceFormula(B.usableKwh)}/(${yearly(`E${row}`)}),"")`,
      'paybackYears',
      'oneDigit',
    ),
    cell(
      'M',
      `IF(N${row}="${STATUS.current}",MAX(0,${span(SPAN.netCost)}/100-SUM(${STORED.leastCost}${row})),"")`,
      'leftPounds',
      'money',
    ),
    cell('N', statusFormula(`${STORED.fingerprint}${row}`, span(SPAN.fingerprint)), 'status', 'textCentre'),
    input(`${STORED.leastCost}${row}`, stored.leastCostPounds, 'storedMoney'),
    input(`${STORED.fingerprint}${row}`, stored.fingerprint, 'storedNumber'),
    input(`${STORED.computedAt}${row}`, stored.computedAt, 'storedTime'),
  ];
}

/** What the battery changes on every tariff. */
export function batteryResultCells(stored: StoredBatteryResults): Cell[] {
  return [
    label(`B${R.heading}`, 'What it changes on every tariff, in the chosen period', 'section', {
      mergeTo: `N${R.heading}`,
    }),
    label(`O${R.heading}`, 'Written by the fill', 'section', { mergeTo: `Q${R.heading}` }),
    ...HEADERS.map(([letters, text, style]) => label(`${letters}${R.header}`, text, style)),
    ...Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariffRow(tariff, stored.tariffs[tariff]!)).flat(),
    label(
      `B${R.first + TARIFF_COUNT}`,
      'Left on the table: what the rule costs more than the best schedule that anyone could find who knew every rate and all demand beforehand. No formula finds that, so the fill writes it; it says so when an input has changed since.',
      'hint',
    ),
  ];
}
