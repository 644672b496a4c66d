import type { StyleName } from '../../look/styles.js';
import { absolute } from '../../cell-address.js';
import {
  HALF_HOURS_A_YEAR,
  type SizeAnswer,
  sizeAnswer,
  sizingStatus,
} from '../../evaluate/battery/battery-answers.js';
import { TARIFF_WEIGHT } from '../../evaluate/battery/battery-period.js';
import { sizingFingerprint } from '../../evaluate/battery/stored-battery-results.js';
import { SIZES_KWH, type StoredBatteryResults } from '../../inputs/battery-cells.js';
import { SHEETS, TARIFF_COUNT } from '../../layout.js';
import { formula, input, label } from '../cells.js';
import type { Cell } from '../sheet-model.js';
import { BATTERY_REFERENCES as B, BATTERY_MONTH, fact, BATTERY_SPAN_ROW as SPAN } from './battery-columns.js';
import { priceFormula, statusFormula } from './battery-result-cells.js';
import { SIZING as S } from './battery-rows.js';

/** Letters of what the sheet works out from the stored table. */
const WORKED = { saving: 'F', leastSaving: 'G', price: 'H', payback: 'I' } as const;

/** Cost against usable capacity, for the tariff looked at. */
export function batterySizingCells({ sizing }: StoredBatteryResults): Cell[] {
  const perYear = `${HALF_HOURS_A_YEAR}/${fact('halfHours')}`;
  const none = `$${S.ruleCost}$${S.first}`;
  const fingerprints = `${absolute(SHEETS.batteryMonths, BATTERY_MONTH.energyPence(0), SPAN.fingerprint)}:$${BATTERY_MONTH.energyPence(TARIFF_COUNT - 1)}$${SPAN.fingerprint}`;
  const chosen = fact('chosen');
  const header = (letters: string, text: string): Cell => label(`${letters}${S.header}`, text, 'header');
  const rows = SIZES_KWH.flatMap((size, i): Cell[] => {
    const row = S.first + i;
    const rule = `$${S.ruleCost}${row}`;
    const least = `$${S.leastCost}${row}`;
    const kwh = `$${S.size}${row}`;
    const answered = (text: string): string =>
      `IF(AND(ISNUMBER(${rule}),ISNUMBER(${none}),${fact('halfHours')}>0),${text},"")`;
    const saving = `(${none}-${rule})*${perYear}`;
    const wear = `SUM($${S.cycles}${row})*${kwh}*${B.wearPencePerKwh}/100`;
    const cell = (letters: string, text: string, key: keyof SizeAnswer, style: StyleName): Cell =>
      formula(`${letters}${row}`, text, (r) => sizeAnswer(r, i)[key] ?? '', style);
    return [
      label(`${S.size}${row}`, size, 'integerLeft'),
      input(`${S.ruleCost}${row}`, sizing.rows[i]!.ruleCostPounds, 'storedMoney'),
      input(`${S.leastCost}${row}`, sizing.rows[i]!.leastCostPounds, 'storedMoney'),
      input(`${S.cycles}${row}`, sizing.rows[i]!.cyclesPerYear, 'storedNumber'),
      cell(WORKED.saving, answered(saving), 'savingPerYear', 'money'),
      cell(
        WORKED.leastSaving,
        answered(`(${none}-SUM(${least}))*${perYear}`),
        'leastCostSavingPerYear',
        'money',
      ),
      cell(WORKED.price, priceFormula(kwh), 'pricePounds', 'money'),
      cell(
        WORKED.payback,
        answered(`IF(AND(${kwh}>0,${saving}+${wear}>0),$${WORKED.price}${row}/(${saving}+${wear}),"")`),
        'paybackYears',
        'oneDigit',
      ),
    ];
  });
  return [
    label(`B${S.heading}`, 'What other sizes would do, on the tariff looked at', 'section', {
      mergeTo: `I${S.heading}`,
    }),
    label(`B${S.status}`, 'This table is', 'label'),
    formula(`C${S.status}`, statusFormula(S.fingerprint, S.liveFingerprint), sizingStatus, 'textStrong', {
      name: 'battery_sizing_is',
    }),
    label(S.computedAt.replace('E', 'D'), 'worked out at', 'unit'),
    input(S.computedAt, sizing.computedAt, 'storedTime'),
    label(S.fingerprint.replace('H', 'G'), 'fingerprint', 'unit'),
    input(S.fingerprint, sizing.fingerprint, 'storedNumber'),
    formula(
      S.liveFingerprint,
      `IF(${chosen}=0,0,INDEX(${fingerprints},1,MAX(1,${chosen}))+${TARIFF_WEIGHT}*${chosen})`,
      sizingFingerprint,
      'storedNumber',
    ),
    label(
      `B${S.status + 1}`,
      'Cost of energy less export, with wear, less the worth of the level gained. Powers as above; reserve and starting level keep their share. Payback: price ÷ a year’s saving before wear.',
      'hint',
    ),
    label(`${S.size}${S.header}`, 'Usable capacity, kWh', 'headerLeft'),
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
