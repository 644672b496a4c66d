import { sheetPrefix } from '../../cell-address.js';
import { type ProfileLines, SLOTS_A_DAY } from '../../evaluate/battery/profile-lines.js';
import { FIRST_ROW, SEED_ROW, SHEETS } from '../../layout.js';
import { label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { HALF_HOUR as H, halfHourColumn } from '../columns.js';
import type { Cell, FormulaColumn, SheetModel } from '../sheet-model.js';
import { BATTERY_HALF_HOUR, batteryHalfHourColumn, fact, ofChosenColumns } from './battery-columns.js';

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
          `${ofChosenColumns((t) => sum(batteryHalfHourColumn(BATTERY_HALF_HOUR.importWith(t)), r))})`,
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
        (r) => `IF(${fact('chosen')}=0,0,${ofChosenColumns((t) => sum(halfHourColumn(H.unitRate(t)), r))})`,
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
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
