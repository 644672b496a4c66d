import { batteryRuleFormulas, storedEnergyFormulas } from '../../../battery/battery-formulas.js';
import { absoluteColumn, sheetPrefix } from '../../cell-address.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import {
  DAY_ROWS,
  FIRST_ROW,
  LAST_DAY_ROW,
  READING_ROWS,
  SEED_ROW,
  SHEETS,
  TARIFF_COUNT,
} from '../../layout.js';
import { formula, label } from '../cells.js';
import { columnHeaders, sheetTop } from '../column-headers.js';
import { HALF_HOUR as H, MONTH, monthColumn, READING } from '../columns.js';
import type { FormulaColumn, SheetModel } from '../sheet-model.js';
import {
  tariffColumns as acrossTariffs,
  BATTERY_REFERENCES as B,
  BATTERY_DAY,
  batteryDayColumn,
  BATTERY_HALF_HOUR as C,
  fact,
  ofChosen,
} from './battery-columns.js';

const HALF_HOURS = sheetPrefix(SHEETS.halfHours);
const READINGS = sheetPrefix(SHEETS.readings);
const RULE = batteryRuleFormulas;
const STORED = storedEnergyFormulas;

type Text = Pick<FormulaColumn, 'label' | 'unit' | 'description' | 'style'>;

function column(
  letters: string,
  text: Text,
  formulaOf: FormulaColumn['formula'],
  values: FormulaColumn['values'],
): FormulaColumn {
  return { letters, firstRow: FIRST_ROW, rows: READING_ROWS, ...text, formula: formulaOf, values };
}

const kwh = { unit: 'kWh', style: 'kwhFine' } as const;
const pence = { unit: '{minor}', style: 'pence' } as const;
const halfHour = (letters: string, r: number): string => `${HALF_HOURS}$${letters}${r}`;
/** A reading, 0 where there is none or less. */
const reading = (letters: string, r: number): string => `MAX(0,SUM(${READINGS}$${letters}${r}))`;
const imported = (r: number): string => `MAX(0,${halfHour(H.importKwh, r)})`;
const exported = (r: number): string => `MAX(0,${halfHour(H.exportKwh, r)})`;
const car = (r: number): string => reading(READING.carKwh, r);
/** A line that is 0 where the row does not count. */
const counted = (text: (r: number) => string) => (r: number) => `IF($${C.day}${r}=0,0,${text(r)})`;
/** A line of the tariff looked at, 0 where none is. */
const looked = (text: (r: number) => string) => (r: number) =>
  `IF(OR($${C.day}${r}=0,${fact('chosen')}=0),0,${text(r)})`;

function homeColumns(): FormulaColumn[] {
  const heatPump = (r: number): string => reading(READING.heatPumpKwh, r);
  const share = (part: (r: number) => string) =>
    counted((r) => {
      const users = { house: `$${C.house}${r}`, heatPump: heatPump(r), car: car(r) };
      return STORED.usedBy(part(r), { ...users, rest: STORED.rest(users) });
    });
  return [
    column(
      C.start,
      { label: 'Start', unit: 'local time', description: 'As on the half-hours sheet', style: 'dateTime' },
      (r) => halfHour(H.start, r),
      (r) => r.halfHours.startSerial,
    ),
    column(
      C.day,
      {
        label: 'Day',
        unit: 'row of Battery days',
        description: '0 where the row does not count, and everywhere while rows of a day stand apart',
        style: 'integer',
      },
      (r) => `IF(${fact('daysApart')}>0,0,${halfHour(H.day, r)})`,
      (r) => r.battery.home.day,
    ),
    column(
      C.slot,
      {
        label: 'Half-hour of the day',
        unit: 'from 1, in the period',
        description: '0 outside the chosen period',
        style: 'integer',
      },
      counted(
        (r) =>
          `IF(INDEX(${monthColumn(MONTH.selected)},${halfHour(H.month, r)})=1,ROUND(MOD(${halfHour(H.start, r)},1)*48,0)+1,0)`,
      ),
      (r) => r.battery.home.slotInPeriod,
    ),
    column(
      C.servable,
      {
        label: 'Demand that the battery may serve',
        description: 'Import − export without a battery, less the car where it may not be fed',
        ...kwh,
      },
      counted((r) => RULE.demand(imported(r), exported(r), car(r), B)),
      (r) => r.battery.home.servableKwh,
    ),
    column(
      C.house,
      { label: 'Used by the home', description: 'Demand, no less than the import', ...kwh },
      counted((r) => STORED.house(halfHour(H.demandKwh, r), imported(r))),
      (r) => r.battery.home.houseKwh,
    ),
    column(
      C.heatPumpKwh,
      { label: 'Used by the heat pump', description: 'As metered, within what the home used', ...kwh },
      share(heatPump),
      (r) => r.battery.realCost.heatPumpKwh,
    ),
    column(
      C.carKwh,
      { label: 'Used by the car', description: 'As metered, within what the home used', ...kwh },
      share(car),
      (r) => r.battery.realCost.carKwh,
    ),
  ];
}

function realCostColumns(): FormulaColumn[] {
  // Columns of their own for these would be worked out again, row by row, with every rate.
  const rate = (r: number): string => ofChosen(H.unitRate, r, SHEETS.halfHours);
  const battery = (r: number): string => ofChosen(C.battery, r);
  const level = (r: number): string => ofChosen(C.level, r);
  const exportRate = (r: number): string =>
    `INDEX(${acrossTariffs(SHEETS.batteryDays, BATTERY_DAY.exportRate, FIRST_ROW, LAST_DAY_ROW)},$${C.day}${r},${fact('chosen')})`;
  const users = (r: number) => {
    const used = { house: `$${C.house}${r}`, heatPump: `$${C.heatPumpKwh}${r}`, car: `$${C.carKwh}${r}` };
    return { ...used, rest: STORED.rest(used), imported: imported(r), carGrid: `$${C.carGrid}${r}` };
  };
  return [
    column(
      C.carGrid,
      {
        label: 'Grid energy of the car alone',
        description: 'Where the battery may not feed it: its own import; 0 otherwise',
        ...kwh,
      },
      counted((r) => STORED.carGrid(car(r), imported(r), B)),
      (r) => r.battery.realCost.carGridKwh,
    ),
    column(
      C.carSunPence,
      {
        label: 'Sun of the car alone',
        description: 'Where the battery may not feed it: at the export rate forgone; 0 otherwise',
        ...pence,
      },
      looked((r) => `${STORED.carSun(users(r), B)}*${exportRate(r)}`),
      (r) => r.battery.realCost.carSunPence,
    ),
    column(
      C.stock,
      {
        label: 'Cost of what is stored',
        description: 'At its running average cost; sun costs the export credit forgone',
        ...pence,
      },
      (r) =>
        `IF(${fact('chosen')}=0,0,IF($${C.day}${r}=0,$${C.stock}${r - 1},${STORED.stock({
          battery: battery(r),
          exported: exported(r),
          rate: rate(r),
          exportRate: exportRate(r),
          level: level(r),
          levelUp: level(r - 1),
          stockUp: `$${C.stock}${r - 1}`,
        })}))`,
      (r) => r.battery.realCost.stockPence,
    ),
    column(
      C.shared,
      {
        label: 'Cost that the users share',
        description:
          'Grid energy at its rate, stored energy at its average cost ÷ discharge efficiency and wear, sun at the export rate; without a car that the battery may not feed',
        ...pence,
      },
      looked((r) =>
        STORED.shared({
          ...users(r),
          carSunPence: `$${C.carSunPence}${r}`,
          demand: `$${C.servable}${r}`,
          battery: battery(r),
          rate: rate(r),
          exportRate: exportRate(r),
          deliveredUnit: STORED.deliveredUnit(level(r - 1), `$${C.stock}${r - 1}`, B),
        }),
      ),
      (r) => r.battery.realCost.sharedPence,
    ),
  ];
}

/** Lowest rate of each day on each tariff. */
const lowestRates = acrossTariffs(SHEETS.batteryDays, BATTERY_DAY.lowest, FIRST_ROW, LAST_DAY_ROW);

function tariffColumns(tariff: number): FormulaColumn[] {
  const name = `tariff ${tariff + 1}`;
  const lines = (r: WorkbookResults) => r.battery.tariffs[tariff]!.halfHours;
  const ofDay = (letters: (tariff: number) => string, r: number): string =>
    `INDEX(${batteryDayColumn(letters(tariff))},$${C.day}${r})`;
  /** A column of the battery days, one row further down. */
  const nextDay = (letters: (tariff: number) => string): string =>
    absoluteColumn(SHEETS.batteryDays, letters(tariff), FIRST_ROW + 1, LAST_DAY_ROW + 1);
  const rate = (r: number): string => halfHour(H.unitRate(tariff), r);
  const [steps, battery, level] = [C.steps(tariff), C.battery(tariff), C.level(tariff)];
  const flow = (r: number) => ({
    exported: exported(r),
    demand: `$${C.servable}${r}`,
    battery: `$${battery}${r}`,
  });
  return [
    column(
      steps,
      {
        label: `Half-hours to charging, ${name}`,
        unit: 'count, 0: charges',
        description:
          'Until the next half-hour in which it charges from the grid or holds; 1 in all others where it may not export, which is when it matters',
        style: 'integer',
      },
      counted((r) => {
        const charging = RULE.charging(
          {
            rate: rate(r),
            chargeBelow: ofDay(BATTERY_DAY.chargeBelow, r),
          },
          B,
        );
        // Within the day from the row below, beyond it from the next day: a chain of a year is slow to follow.
        const below = `IF($${C.day}${r + 1}=$${C.day}${r},$${steps}${r + 1},INDEX(${nextDay(BATTERY_DAY.toCharging)},$${C.day}${r}))`;
        return RULE.steps(charging, `IF(${B.mayExport}=0,0,${below})`);
      }),
      (r) => lines(r).steps,
    ),
    column(
      battery,
      {
        label: `Battery, ${name}`,
        unit: 'kWh AC, + in, − out',
        description: 'What it takes or gives in the half-hour by the rule',
        style: 'kwhFine',
      },
      counted((r) =>
        RULE.battery(
          {
            charging: `$${steps}${r}=0`,
            steps: `$${steps}${r}`,
            surplus: RULE.surplus(imported(r), exported(r)),
            demand: `$${C.servable}${r}`,
            car: car(r),
            rate: rate(r),
            levelUp: `$${level}${r - 1}`,
            serveFrom: ofDay(BATTERY_DAY.serveFrom, r),
            sells: `${ofDay(BATTERY_DAY.sells, r)}=1`,
          },
          B,
        ),
      ),
      (r) => lines(r).batteryKwh,
    ),
    column(
      level,
      {
        label: `Level, ${name}`,
        unit: 'kWh stored',
        description: 'At the end of the half-hour',
        style: 'kwhFine',
      },
      (r) => RULE.level(`$${battery}${r}`, `$${level}${r - 1}`, B),
      (r) => lines(r).levelKwh,
    ),
    column(
      C.importWith(tariff),
      {
        label: `Import with battery, ${name}`,
        description: 'Import without it, + what it takes from the grid, − what it gives to the home',
        ...kwh,
      },
      (r) => {
        const without = halfHour(H.importKwh, r);
        return `IF($${battery}${r}=0,${without},${RULE.importWith({ imported: without, ...flow(r) })})`;
      },
      (r) => lines(r).importKwh,
    ),
  ];
}

/** The battery's workings, one row a half-hour beside the rows of the readings sheet. */
export function batteryHalfHoursSheet(): SheetModel {
  const tariffs = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);
  const byTariff = tariffs.map(tariffColumns);
  const columns = [
    ...homeColumns(),
    ...realCostColumns(),
    ...[0, 1, 2, 3].flatMap((item) => byTariff.map((tariff) => tariff[item]!)),
  ];
  return {
    name: SHEETS.batteryHalfHours,
    tab: 'workings',
    widths: Object.fromEntries(columns.map((c) => [c.letters, c.letters === C.start ? 17 : 12])),
    heights: { [FIRST_ROW - 3]: 48, [FIRST_ROW - 2]: 24 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: true,
    landscape: true,
    printTitleRows: `${FIRST_ROW - 3}:${FIRST_ROW - 2}`,
    cells: [
      ...sheetTop(
        'Battery half-hours',
        `Workings: one row a half-hour beside the rows of ${SHEETS.readings}. Nothing to fill in.`,
      ),
      ...columnHeaders(columns),
      label(`${C.start}${SEED_ROW}`, 'start values', 'seed'),
      formula(
        `${C.stock}${SEED_ROW}`,
        `IF(${fact('chosen')}=0,0,${RULE.startLevel(B)}*MIN(INDEX(${lowestRates},1,MAX(1,${fact('chosen')})):INDEX(${lowestRates},${DAY_ROWS},MAX(1,${fact('chosen')})))/${B.chargeEfficiency})`,
        (r) => r.battery.realCost.startStockPence,
        'pence',
      ),
      ...tariffs.flatMap((tariff) => [
        formula(
          `${C.level(tariff)}${SEED_ROW}`,
          RULE.startLevel(B),
          ({ battery: { figures } }) => Math.min(figures.battery.startKwh, figures.battery.usableKwh),
          'kwhFine',
        ),
      ]),
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
