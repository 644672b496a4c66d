import type { Node, Reference } from '../../formula/nodes.js';
import {
  across,
  all,
  areaReference,
  beside,
  type Column,
  call,
  f,
  type Line,
  named,
  type Term,
  up,
} from '../book/terms.js';
import type { BatteryFigures } from './battery-figures.js';
import { dayBlocks } from './day-blocks.js';
import type { Calendar } from './days.js';
import type { HalfHours } from './half-hours.js';
import type { Months } from './months.js';
import type { RatesSheets } from './rates.js';
import { BLOCK_ROWS, type Shape } from './shape.js';
import type { BatteryDays } from './tariff-days.js';

/** What energy really cost through the battery, on the tariff looked at. */
export interface RealCost {
  /** Half-hours: what the battery has the home buy more (+) or less (−), AC kWh. */
  importChangeKwh: Column;
  /** Days: import with the battery at the unit rates, pence. */
  energyPence: Column;
  heatPumpPence: Column;
  carPence: Column;
  /** All that the home used. */
  totalPence: Column;
  /** Rows of the rate grid: how many days of the chosen period begin there. */
  daysBeginning: Column;
}

/** What is looked at more closely: a tariff's number, and its lines by day. */
export interface Looked {
  /** Number of the tariff that is asked for, whether it can be priced or not; 0 where none is. */
  asked: Line;
  /** Number of the tariff, 0 where none is or it can't be priced. */
  number: Line;
  priceFactor: Line;
  /** Row of the rate grid on which the day begins. */
  at: Column;
  exportRate: Column;
}

interface Context {
  halfHours: HalfHours;
  calendar: Calendar;
  battery: BatteryFigures;
  rates: RatesSheets;
  levels: readonly Column[];
  tariffs: readonly BatteryDays[];
  looked: Looked;
  /** Cost of a stored kWh at the start. */
  startPence: Node;
  months: Pick<Months, 'periodFrom' | 'periodTo'>;
  shape: Shape;
}

/** Less than this is nothing, kWh. */
const CRUMB = 1e-9;

/**
 * Declares what energy really cost: stored energy costs the day's average, of what was stored at midnight and what the
 * day charged; heat pump, car and the rest share each half-hour in proportion.
 */
export function realCost(context: Context): RealCost {
  const columns = halfHourColumns(context);
  const day = dayColumns(context);
  const { rates, calendar, battery, looked, levels, tariffs, startPence } = context;
  const { number, priceFactor, at, exportRate } = looked;
  const { importChangeKwh, perSharedKwh } = columns;
  const { importKwh, usedKwh, carKwh, heatPumpKwh, pricePence } = context.halfHours;
  const rateOfDay = named(
    'looked_at_rates_of_day',
    f`INDEX(${rates.gridBlock},${at},${number}):INDEX(${rates.gridBlock},${at}+${BLOCK_ROWS - 1},${number})`,
  );
  const ofDay = dayBlocks(calendar).whole;
  /**
   * Half-hours of the day × the unit rates, and × the price where the tariff follows one: what that makes has a line of its own.
   * Nothing where the condition, if there is one, does not hold.
   */
  const priced = (text: string, factors: readonly Term[], condition?: Line): Node => {
    const where = (asked: Term, is: Node): Node =>
      f`IF(${condition === undefined ? asked : f`${asked}*${condition}`}=0,0,${is})`;
    const byPrice = day(
      `${text}, by the half-hourly price`,
      '{minor}',
      'Where the tariff looked at follows it',
      'pence',
      where(priceFactor, f`${priceFactor}*${call('SUMPRODUCT', [...factors, ofDay(pricePence)])}`),
    );
    return where(number, f`${call('SUMPRODUCT', [...factors, rateOfDay])}+${byPrice}`);
  };
  const [change, perShared] = [ofDay(importChangeKwh), ofDay(perSharedKwh)];
  const [imported, ofCar] = [ofDay(importKwh), ofDay(carKwh)];
  // Without a car that the battery may not feed, as far as that is imported.
  const shared = named(
    'shared_import_of_day',
    f`${imported}-${battery.carBarred}*(${imported}-(${ofCar}<${imported})*(${imported}-${ofCar}))`,
  );
  const saved = f`(${change}<0)*${change}`;

  const energyPence = day(
    'Energy with battery, looked at',
    '{minor}',
    'Unit rates × import with the battery, with VAT',
    'pence',
    priced('Energy with battery', [f`${imported}+${change}`]),
    'looked_energy_pence',
  );
  const midnightKwh = day(
    'Level at midnight, looked at',
    'kWh stored',
    'Where the day begins',
    'kwhFine',
    f`IF(${number}=0,0,INDEX(${levelsFromStart(levels)},(${calendar.number}-1)*${BLOCK_ROWS}+1,${number}))`,
  );
  const ofTariff = (of: (days: BatteryDays) => Column): Node =>
    call('CHOOSE', [f`MAX(1,${number})`, ...tariffs.map(of)]);
  const chargedPence = day(
    'Cost of what it takes, looked at',
    '{minor}',
    'From the grid at the unit rates, from the sun at the export credit forgone',
    'pence',
    f`IF(${number}=0,0,${ofTariff((days) => days.boughtPence)}+(${ofTariff((days) => days.chargedKwh)}-${ofTariff((days) => days.boughtKwh)})*${exportRate})`,
  );
  const storedKwh = day(
    'Stored in all, looked at',
    'kWh stored',
    'The level at midnight, and what the day adds',
    'kwhFine',
    f`IF(${number}=0,0,${midnightKwh}+${ofTariff((days) => days.chargedKwh)}*${battery.chargeEfficiency})`,
  );
  const averagePence = day(
    'Cost of a stored kWh, looked at',
    '{minor}/kWh',
    'The day’s average: what was stored at midnight, and what the day charges',
    'rate',
    undefined,
  );
  calendar.sheet.seed(averagePence, startPence);
  averagePence.is = f`IF(${storedKwh}>${CRUMB},(${up(averagePence)}*${midnightKwh}+${chargedPence})/${storedKwh},0)`;
  const unitPence = day(
    'Cost of a kWh that it gives, looked at',
    '{minor}/kWh',
    'Its stored energy with the losses, and wear',
    'rate',
    f`IF(${storedKwh}>${CRUMB},${averagePence}/${battery.dischargeEfficiency}+${battery.wearPencePerKwh},0)`,
    'stored_energy_unit_cost',
  );
  const givenKwh = day(
    'Battery gives the home, looked at',
    'kWh',
    'In place of import',
    'kwhFine',
    f`IF(${battery.usableKwh}=0,0,-SUMPRODUCT(${saved}))`,
  );
  /** What one user's part cost, who shares each half-hour in proportion to what it used. */
  const ofUser = (user: string, of: Column, name: string): Column => {
    const column = (
      label: string,
      unit: string,
      description: string,
      style: 'pence' | 'kwhFine',
      is: Node,
    ): Column => day(`${user}, ${label}, looked at`, unit, description, style, is);
    const kwh = ofDay(of);
    const fromGrid = column(
      'from the grid',
      '{minor}',
      'Its part of the grid’s energy at the unit rates',
      'pence',
      priced(`${user}, from the grid`, [kwh, perShared, f`${shared}+${saved}`]),
    );
    const fromBattery = column(
      'from the battery',
      'kWh',
      'Its part of what the battery gives',
      'kwhFine',
      f`IF(${battery.usableKwh}=0,0,-SUMPRODUCT(${kwh},${perShared},${saved}))`,
    );
    const fromSun = column(
      'from the sun',
      'kWh',
      'Its part of what the home used beyond its import',
      'kwhFine',
      f`SUM(${kwh})-SUMPRODUCT(${kwh},${perShared},${shared})`,
    );
    return day(
      `${user} cost, looked at`,
      '{minor}',
      'Grid energy at its rate, stored energy at its average cost and wear, sun at the export rate',
      'pence',
      f`${fromGrid}+${fromBattery}*${unitPence}+${fromSun}*${exportRate}`,
      name,
    );
  };
  const heatPumpPence = ofUser('Heat pump', heatPumpKwh, 'day_heat_pump_pence');
  const sharingCar = ofUser('Car', carKwh, 'day_sharing_car_pence');
  const carGridPence = day(
    'Car of its own, from the grid, looked at',
    '{minor}',
    'A car that the battery may not feed, at the unit rates',
    'pence',
    priced('Car of its own', [f`${imported}-${shared}`], battery.carBarred),
  );
  const carSunKwh = day(
    'Car of its own, from the sun, looked at',
    'kWh',
    'What a car that the battery may not feed used beyond the import',
    'kwhFine',
    f`IF(${battery.carBarred}=0,0,SUM(${ofCar})-SUM(${imported})+SUMPRODUCT(${shared}))`,
  );
  const carPence = day(
    'Car cost, looked at',
    '{minor}',
    'Its share; of its own where the battery may not feed it',
    'pence',
    f`IF(${battery.carBarred}=0,${sharingCar},${carGridPence}+${carSunKwh}*${exportRate})`,
    'day_car_pence',
  );
  const totalPence = day(
    'Whole home cost, looked at',
    '{minor}',
    'Grid energy at its rate, stored energy at its average cost and wear, sun at the export rate',
    'pence',
    f`${energyPence}-IF(${number}=0,0,${ofTariff((days) => days.boughtPence)})+${givenKwh}*${unitPence}+(SUM(${ofDay(usedKwh)})-SUM(${imported}))*${exportRate}`,
    'day_used_pence',
  );
  return {
    importChangeKwh,
    energyPence,
    heatPumpPence,
    carPence,
    totalPence,
    daysBeginning: daysBeginning(context),
  };
}

function halfHourColumns({ halfHours, levels, battery, looked, shape }: Context) {
  const { sheet, exportKwh, storeChangeKwh, usedKwh, carKwh } = halfHours;
  const rows = shape.halfHourRows;
  const levelAt = (shift: number): Node => f`INDEX(${beside(levels, shift)},1,${looked.number})`;
  const level = named('level_looked_at', levelAt(0));
  const before = levelAt(-1);
  const rise = f`(${level}-${before})/${battery.chargeEfficiency}`;
  const importChangeKwh = sheet.column({
    label: 'Battery changes import, tariff looked at',
    unit: 'kWh, + buys, − saves',
    description: 'What it takes beyond the sun, or gives the home',
    style: 'kwhFine',
    rows,
    name: 'import_change',
    is: f`IF(${looked.number}*${battery.usableKwh}=0,0,MAX(0,${rise}-${exportKwh})-${battery.dischargeEfficiency}*MAX(0,MIN(-${storeChangeKwh},${before}-${level})))`,
  });
  const sharers = f`SUM(${usedKwh})-${battery.carBarred}*${carKwh}`;
  const perSharedKwh = sheet.column({
    label: 'One part of what is shared',
    unit: '1/kWh',
    description:
      '1 ÷ what the home used without a car that the battery may not feed; 0 where that is nothing',
    style: 'rate',
    rows,
    name: 'part_of_shared',
    is: f`IF(${sharers}>${CRUMB},1/(${sharers}),0)`,
  });
  return { importChangeKwh, perSharedKwh };
}

function dayColumns({ calendar, shape }: Context) {
  return (
    label: string,
    unit: string,
    description: string,
    style: 'pence' | 'rate' | 'kwhFine',
    is: Node | undefined,
    name?: string,
  ): Column =>
    calendar.sheet.column({
      label,
      unit,
      description,
      style,
      rows: shape.days,
      ...(is === undefined ? {} : { is }),
      ...(name === undefined ? {} : { name }),
    });
}

/** The levels of all tariffs, with the one that they begin with: so a day’s first row is the half-hour before it. */
function levelsFromStart(levels: readonly Column[]): Reference {
  const { firstRow, ...area } = across(levels).area({ sheet: '', row: 1, column: 1 });
  return areaReference({ ...area, firstRow: firstRow - 1 }, 'levels_from_start');
}

/** How the days of the chosen period spread over the rate grid: with it a rate of every time of day is averaged. */
function daysBeginning({ rates, calendar, looked, months }: Context): Column {
  const { setOf } = rates;
  const { periodFrom, periodTo } = months;
  const after = f`DATE(YEAR(${periodTo}),MONTH(${periodTo})+1,1)`;
  return rates.grid.column({
    label: 'Days that begin here, looked at',
    unit: 'count',
    description: 'Of the chosen period, on the tariff looked at; without the days on which the clock changes',
    style: 'integer',
    rows: setOf.rows,
    name: 'days_beginning',
    // By the tariff asked for, whether it has all its rates or not: so a changed rate has no day counted anew.
    is: f`IF(OR(${looked.asked}=0,SUM(${periodFrom})=0),0,COUNTIFS(${all(looked.at)},ROW(${setOf})-${setOf.firstRow - 1},${all(calendar.date)},">="&${periodFrom},${all(calendar.date)},"<"&${after}))`,
  });
}
