import { SIZES_KWH, type StoredBatteryResults } from '../../inputs/battery-cells.js';
import type { StyleName } from '../../look/styles.js';
import type { Book } from '../book.js';
import { formula, input, label } from '../cells.js';
import { ref } from '../references.js';
import type { Cell } from '../sheet-model.js';
import { priceFormula } from './battery-result-cells.js';
import { SIZING as S, STORED, sizingRows } from './battery-rows.js';
import { batterySpan } from './battery-span.js';
import { HALF_HOURS_A_YEAR, STATUS, statusFormula } from './battery-status.js';
import { SPAN_WORDS } from './span-words.js';
import { isYearFormula, PRICE_BLANK_NAME, sizingBlankFormula } from './year-figures.js';

/** Letters of what the sheet works out from the stored table. */
const WORKED = { saving: 'F', leastSaving: 'G', price: 'H', payback: S.payback } as const;

/** Cost against usable capacity, for the tariff looked at. */
export function batterySizingCells(book: Book, { sizing }: StoredBatteryResults): Cell[] {
  const at = sizingRows(book.shape);
  const { halfHours, sizingFingerprint } = batterySpan(book);
  const wearPence = ref(book.workings.battery.wearPencePerKwh);
  const perYear = `${HALF_HOURS_A_YEAR}/${ref(halfHours)}`;
  const none = `$${S.ruleCost}$${at.first}`;
  // What was stored for another period says nothing of a year, nor does less than a year.
  const isShown = `$C$${at.status}="${STATUS.current}",${isYearFormula(ref(halfHours))}`;
  const header = (letters: string, text: string): Cell => label(`${letters}${at.header}`, text, 'header');
  const rows = SIZES_KWH.flatMap((size, i): Cell[] => {
    const row = at.first + i;
    const stored = sizing.rows[i];
    if (stored === undefined) throw new RangeError(`nothing is stored for ${size} kWh`);
    const rule = `$${S.ruleCost}${row}`;
    const kwh = `$${S.size}${row}`;
    const saving = `$${WORKED.saving}${row}`;
    const answered = (text: string): string =>
      `IF(AND(${isShown},ISNUMBER(${rule}),ISNUMBER(${none})),${text},"")`;
    const withWear = `${saving}+SUM($${S.cycles}${row})*${kwh}*${wearPence}/100`;
    const cell = (letters: string, text: string, style: StyleName): Cell =>
      formula(`${letters}${row}`, text, style);
    return [
      label(`${S.size}${row}`, size, 'integerLeft'),
      input(`${S.ruleCost}${row}`, stored.ruleCostPounds, 'storedMoney'),
      input(`${S.leastCost}${row}`, stored.leastCostPounds, 'storedMoney'),
      input(`${S.cycles}${row}`, stored.cyclesPerYear, 'storedNumber'),
      cell(WORKED.saving, answered(`(${none}-${rule})*${perYear}`), 'money'),
      cell(WORKED.leastSaving, answered(`(${none}-SUM($${S.leastCost}${row}))*${perYear}`), 'money'),
      cell(WORKED.price, priceFormula(kwh), 'money'),
      // Before wear, which is the price again in instalments.
      cell(
        WORKED.payback,
        `IF(OR(${saving}="",${PRICE_BLANK_NAME}<>""),"",IF(AND(${kwh}>0,${withWear}>0),SUM($${WORKED.price}${row})/(${withWear}),""))`,
        'oneDigit',
      ),
    ];
  });
  return [
    label(`B${at.heading}`, 'What other sizes would do, on the tariff looked at', 'section', {
      mergeTo: `I${at.heading}`,
    }),
    label(`B${at.status}`, 'This table is', 'label'),
    formula(`C${at.status}`, statusFormula(at.fingerprint, at.liveFingerprint), 'textStrong', {
      name: 'battery_sizing_is',
    }),
    label(at.computedAt.replace('E', 'D'), 'worked out at', 'unit'),
    input(at.computedAt, sizing.computedAt, 'storedTime'),
    label(`${STORED.leastCost}${at.status}`, 'Mark of its inputs, stored and now', 'unit'),
    input(at.fingerprint, sizing.fingerprint, 'storedNumber'),
    formula(at.liveFingerprint, ref(sizingFingerprint), 'storedNumber'),
    formula(
      `J${at.status}`,
      sizingBlankFormula(ref(halfHours), `$C$${at.status}`, SPAN_WORDS.yearBlank),
      'hint',
      {
        name: 'battery_sizing_words',
      },
    ),
    label(
      `B${at.status + 1}`,
      'Cost of energy less export, with wear, less the value left in store. Powers as above; reserve and starting level keep their share. Payback: price ÷ a year’s saving before wear.',
      'hintWrap',
      { mergeTo: `I${at.status + 1}` },
    ),
    label(`${S.size}${at.header}`, 'Usable capacity, kWh', 'headerLeft'),
    header(S.ruleCost, 'Cost by the rule, {major}'),
    header(S.leastCost, 'Least cost of any schedule, {major}'),
    header(S.cycles, 'Cycles a year'),
    header(WORKED.saving, 'The rule saves a year, {major}'),
    header(WORKED.leastSaving, 'Most that any schedule saves a year, {major}'),
    header(WORKED.price, 'Installed price, {major}'),
    header(WORKED.payback, 'Simple payback, years'),
    ...rows,
  ];
}
