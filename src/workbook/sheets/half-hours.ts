import type { Node, Reference } from '../../formula/nodes.js';
import { SheetBuilder } from '../book/sheet-builder.js';
import { all, type Column, f, here, movingStretch, named, namedOf, rowsDown, up } from '../book/terms.js';
import type { BatteryFigures } from './battery-figures.js';
import type { Calendar, TariffDays } from './days.js';
import type { LevelTables } from './level-tables.js';
import type { PriceDays } from './price-days.js';
import type { RunsOfTariff } from './rate-runs.js';
import type { RatesSheets } from './rates.js';
import type { ReadingsSheet } from './readings.js';
import { BLOCK_ROWS, type Shape, tariffNumbers } from './shape.js';
import { WORKING_SHEETS } from './sheet-names.js';
import { changeByTimer, shareOf, type TimedLoad, type Timers } from './timers.js';

/** The true grid: a block of rows for each day, whatever order the readings are in. */
export interface HalfHours {
  sheet: SheetBuilder;
  day: Column;
  halfHour: Column;
  start: Column;
  /** Row of the readings that the half-hour was metered in, 0 where there is none. */
  readingRow: Column;
  /** As the meter had them, whatever a battery did. */
  meteredImportKwh: Column;
  meteredExportKwh: Column;
  importKwh: Column;
  exportKwh: Column;
  /** What the car takes more, or below 0 less, with its timer. */
  carChangeKwh: Column;
  hotWater: TimedLoad;
  /** What the home used beside the car in the hours at which hot water is heated as things are. */
  couldBeWaterKwh: Column;
  waterChangeKwh: Column;
  /** Stored kWh that the sun adds, or below 0 that serving the home takes. */
  storeChangeKwh: Column;
  usedKwh: Column;
  heatPumpKwh: Column;
  carKwh: Column;
  pricePence: Column;
}

/** Some nine seconds in days: times that differ by less are the same half-hour. */
const SAME_TIME = 1e-4;

export function halfHours(
  readings: ReadingsSheet,
  calendar: Calendar,
  battery: BatteryFigures,
  timers: Timers,
  shape: Shape,
): HalfHours {
  const sheet = new SheetBuilder(WORKING_SHEETS.halfHours);
  const rows = shape.halfHourRows;
  const day = sheet.numbers(
    'Day',
    'row of Days',
    'Each day has as many rows as the longest can need',
    rows,
    (row) => Math.floor(row / BLOCK_ROWS) + 1,
    'half_hour_day',
  );
  const halfHour = sheet.numbers(
    'Half-hour',
    'from midnight, from 0',
    'As time goes by, whatever the clock does',
    rows,
    (row) => row % BLOCK_ROWS,
    'half_hour_number',
  );
  const ofDay = (column: Column): Node => here(column, day);

  const start = sheet.column({
    label: 'Start',
    unit: 'local time',
    description: 'As the home’s clock shows it; blank where the day has no such half-hour',
    style: 'dateTime',
    rows,
    name: 'half_hour_start',
    // Under a name: a column that may be empty shares no formula, and this would be written out in every half-hour.
    is: named(
      'start_of_half_hour',
      f`IF(${halfHour}>=${ofDay(calendar.length)},"",(${ofDay(calendar.date)}*48+${halfHour}-(${halfHour}>=${ofDay(calendar.changeAt)})*${ofDay(calendar.gained)})/48)`,
    ),
  });

  const readingRow = sheet.column({
    label: 'Row of Readings',
    unit: 'from 1; 0: not metered',
    description:
      'The row after the last one where that fits, else a search; a half-hour shown twice has two rows',
    style: 'integer',
    rows,
    name: 'half_hour_reading',
  });
  const starts = all(readings.start);
  const next = f`MAX(${movingStretch(readingRow, -3, -1)})+1`;
  // Two half-hours of autumn share a label: a row that the first of them took is not taken again, but the other one.
  const found = named('reading_found', f`MATCH(${start},${starts},0)`);
  const isFree = f`(${found}<>${up(readingRow)})*(${found}<>${rowsDown(readingRow, -2)})`;
  const other = named(
    'reading_shown_again',
    f`INDEX(${calendar.repeated},${day},${halfHour}-${ofDay(calendar.changeAt)}+1)`,
  );
  readingRow.is = f`IF(${start}="",0,IF(IFERROR(ABS(SUM(INDEX(${starts},${next}))-${start}),1)<${SAME_TIME},${next},IFERROR(IF(${isFree},${found},${other}),0)))`;

  const kwh = (label: string, description: string, name: string, is: Node): Column =>
    sheet.column({ label, unit: 'kWh', description, style: 'kwhFine', rows, name, is });
  const { channels } = readings;
  const read = (column: Column): Node => namedOf(column, 'here', f`SUM(INDEX(${all(column)},${readingRow}))`);
  // A row without import is no measured half-hour, whatever else it has: what the home bought in it is not known.
  const isMetered = named(
    'import_is_metered',
    f`IF(${readingRow}=0,0,IF(ISNUMBER(INDEX(${all(channels.importKwh)},${readingRow})),1,0))`,
  );
  const asMetered = (label: string, name: string, of: Column): Column =>
    kwh(label, 'As the meter had it, whatever a battery did', name, f`IF(${isMetered}=0,0,${read(of)})`);
  const meteredImportKwh = asMetered('Import as metered', 'metered_import', channels.importKwh);
  const meteredExportKwh = asMetered('Export as metered', 'metered_export', channels.exportKwh);
  // Of a car or a tank, from noon to noon: the day on which it ends. An error where the day has no such half-hour, which no
  // reading is of: nobody asks for it there.
  const session = named('session_here', f`${day}+(${start}-INT(${start})>=0.5)`);
  const carChangeKwh = kwh(
    'Car, change by its timer',
    'What it takes with its timer less what was metered; 0 where the timer is off',
    'car_change',
    changeByTimer(timers.car, { day, halfHour, session, readingRow, isMetered }, read(channels.carKwh)),
  );
  const rest = named(
    'used_without_car',
    f`${meteredImportKwh}-${meteredExportKwh}+${read(channels.solarKwh)}+${read(channels.batteryOutKwh)}-${read(channels.batteryInKwh)}-${read(channels.carKwh)}`,
  );
  const couldBeWaterKwh = kwh(
    'Could be hot water',
    'What the home used beside the car in the hours at which hot water is heated as things are',
    'could_be_water',
    f`IF(${isMetered}*${timers.waterIsKnown}=0,0,IF(INDEX(${all(timers.heated)},INDEX(${all(timers.car.grid.at)},${day})+${halfHour})=0,0,MAX(0,${rest})))`,
  );
  const hotWater = timers.hotWater(start, couldBeWaterKwh);
  const waterChangeKwh = kwh(
    'Hot water, change by its timer',
    'What it takes with its timer less what it took; 0 where the timer is off',
    'water_change',
    changeByTimer(
      hotWater,
      { day, halfHour, session, readingRow, isMetered },
      shareOf(hotWater, session, couldBeWaterKwh),
    ),
  );
  // Without a battery, and with the timers.
  const netAtMeter = named(
    'net_at_meter',
    f`${meteredImportKwh}-${meteredExportKwh}+${read(channels.batteryOutKwh)}-${read(channels.batteryInKwh)}+${carChangeKwh}+${waterChangeKwh}`,
  );
  // What a meter counted both ways in the half-hour stays counted both ways where no battery ran, which is cautious.
  const bothWays = named(
    'counted_both_ways',
    f`IF(AND(${read(channels.batteryInKwh)}=0,${read(channels.batteryOutKwh)}=0),MIN(${meteredImportKwh},${meteredExportKwh}),0)`,
  );
  const importKwh = kwh(
    'Import without battery',
    'Import − export + battery out − battery in, with the timers, where above zero; and what was counted both ways',
    'import_kWh',
    f`IF(${isMetered}=0,0,MAX(0,${netAtMeter})+${bothWays})`,
  );
  const exportKwh = kwh(
    'Export without battery',
    'What the home would have sold without a battery',
    'export_kWh',
    f`IF(${isMetered}=0,0,${importKwh}-${netAtMeter})`,
  );
  const ofCar = named('car_with_timer', f`MAX(0,${read(channels.carKwh)}+${carChangeKwh})`);
  const storeChangeKwh = sheet.column({
    label: 'Sun stored or use served',
    unit: 'kWh stored, + in, − out',
    description: 'What the sun would add to the battery, or what serving the home would take from it',
    style: 'kwhFine',
    rows,
    name: 'store_change',
    is: f`IF(OR(${readingRow}=0,${battery.usableKwh}=0),0,IF(${exportKwh}>${importKwh},MIN(${battery.chargeStepKwh},${battery.chargeEfficiency}*(${exportKwh}-${importKwh})),-MIN(${battery.giveStepKwh},MAX(0,${importKwh}-${exportKwh}-${battery.carBarred}*${ofCar})/${battery.dischargeEfficiency})))`,
  });
  const usedKwh = kwh(
    'Used by the home',
    'Import − export + solar, no less than the import; blank where the import was not metered',
    'used_kWh',
    named(
      'used_by_home',
      f`IF(${isMetered}=0,"",MAX(${importKwh},${importKwh}-${exportKwh}+${read(channels.solarKwh)}))`,
    ),
  );
  const ofHeatPump = named('heat_pump_metered', f`MAX(0,${read(channels.heatPumpKwh)})`);
  const part = (label: string, name: string, of: Node): Column =>
    kwh(
      label,
      'As metered or moved, within what the home used',
      name,
      f`IF(SUM(${usedKwh})<=0,0,${of}*${usedKwh}/MAX(${usedKwh},${ofHeatPump}+${ofCar}))`,
    );
  const heatPumpKwh = part('Used by the heat pump', 'heat_pump_kWh', ofHeatPump);
  const carKwh = part('Used by the car', 'car_kWh', ofCar);
  const pricePence = sheet.column({
    label: 'Half-hourly price',
    unit: '{minor}/kWh',
    description: 'As given with the readings',
    style: 'rate',
    rows,
    name: 'price',
    is: f`IF(${readingRow}=0,0,${read(channels.pricePence)})`,
  });
  return {
    sheet,
    day,
    halfHour,
    start,
    readingRow,
    meteredImportKwh,
    meteredExportKwh,
    importKwh,
    exportKwh,
    carChangeKwh,
    hotWater,
    couldBeWaterKwh,
    waterChangeKwh,
    storeChangeKwh,
    usedKwh,
    heatPumpKwh,
    carKwh,
    pricePence,
  };
}

/** How far a half-hour from the grid gets a level on its way up to what it fills to. */
export function filledFromGrid(battery: BatteryFigures, before: Reference, fillUpTo: Node): Node {
  return f`MIN(${before}+${battery.chargeStepKwh},${fillUpTo})`;
}

/** Where the level goes from one to the next: up to what the grid fills it to, down to what it keeps, and between them with sun and use. */
export function nextLevel(
  battery: BatteryFigures,
  {
    before,
    filled,
    keep,
    change,
  }: Record<'before' | 'filled' | 'keep' | 'change', Reference | Node | Column>,
): Node {
  return f`MIN(${battery.usableKwh},MAX(${filled},MIN(${before},${keep}),${before}+${change}))`;
}

/** Stored energy at the end of each half-hour, a column a tariff. */
export function batteryLevels(
  halfHours: HalfHours,
  battery: BatteryFigures,
  rates: RatesSheets,
  days: readonly TariffDays[],
  runs: readonly RunsOfTariff[],
  tables: LevelTables,
  price: PriceDays,
  shape: Shape,
): Column[] {
  const { sheet, day, halfHour, usedKwh, storeChangeKwh, carKwh } = halfHours;
  const ofDay = (column: Column): Node => here(column, day);
  // All that it can give; where the sun is to be stored, or a car that it may not feed would take it, nothing is sold.
  const whereSoldKwh = named(
    'store_change_or_sale',
    f`IF((${storeChangeKwh}<=0)*(${battery.carBarred}*${carKwh}=0)=1,-${battery.giveStepKwh},${storeChangeKwh})`,
  );
  return tariffNumbers(shape).map((t) => {
    const [typed, ofTariff, run, table] = [rates.tariffs[t], days[t], runs[t], tables.tariffs[t]];
    if (typed === undefined || ofTariff === undefined || run === undefined || table === undefined) {
      throw new RangeError(`there is no tariff ${t + 1}`);
    }
    const level = sheet.column({
      label: `Level, tariff ${t + 1}`,
      unit: 'kWh stored',
      description: 'At the end of the half-hour, by the rule; what was not metered changes nothing',
      style: 'kwhFine',
      rows: shape.halfHourRows,
      name: `level_${t + 1}`,
    });
    sheet.seed(level, f`${battery.startLevelKwh}`);
    const stretchHere = ofDay(ofTariff.stretch);
    const runHere = f`INDEX(${run.ofGridRow},${ofDay(ofTariff.at)}+${halfHour})`;
    const rowHere = named(`row_of_levels_${t + 1}`, f`${ofDay(ofTariff.runsBefore)}+${runHere}`);
    const ofTariffHere = (name: string, is: Node): Node => named(`${name}_${t + 1}`, is);
    const byRates = nextLevel(battery, {
      before: up(level),
      filled: filledFromGrid(
        battery,
        up(level),
        ofTariffHere('fills_up_to_here', f`INDEX(${all(table.fillUpTo)},${rowHere})`),
      ),
      keep: ofTariffHere('keeps_here', f`INDEX(${all(table.keep)},${rowHere})`),
      change: ofTariffHere(
        'change_here',
        f`IF(INDEX(${all(table.sells)},${stretchHere}),${whereSoldKwh},${storeChangeKwh})`,
      ),
    });
    // 1 rests, 2 by the half-hourly price, 3 by the rates.
    const how = ofTariffHere(
      'level_goes_by',
      f`IF(${typed.priceFactor}<>0,2,IF(ISNUMBER(${usedKwh})*${battery.usableKwh}=0,1,3))`,
    );
    level.is = f`CHOOSE(${how},${up(level)},${price.level},${byRates})`;
    return level;
  });
}
