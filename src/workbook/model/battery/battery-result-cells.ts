import { absolute } from '../../cell-address.js';
import { batteryCell } from '../../fields/battery-fields.js';
import type { StoredBatteryResults } from '../../inputs/battery-cells.js';
import { SHEETS, TARIFF_COUNT } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { formula, input, label } from '../cells.js';
import { periodRef, tariffOf } from '../period-line.js';
import { ref } from '../references.js';
import type { Cell } from '../sheet-model.js';
import { HELPER_ROW, hasTotalName, TARIFF_ROW, tariffLetters } from '../tariff-rows.js';
import { batteryResultRow, BATTERY_RESULTS as R, REACHED, STORED } from './battery-rows.js';
import { type BatterySpan, batterySpan, type SpanOfTariff } from './battery-span.js';
import { HALF_HOURS_A_YEAR, STATUS, statusFormula } from './battery-status.js';
import { SPAN_WORDS } from './span-words.js';
import { isYearFormula, PRICE_BLANK_NAME } from './year-figures.js';

/** Less than half a penny is no saving, in the currency. */
const LEAST_SAVING = 0.005;

const [FIXED, PER_KWH] = [ref(batteryCell('priceFixed')), ref(batteryCell('pricePerKwh'))];
const priceOf = (usableKwh: string): string => `(SUM(${FIXED})+SUM(${PER_KWH})*${usableKwh})`;

/** Price of a size, in the currency; blank where no part of it is typed. */
export function priceFormula(usableKwh: string): string {
  return `IF(COUNT(${FIXED},${PER_KWH})=0,"",IF(${usableKwh}>0,${priceOf(usableKwh)},0))`;
}

const HEADERS: readonly [string, string, StyleName][] = [
  ['B', 'Tariff', 'headerLeft'],
  ['C', 'Total without, {major}', 'header'],
  ['D', 'Total with, {major}', 'header'],
  ['E', 'It saves, {major}', 'header'],
  ['F', 'Wear, {major}', 'header'],
  ['G', 'Value left in store, {major}', 'header'],
  ['H', 'Saves after wear and level, {major}', 'header'],
  ['I', 'Delivered, kWh', 'header'],
  ['J', 'Cycles a year', 'header'],
  ['K', 'Level at the end, kWh', 'header'],
  ['L', 'Simple payback, years', 'header'],
  ['M', 'Above the best possible, {major}', 'header'],
  [REACHED.share, 'Share of the best saving reached', 'header'],
  [REACHED.status, 'That figure is', 'header'],
  [STORED.leastCost, 'Least cost of any schedule, {major}', 'header'],
  [STORED.fingerprint, 'Mark of its inputs', 'header'],
  [STORED.computedAt, 'Worked out at', 'header'],
];

function tariffRow(
  book: Book,
  tariff: number,
  span: BatterySpan,
  of: SpanOfTariff,
  stored: StoredBatteryResults['tariffs'][number],
): Cell[] {
  const { battery } = book.workings;
  const row = batteryResultRow(tariff);
  const typed = (line: number): string => absolute(SHEETS.tariffs, tariffLetters(tariff), line);
  const named = (text: string): string => `IF(${typed(TARIFF_ROW.name)}="","",${text})`;
  const halfHours = ref(span.halfHours);
  const yearly = (text: string): string => `${text}*${HALF_HOURS_A_YEAR}/${halfHours}`;
  const cell = (letters: string, text: string, style: StyleName): Cell =>
    formula(`${letters}${row}`, `IF(${hasTotalName(tariff)}=0,"",${text})`, style);
  const gained = `(${ref(of.levelAfter)}-${ref(of.levelBefore)})`;
  return [
    formula(`B${row}`, named(typed(TARIFF_ROW.name)), 'tariffName'),
    cell('C', typed(HELPER_ROW.totalWithout), 'money'),
    cell('D', periodRef(book, tariffOf(book, tariff).batteryMonths.total), 'moneyStrong'),
    cell('E', `ROUND(C${row}-D${row},2)`, 'moneyStrong'),
    cell('F', `${ref(of.wearPence)}/100`, 'money'),
    cell('G', `${ref(of.storedValue)}*${gained}/100`, 'money'),
    cell('H', `E${row}-F${row}+G${row}`, 'money'),
    cell('I', ref(of.deliveredKwh), 'kwh'),
    cell(
      'J',
      `IF(AND(${ref(battery.usableKwh)}>0,${halfHours}>0),${yearly(`I${row}/${ref(battery.usableKwh)}`)},"")`,
      'kwh',
    ),
    cell('K', ref(of.levelAfter), 'rate'),
    cell(
      'L',
      `IF(AND(E${row}>0,${isYearFormula(halfHours)},${PRICE_BLANK_NAME}=""),${priceOf(ref(battery.usableKwh))}/(${yearly(`E${row}`)}),"")`,
      'oneDigit',
    ),
    cell(
      'M',
      `IF(${REACHED.status}${row}="${STATUS.current}",MAX(0,${ref(of.netCostPence)}/100-SUM(${STORED.leastCost}${row})),"")`,
      'money',
    ),
    // What the best schedule saves is what the rule saves and what it leaves.
    cell(
      REACHED.share,
      `IF(ISNUMBER(M${row}),IF(H${row}+M${row}>=${LEAST_SAVING},MAX(0,H${row}/(H${row}+M${row})),""),"")`,
      'percent',
    ),
    cell(
      REACHED.status,
      `IF(${ref(battery.usableKwh)}=0,"",${statusFormula(`${STORED.fingerprint}${row}`, ref(of.fingerprint))})`,
      'textCentre',
    ),
    input(`${STORED.leastCost}${row}`, stored.leastCostPounds, 'storedMoney'),
    input(`${STORED.fingerprint}${row}`, stored.fingerprint, 'storedNumber'),
    input(`${STORED.computedAt}${row}`, stored.computedAt, 'storedTime'),
  ];
}

/** What the battery changes on every tariff. */
export function batteryResultCells(book: Book, stored: StoredBatteryResults): Cell[] {
  const span = batterySpan(book);
  return [
    label(`B${R.heading}`, 'What it changes on every tariff, in the chosen period', 'section', {
      mergeTo: `${REACHED.status}${R.heading}`,
    }),
    label(`${STORED.leastCost}${R.heading}`, 'Written by the fill', 'section', {
      mergeTo: `${STORED.computedAt}${R.heading}`,
    }),
    ...HEADERS.map(([letters, text, style]) => label(`${letters}${R.header}`, text, style)),
    ...span.tariffs.flatMap((of, tariff) => {
      const before = stored.tariffs[tariff];
      if (before === undefined) throw new RangeError(`nothing is stored for tariff ${tariff + 1}`);
      return tariffRow(book, tariff, span, of, before);
    }),
    label(
      `B${R.first + TARIFF_COUNT}`,
      'Above the best possible: what the rule costs more than the best schedule that anyone could find who knew every rate and all demand beforehand. Where the battery may export at more than some unit rate, that schedule may also buy in order to sell; suppliers may bar that (common practice, no source). No formula finds that, so the fill writes it; it says so when an input has changed since. The share reached is blank where no schedule saves anything. Cycles a year: kWh delivered ÷ usable capacity. Value left in store: what the level gained, each stored kWh at the mean of the days’ lowest unit rates ÷ charge efficiency.',
      'hintWrap',
      { mergeTo: `O${R.first + TARIFF_COUNT}` },
    ),
    formula(
      `B${R.first + TARIFF_COUNT + 1}`,
      `IF(${ref(book.workings.battery.usableKwh)}=0,"",IF(${SPAN_WORDS.yearBlank}="",${PRICE_BLANK_NAME},${SPAN_WORDS.yearBlank}))`,
      'hint',
      { name: 'battery_payback_words' },
    ),
  ];
}
