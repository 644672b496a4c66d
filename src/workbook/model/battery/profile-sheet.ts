import type { Column } from '../../book/terms.js';
import { FIRST_ROW, partLetters, SEED_ROW, SHEETS } from '../../layout.js';
import { SLOTS_A_DAY } from '../../sheets/average-days.js';
import { WHERE_METERED } from '../../sheets/readings.js';
import type { Book } from '../book.js';
import { formula, label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { ref } from '../references.js';
import type { FormulaColumn, SheetModel } from '../sheet-model.js';
import { whenWordCells } from '../when-sheet.js';
import { WHEN_LABELS, whenColumns, whenLineCells } from '../when-workings.js';
import { batterySpan } from './battery-span.js';

/** A rise of less than this part of the day’s largest is no charging: charging that starts late, on some days. */
const REAL_RISE_SHARE = 0.1;
/** kWh; sums leave crumbs. */
const LEAST_RISE_KWH = '0.000001';
const ALL_DAY = 'all day';

/** Letters of the average day's columns, and of the rate as steps beside them. */
const own = (column: number): string => partLetters('profile', column);
export const PROFILE = {
  start: own(1),
  counted: own(2),
  demand: own(3),
  importWithout: own(4),
  importWith: own(5),
  unitRate: own(6),
  priceRate: own(7),
  stepTime: own(8),
  stepRate: own(9),
  extra: own(11),
  chargesFromGrid: own(12),
  runLength: own(13),
  until: own(14),
  hours: own(15),
} as const;
export const LAST_PROFILE_ROW = FIRST_ROW + SLOTS_A_DAY - 1;
export const LAST_STEP_ROW = FIRST_ROW + 2 * SLOTS_A_DAY - 1;
/** Cell with the times at which it charges, in words. */
const WORDS_AT = `${PROFILE.hours}${SEED_ROW - 4}`;

type Text = Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>;
type FormulaOf = (row: number) => string;

function column(letters: string, rows: number, text: Text, formulaOf: FormulaOf): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows, ...text, formula: formulaOf };
}
const line = (letters: string, text: Text, formulaOf: FormulaOf): FormulaColumn =>
  column(letters, SLOTS_A_DAY, text, formulaOf);

/** Times of day at which, on the average day, the battery has the home buy more than without it. */
function chargingHoursColumns(): FormulaColumn[] {
  const { extra, chargesFromGrid, runLength, until, hours } = PROFILE;
  const time = (halfHours: string): string =>
    `RIGHT("0"&INT((${halfHours})/2),2)&IF(MOD(${halfHours},2)=0,":00",":30")`;
  const slot = (r: number): string => `(ROW($${extra}${r})-${FIRST_ROW})`;
  return [
    line(
      extra,
      {
        label: 'More import with battery',
        unit: 'kWh',
        description: 'Import with battery − import without',
        style: 'kwhFine',
      },
      (r) => `$${PROFILE.importWith}${r}-$${PROFILE.importWithout}${r}`,
    ),
    line(
      chargesFromGrid,
      {
        label: 'Charges from the grid',
        unit: '1 or 0',
        description: 'Import rises, by a tenth of the largest rise at least',
        style: 'integer',
      },
      (r) =>
        `IF(AND($${extra}${r}>${LEAST_RISE_KWH},$${extra}${r}>=${REAL_RISE_SHARE}*MAX($${extra}$${FIRST_ROW}:$${extra}$${LAST_PROFILE_ROW})),1,0)`,
    ),
    line(
      runLength,
      {
        label: 'Goes on for',
        unit: 'half-hours',
        description: 'From here on, within the day',
        style: 'integer',
      },
      (r) => `IF($${chargesFromGrid}${r}=0,0,1+$${runLength}${r + 1})`,
    ),
    line(
      until,
      {
        label: 'Goes on until',
        unit: 'half-hours after midnight',
        description: 'A spell that reaches midnight goes on into the morning',
        style: 'integer',
      },
      (r) =>
        `IF(AND(${slot(r)}+$${runLength}${r}=${SLOTS_A_DAY},$${chargesFromGrid}$${FIRST_ROW}=1),$${runLength}$${FIRST_ROW},${slot(r)}+$${runLength}${r})`,
    ),
    line(
      hours,
      {
        label: 'Times so far',
        unit: 'text',
        description: 'Spells of charging that have begun',
        style: 'text',
      },
      (r) =>
        `$${hours}${r - 1}&IF(AND($${chargesFromGrid}${r}=1,$${chargesFromGrid}${r - 1}=0),IF($${hours}${r - 1}="","",", ")&${time(slot(r))}&"–"&${time(`$${until}${r}`)},"")`,
    ),
  ];
}

function averageColumns(book: Book): FormulaColumn[] {
  const { battery, halfHours, realCost, rates, looked, lookedPriceFactor } = book.workings;
  const { firstRow, lastRow } = batterySpan(book);
  /** The rows of the period. */
  const slice = (of: Column): string =>
    `INDEX(${ref(of)},${ref(firstRow)}):INDEX(${ref(of)},${ref(lastRow)})`;
  const slot = (r: number): string => `ROW($${PROFILE.start}${r})-${FIRST_ROW}`;
  const ofSlot = (r: number): string => `${slice(halfHours.halfHour)},${slot(r)}`;
  const read = `${slice(halfHours.usedKwh)},"${WHERE_METERED}"`;
  const [days, grid] = [ref(realCost.daysBeginning), ref(rates.gridBlock)];
  const places = realCost.daysBeginning.rows - (SLOTS_A_DAY - 1);
  const place = `MAX(1,${ref(looked)})`;
  const average =
    (total: (r: number) => string): FormulaOf =>
    (r) =>
      `IF($${PROFILE.counted}${r}=0,0,${total(r)}/$${PROFILE.counted}${r})`;
  const kwh = (letters: string, text: string, description: string, of: Column): FormulaColumn =>
    line(
      letters,
      { label: text, unit: 'kWh', description, style: 'kwhFine' },
      average((r) => `SUMIFS(${slice(of)},${ofSlot(r)})`),
    );
  return [
    line(
      PROFILE.start,
      { label: 'Start', unit: 'half-hour from midnight', description: 'Half-hour of the day', style: 'time' },
      (r) => `(${slot(r)})/${SLOTS_A_DAY}`,
    ),
    line(
      PROFILE.counted,
      {
        label: 'Half-hours',
        unit: 'count',
        description: 'With a reading, in the chosen period',
        style: 'count',
      },
      (r) => `COUNTIFS(${ofSlot(r)},${read})`,
    ),
    kwh(PROFILE.demand, 'Demand', 'Average of the half-hour', halfHours.usedKwh),
    kwh(PROFILE.importWithout, 'Import without battery', 'Average of the half-hour', halfHours.importKwh),
    line(
      PROFILE.importWith,
      {
        label: 'Import with battery',
        unit: 'kWh',
        description: 'Average of the half-hour, tariff looked at',
        style: 'kwhFine',
      },
      (r) =>
        `$${PROFILE.importWithout}${r}+IF(OR(${ref(battery.usableKwh)}=0,$${PROFILE.counted}${r}=0),0,SUMIFS(${slice(realCost.importChangeKwh)},${ofSlot(r)})/$${PROFILE.counted}${r})`,
    ),
    line(
      PROFILE.unitRate,
      {
        label: 'Unit rate',
        unit: '{minor}/kWh',
        description: 'Average over the days of the period, tariff looked at',
        style: 'rate',
      },
      // The rate of every day at this time, as often as days begin at each place of the grid.
      (r) =>
        `IF(OR(${ref(looked)}=0,SUM(${days})=0),0,SUMPRODUCT(INDEX(${days},1):INDEX(${days},${places}),INDEX(${grid},1+${slot(r)},${place}):INDEX(${grid},${places}+${slot(r)},${place}))/SUM(${days})+$${PROFILE.priceRate}${r})`,
    ),
    line(
      PROFILE.priceRate,
      {
        label: 'Of it by the half-hourly price',
        unit: '{minor}/kWh',
        description: 'Average over the days of the period, where the tariff looked at follows it',
        style: 'rate',
      },
      (r) =>
        `IF(${ref(lookedPriceFactor)}=0,0,${ref(lookedPriceFactor)}*SUMIFS(${slice(halfHours.pricePence)},${ofSlot(r)})/MAX(1,$${PROFILE.counted}${r}))`,
    ),
  ];
}

function stepColumns(): FormulaColumn[] {
  const stepSlot = (r: number): string => `INT((ROW($${PROFILE.stepTime}${r})-${FIRST_ROW})/2)`;
  return [
    column(
      PROFILE.stepTime,
      2 * SLOTS_A_DAY,
      {
        label: 'Rate as steps, time',
        unit: 'half-hour from midnight',
        description: 'Start and end of each half-hour',
        style: 'time',
      },
      (r) => `(${stepSlot(r)}+MOD(ROW($${PROFILE.stepTime}${r})-${FIRST_ROW},2))/${SLOTS_A_DAY}`,
    ),
    column(
      PROFILE.stepRate,
      2 * SLOTS_A_DAY,
      {
        label: 'Rate as steps',
        unit: '{minor}/kWh',
        description: 'The half-hour’s rate at its start and at its end',
        style: 'rate',
      },
      (r) =>
        `INDEX($${PROFILE.unitRate}$${FIRST_ROW}:$${PROFILE.unitRate}$${LAST_PROFILE_ROW},${stepSlot(r)}+1)`,
    ),
  ];
}

/** The average day of the chosen period on the tariff looked at, for charts. */
export function profileSheet(book: Book): SheetModel {
  const columns = [
    ...averageColumns(book),
    ...stepColumns(),
    ...chargingHoursColumns(),
    ...whenColumns(book),
  ];
  const { chargesFromGrid, hours, runLength } = PROFILE;
  return {
    name: SHEETS.profile,
    tab: 'workings',
    widths: { ...Object.fromEntries(columns.map((c) => [c.letters, 13])), [WHEN_LABELS]: 24 },
    heights: { [FIRST_ROW - 3]: 48 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: false,
    cells: [
      ...sheetTop('Profile', 'Workings: the average day of the chosen period. Nothing to fill in.', own(1)),
      label(
        `${own(1)}3`,
        `Tariff: the one looked at on ${SHEETS.battery}. Half-hours count from midnight, on days on which the clock changes too.`,
        'hint',
      ),
      label(`${chargesFromGrid}${SEED_ROW - 4}`, 'Charges from the grid', 'label'),
      formula(
        WORDS_AT,
        `IF(SUM($${chargesFromGrid}$${FIRST_ROW}:$${chargesFromGrid}$${LAST_PROFILE_ROW})=${SLOTS_A_DAY},"${ALL_DAY}",$${hours}$${LAST_PROFILE_ROW})`,
        'text',
        { name: 'battery_charging_hours' },
      ),
      ...columnHeaders(columns),
      ...whenLineCells(book),
      ...whenWordCells(),
      formula(`${chargesFromGrid}${SEED_ROW}`, `$${chargesFromGrid}$${LAST_PROFILE_ROW}`, 'integer'),
      label(`${runLength}${LAST_PROFILE_ROW + 1}`, 0, 'seed'),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
