import { sheetPrefix } from '../../cell-address.js';
import {
  ALL_DAY,
  LEAST_RISE_KWH,
  type ProfileLines,
  REAL_RISE_SHARE,
  SLOTS_A_DAY,
} from '../../evaluate/battery/profile-lines.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import { formula, label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { HALF_HOUR as H, halfHourColumn } from '../columns.js';
import type { Cell, FormulaColumn, SheetModel } from '../sheet-model.js';
import { BATTERY_HALF_HOUR, batteryHalfHourColumn, byChosenTariff, fact } from './battery-columns.js';

/** Letters of the average day's columns, and of the rate as steps beside them. */
export const PROFILE = {
  start: 'A',
  counted: 'B',
  demand: 'C',
  importWithout: 'D',
  importWith: 'E',
  unitRate: 'F',
  stepTime: 'H',
  stepRate: 'I',
  extra: 'K',
  chargesFromGrid: 'L',
  runLength: 'M',
  hours: 'N',
} as const;
export const LAST_PROFILE_ROW = FIRST_ROW + SLOTS_A_DAY - 1;
export const LAST_STEP_ROW = FIRST_ROW + 2 * SLOTS_A_DAY - 1;

function column(
  letters: string,
  rows: number,
  text: Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>,
  formulaOf: FormulaColumn['formula'],
  values: FormulaColumn['values'],
): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows, ...text, formula: formulaOf, values };
}

/** Times of day at which, on the average day, the battery has the home buy more than without it. */
function chargingHoursColumns(
  line: (
    letters: string,
    text: Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style' | 'values'>,
    formulaOf: FormulaColumn['formula'],
  ) => FormulaColumn,
): FormulaColumn[] {
  const { extra, chargesFromGrid, runLength, hours } = PROFILE;
  const time = (halfHours: string): string =>
    `RIGHT("0"&INT((${halfHours})/2),2)&IF(MOD(${halfHours},2)=0,":00",":30")`;
  const slot = (r: number): string => `(ROW($${extra}${r})-${FIRST_ROW})`;
  const before = (r: number): string => `$${chargesFromGrid}${r - 1}`;
  const until = (r: number): string =>
    `IF(AND(${slot(r)}+$${runLength}${r}=${SLOTS_A_DAY},$${chargesFromGrid}$${FIRST_ROW}=1),$${runLength}$${FIRST_ROW},${slot(r)}+$${runLength}${r})`;
  return [
    line(
      extra,
      {
        label: 'More import with battery',
        unit: 'kWh',
        description: 'Import with battery − import without',
        style: 'kwhFine',
        values: (r) => r.battery.profile.extraKwh,
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
        values: (r) => r.battery.profile.chargesFromGrid,
      },
      (r) =>
        `IF(AND($${extra}${r}>${LEAST_RISE_KWH.toFixed(6)},$${extra}${r}>=${REAL_RISE_SHARE}*MAX($${extra}$${FIRST_ROW}:$${extra}$${LAST_PROFILE_ROW})),1,0)`,
    ),
    line(
      runLength,
      {
        label: 'Goes on for',
        unit: 'half-hours',
        description: 'From here on, within the day',
        style: 'integer',
        values: (r) => r.battery.profile.runLength,
      },
      (r) => `IF($${chargesFromGrid}${r}=0,0,1+$${runLength}${r + 1})`,
    ),
    line(
      hours,
      {
        label: 'Times so far',
        unit: 'text',
        description: 'Spells of charging that have begun',
        style: 'text',
        values: (r) => r.battery.profile.hours,
      },
      (r) =>
        `$${hours}${r - 1}&IF(AND($${chargesFromGrid}${r}=1,${before(r)}=0),IF($${hours}${r - 1}="","",", ")&${time(slot(r))}&"–"&${time(until(r))},"")`,
    ),
  ];
}

/** When the battery has the home buy more than without it, as a formula: a text, empty where it does not. */
export function hoursInWordsFormula(): string {
  const sheet = sheetPrefix(SHEETS.profile);
  const { chargesFromGrid, hours } = PROFILE;
  return `IF(SUM(${sheet}$${chargesFromGrid}$${FIRST_ROW}:$${chargesFromGrid}$${LAST_PROFILE_ROW})=${SLOTS_A_DAY},"${ALL_DAY}",${sheet}$${hours}$${LAST_PROFILE_ROW})`;
}

/** The average day of the chosen period on the tariff looked at, for charts. */
export function profileSheet(): SheetModel {
  const slots = batteryHalfHourColumn(BATTERY_HALF_HOUR.slot);
  const slot = (r: number): string => `ROW($${PROFILE.start}${r})-${FIRST_ROW - 1}`;
  const sum = (values: string, r: number): string => `SUMIFS(${values},${slots},${slot(r)})`;
  const average = (total: (r: number) => string) => (r: number) =>
    `IF($${PROFILE.counted}${r}=0,0,(${total(r)})/$${PROFILE.counted}${r})`;
  const kwh = (key: keyof ProfileLines): Pick<FormulaColumn, 'unit' | 'style' | 'values'> => ({
    unit: 'kWh',
    style: 'kwhFine',
    values: (r) => r.battery.profile[key],
  });
  const line = (
    letters: string,
    text: Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style' | 'values'>,
    formulaOf: FormulaColumn['formula'],
  ): FormulaColumn => column(letters, SLOTS_A_DAY, text, formulaOf, text.values);
  const stepSlot = (r: number): string => `INT((ROW($${PROFILE.stepTime}${r})-${FIRST_ROW})/2)`;
  const columns = [
    line(
      PROFILE.start,
      {
        label: 'Start',
        unit: 'local time',
        description: 'Half-hour of the day',
        style: 'time',
        values: () => Float64Array.from({ length: SLOTS_A_DAY }, (_, i) => i / SLOTS_A_DAY),
      },
      (r) => `(${slot(r)}-1)/${SLOTS_A_DAY}`,
    ),
    line(
      PROFILE.counted,
      {
        label: 'Half-hours',
        unit: 'count',
        description: 'In the chosen period',
        style: 'count',
        values: (r) => r.battery.profile.counted,
      },
      (r) => `COUNTIFS(${slots},${slot(r)})`,
    ),
    line(
      PROFILE.demand,
      { label: 'Demand', description: 'Average of the half-hour', ...kwh('demandKwh') },
      average((r) => sum(halfHourColumn(H.demandKwh), r)),
    ),
    line(
      PROFILE.importWithout,
      { label: 'Import without battery', description: 'Average of the half-hour', ...kwh('importKwh') },
      average((r) => sum(halfHourColumn(H.importKwh), r)),
    ),
    line(
      PROFILE.importWith,
      {
        label: 'Import with battery',
        description: 'Average of the half-hour, tariff looked at',
        ...kwh('importWithBatteryKwh'),
      },
      average(
        (r) =>
          `IF(${fact('chosen')}=0,${sum(halfHourColumn(H.importKwh), r)},` +
          `${byChosenTariff((t) => sum(batteryHalfHourColumn(BATTERY_HALF_HOUR.importWith(t)), r))})`,
      ),
    ),
    line(
      PROFILE.unitRate,
      {
        label: 'Unit rate',
        unit: '{minor}/kWh',
        description: 'Average of the half-hour',
        style: 'rate',
        values: (r) => r.battery.profile.unitRatePence,
      },
      average(
        (r) => `IF(${fact('chosen')}=0,0,${byChosenTariff((t) => sum(halfHourColumn(H.unitRate(t)), r))})`,
      ),
    ),
    column(
      PROFILE.stepTime,
      2 * SLOTS_A_DAY,
      {
        label: 'Rate as steps, time',
        unit: 'local time',
        description: 'Start and end of each half-hour',
        style: 'time',
      },
      (r) => `(${stepSlot(r)}+MOD(ROW($${PROFILE.stepTime}${r})-${FIRST_ROW},2))/${SLOTS_A_DAY}`,
      () =>
        Float64Array.from({ length: 2 * SLOTS_A_DAY }, (_, i) => (Math.floor(i / 2) + (i % 2)) / SLOTS_A_DAY),
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
        `INDEX(${sheetPrefix(SHEETS.profile)}$${PROFILE.unitRate}$${FIRST_ROW}:$${PROFILE.unitRate}$${LAST_PROFILE_ROW},${stepSlot(r)}+1)`,
      (r) =>
        Float64Array.from(
          { length: 2 * SLOTS_A_DAY },
          (_, i) => r.battery.profile.unitRatePence[Math.floor(i / 2)]!,
        ),
    ),
  ];
  columns.push(...chargingHoursColumns(line));
  const name: Cell = label('A3', `Tariff: the one looked at on ${SHEETS.battery}.`, 'hint');
  return {
    name: SHEETS.profile,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, 13])),
    heights: { [FIRST_ROW - 3]: 48 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: false,
    cells: [
      ...sheetTop('Profile', 'Workings: the average day of the chosen period. Nothing to fill in.'),
      name,
      ...columnHeaders(columns),
      formula(
        `${PROFILE.chargesFromGrid}${SEED_ROW}`,
        `$${PROFILE.chargesFromGrid}$${LAST_PROFILE_ROW}`,
        (r) => r.battery.profile.chargesFromGrid[SLOTS_A_DAY - 1]!,
        'integer',
      ),
      label(`${PROFILE.runLength}${LAST_PROFILE_ROW + 1}`, 0, 'seed'),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
