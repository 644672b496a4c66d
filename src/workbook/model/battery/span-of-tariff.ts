import type { Node } from '../../../formula/nodes.js';
import { all, type Column, cellOf, f, joined, type Line, stretch } from '../../book/terms.js';
import { BLOCK_ROWS } from '../../layout.js';
import { SET_ROWS } from '../../sheets/rates.js';
import type { Book } from '../book.js';
import { periodLine, tariffOf } from '../period-line.js';
import { columnNamed, type SpanRows, slice } from './span-rows.js';

/** Energy and levels that differ by less agree, kWh: sums over a year's half-hours are exact to a hundredth of it. */
const TOLERANCE_KWH = 1e-7;
/** What rounding a month's line to the penny can add, in the currency. */
const ROUNDING = 0.006;
/** Weights of the sets of export rates in the fingerprint. */
const SET_WEIGHTS = [71, 73, 79, 83, 89];

/** A tariff's lines over the chosen period. */
export interface PeriodOfTariff {
  levelBefore: Line;
  levelAfter: Line;
  /** p per stored kWh: the average day's lowest unit rate ÷ charge efficiency, no less than 0. */
  storedValue: Line;
  deliveredKwh: Line;
  wearPence: Line;
  /** Bought in the period with the battery. */
  importKwh: Line;
  /** Energy − export credit + wear − value of the level gained, unrounded, p. */
  netCostPence: Line;
}

export function periodOfTariff(
  book: Book,
  rows: SpanRows,
  { firstDay, lastDay }: { firstDay: Line; lastDay: Line },
  t: number,
): PeriodOfTariff {
  const { battery } = book.workings;
  const { level, lowestRate, batteryMonths, battery: ofDays } = tariffOf(book, t);
  const named = (name: string): string => `${name}_${t + 1}`;
  const levelBefore = rows.line(
    t,
    'Level before the period',
    'kWh stored',
    'kwhFine',
    f`IF(${firstDay}<=1,${battery.startLevelKwh},INDEX(${all(level)},(${firstDay}-1)*${BLOCK_ROWS}))`,
    named('level_before'),
  );
  const levelAfter = rows.line(
    t,
    'Level at its end',
    'kWh stored',
    'kwhFine',
    f`IF(${lastDay}=0,${battery.startLevelKwh},INDEX(${all(level)},${lastDay}*${BLOCK_ROWS}))`,
    named('level_after'),
  );
  const storedValue = rows.line(
    t,
    'A stored kWh is worth',
    '{minor}',
    'rate',
    f`IF(${firstDay}=0,0,MAX(0,AVERAGE(${slice(lowestRate, firstDay, lastDay)}))/${battery.chargeEfficiency})`,
    named('stored_value'),
  );
  const charged = periodLine(book, batteryMonths.chargedKwh);
  const deliveredKwh = rows.line(
    t,
    'Given by the battery',
    'kWh AC',
    'kwh',
    f`(${charged}*${battery.chargeEfficiency}-(${levelAfter}-${levelBefore}))*${battery.dischargeEfficiency}`,
    named('battery_gave'),
  );
  const wearPence = rows.line(
    t,
    'Wear',
    '{minor}',
    'pence',
    f`${deliveredKwh}*${battery.wearPencePerKwh}`,
    named('battery_wear'),
  );
  const ofPeriod = (column: Column): Node =>
    f`IF(${firstDay}=0,0,SUM(${slice(column, f`MAX(1,${firstDay})`, f`MAX(1,${lastDay})`)}))`;
  const importKwh = rows.line(
    t,
    'Bought with the battery',
    'kWh',
    'kwh',
    f`${periodLine(book, book.workings.months.importKwh)}+${ofPeriod(ofDays.boughtKwh)}-${deliveredKwh}+${ofPeriod(ofDays.soldKwh)}`,
    named('import_with_battery_of_period'),
  );
  const netCostPence = rows.line(
    t,
    'Energy − export credit + wear − level gained',
    '{minor}',
    'pence',
    f`${periodLine(book, batteryMonths.energyPence)}-${periodLine(book, batteryMonths.exportCreditPence)}+${wearPence}-${storedValue}*(${levelAfter}-${levelBefore})`,
    named('battery_net_cost'),
  );
  return { levelBefore, levelAfter, storedValue, deliveredKwh, wearPence, importKwh, netCostPence };
}

/** A number that changes with anything that a tariff's least cost depends on. */
export function fingerprintOfTariff(
  book: Book,
  rows: SpanRows,
  shared: { home: Line; price: Line },
  t: number,
): Line {
  const { rates: grid, calendar } = book.workings;
  const { rates, days, energy } = tariffOf(book, t);
  const named = (name: string): string => `${name}_${t + 1}`;
  const part = (text: string, name: string, is: Node): Line =>
    rows.line(t, text, 'number', 'pence', is, named(name));
  const setRows = stretch(rates.grid, 0, SET_ROWS - 1);
  const ofWeek = part(
    'Rates, weighed by their place in the week',
    'weighed_rates',
    f`SUMPRODUCT(${setRows},${all(grid.slot)})/100+SUMPRODUCT(${setRows},${stretch(grid.setOf, 0, SET_ROWS - 1)})`,
  );
  const ofDays = part(
    'Rates in force, weighed by the days',
    'weighed_days',
    f`SUMPRODUCT(${all(days.at)},${all(columnNamed(calendar.sheet, 'day_numbers'))})/100`,
  );
  const ofExport = part(
    'Export rates, weighed by set',
    'weighed_export_rates',
    joined(
      '+',
      SET_WEIGHTS.slice(0, rates.exportRate.rows).map(
        (weight, set) => f`${weight}*${cellOf(rates.exportRate, set)}`,
      ),
    ),
  );
  return part(
    'Fingerprint',
    'fingerprint',
    f`${shared.home}+SUM(${all(energy.energyPence)})+${ofWeek}+${ofDays}+${ofExport}+${rates.priceFactor}*${shared.price}`,
  );
}

/** The laws that a tariff's lines with the battery keep, over all days; 1 where one is broken. */
export interface LawsOfTariff {
  outOfBounds: Line;
  unbalanced: Line;
  unrounded: Line;
  impossible: Line;
}

export function lawsOfTariff(book: Book, rows: SpanRows, t: number): LawsOfTariff {
  const { battery, looked, realCost, days: shared, halfHours } = book.workings;
  const { level, battery: ofDays, energy, batteryMonths } = tariffOf(book, t);
  const named = (name: string): string => `${name}_${t + 1}`;
  const last = level.rows - 1;
  const [now, before] = [all(level), stretch(level, -1, last - 1)];
  const fallen = rows.line(
    t,
    'Falls of the level, all half-hours',
    'kWh stored',
    'kwhFine',
    f`IF(${battery.usableKwh}=0,0,SUMPRODUCT((${before}>${now})*(${before}-${now})))`,
    named('level_falls'),
  );
  // In a half-hour it can rise by what full power adds, and fall by what the home takes or, where it may export, by what
  // full power takes: a level that does otherwise was typed over, or its formula changed.
  const need = all(halfHours.storeChangeKwh);
  const leaps = rows.line(
    t,
    'Half-hours in which the level moves by more than it can',
    'count',
    'integer',
    f`IF(${battery.usableKwh}=0,0,SUMPRODUCT((${now}-${before}>${battery.chargeStepKwh}+${TOLERANCE_KWH})+(${before}>${now})*(${before}-${now}+${need}-${battery.mayExport}*(${battery.giveStepKwh}+${need})>${TOLERANCE_KWH})))`,
    named('level_leaps'),
  );
  const importKwh = rows.line(
    t,
    'Import with battery, all days',
    'kWh',
    'kwh',
    f`SUM(${all(shared.importKwh)})+SUM(${all(ofDays.boughtKwh)})-${fallen}*${battery.dischargeEfficiency}+SUM(${all(ofDays.soldKwh)})`,
    named('import_with_battery_of_days'),
  );
  const [importOfHome, change] = [all(halfHours.importKwh), all(realCost.importChangeKwh)];
  const isLooked = f`${looked}=${t + 1}`;
  const dayPence = (column: typeof energy.energyPence): Node => f`SUM(${all(column)})`;
  // On the tariff looked at, the half-hours’ own change of the import is priced once more: days and months must agree with it.
  const energyPence = rows.line(
    t,
    'Energy with battery, half-hours where looked at, else days',
    '{minor}',
    'pence',
    f`IF(${isLooked},SUM(${all(realCost.energyPence)}),${dayPence(energy.energyPence)}+${dayPence(ofDays.boughtPence)}-${dayPence(ofDays.givenPence)}+${dayPence(ofDays.soldPence)})`,
    named('energy_pence_of_days'),
  );
  const law = (text: string, name: string, condition: Node): Line =>
    rows.line(t, text, '1: yes', 'integer', f`IF(${condition},1,0)`, named(name));
  return {
    outOfBounds: law(
      'Level leaves its bounds',
      'level_out_of_bounds',
      f`OR(MIN(${now})<-${TOLERANCE_KWH},MAX(${now})>${battery.usableKwh}+${TOLERANCE_KWH})`,
    ),
    unbalanced: law(
      'Level is not what the days took and the half-hours gave',
      'level_unbalanced',
      f`OR(${leaps}>0,ABS(${cellOf(level, last)}-${cellOf(level, -1)}-SUM(${all(ofDays.chargedKwh)})*${battery.chargeEfficiency}+${fallen})>${TOLERANCE_KWH})`,
    ),
    unrounded: law(
      'Months differ by more than rounding',
      'battery_months_unrounded',
      f`ABS(SUM(${all(batteryMonths.energy)})-${energyPence}/100)>${Number((book.shape.monthRows * ROUNDING).toFixed(3))}`,
    ),
    impossible: law(
      'Import changes by other than the battery takes and gives',
      'battery_import_impossible',
      f`OR(SUMPRODUCT((${all(ofDays.boughtKwh)}>${all(ofDays.chargedKwh)}+${TOLERANCE_KWH})*1)>0,${importKwh}<-${TOLERANCE_KWH},IF(${isLooked},OR(SUMPRODUCT((${importOfHome}+${change}<-${TOLERANCE_KWH})*1)>0,ABS(SUM(${importOfHome})+SUM(${change})-${importKwh})>${TOLERANCE_KWH}),FALSE))`,
    ),
  };
}
