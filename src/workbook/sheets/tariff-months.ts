import type { Node } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { all, beside, type Column, f, type Line } from '../book/terms.js';
import type { Calendar, TariffDays } from './days.js';
import { billed, type MonthColumns, type Months } from './months.js';
import type { TariffRates } from './rates.js';
import type { BatteryDays, EnergyDays } from './tariff-days.js';

/** A tariff's bill lines by month. */
export interface TariffMonths {
  energy: Column;
  standing: Column;
  exportCredit: Column;
  total: Column;
  offPeakKwh: Column;
  offPeakPence: Column;
}

/** What the lines of a tariff’s months are made of. */
export interface MonthContext {
  tariff: number;
  months: Months & { columns: MonthColumns };
  calendar: Calendar;
  rates: TariffRates;
  days: TariffDays;
}

const sets = Array.from({ length: MAX_RATE_PERIODS }, (_, set) => set);

type OfSet = (month: Column, set: number) => Node;

/** Sum over the days of the month under a set. */
export function inMonth({ calendar, days }: MonthContext, column: Column): OfSet {
  return (month, set) => f`SUMIFS(${all(column)},${all(calendar.month)},${month},${all(days.set)},${set})`;
}

/** A figure of each set × what the days of the month have under it: a column a set, and their sum. */
export function bySet(context: MonthContext, text: string, unit: string, rates: Column, what: OfSet): Node {
  const { months, tariff } = context;
  const columns = sets.map((set) => {
    const rate = f`SUM(INDEX(${all(rates)},${set + 1}))`;
    return months.columns.column(
      `${text}, rates ${set + 1}, tariff ${tariff + 1}`,
      unit,
      'Of the days on which these rates hold; before rounding',
      'pence',
      // Most tariffs have one set of rates: the others are not counted through the days for nothing.
      f`IF(${months.days}*${rate}=0,0,${rate}*${what(months.number, set + 1)})`,
    );
  });
  return f`SUM(${beside(columns)})`;
}

export function tariffMonths(
  context: MonthContext,
  shared: { exportKwh: Column },
  energy: EnergyDays,
): TariffMonths {
  const { tariff, months, calendar, days } = context;
  const { columns } = months;
  const label = (text: string): string => `${text}, tariff ${tariff + 1}`;
  const money = (text: string, description: string, is: Node): Column => {
    const column = columns.column(label(text), '{major}', description, 'money', is);
    columns.sum(column, months.selected, 'moneyStrong', `${nameOf(text)}_${tariff + 1}`, true);
    return column;
  };
  const daysOf: OfSet = (month, set) => f`COUNTIFS(${all(calendar.month)},${month},${all(days.set)},${set})`;
  const energyPounds = money(
    'Energy',
    'Unit rates × import, with VAT, rounded on the line',
    billed(columns.ofDays(energy.energyPence)),
  );
  const standing = money(
    'Standing charge',
    'With VAT, every calendar day, rounded on the line',
    billed(bySet(context, 'Standing charge', '{minor}', context.rates.standing, daysOf)),
  );
  const exportCredit = money(
    'Export credit',
    'Export without battery × export rate; carries no VAT; rounded on the line',
    billed(
      bySet(
        context,
        'Export credit',
        '{minor}',
        context.rates.exportRate,
        inMonth(context, shared.exportKwh),
      ),
    ),
  );
  const total = money(
    'Total',
    'Energy + standing charge − export credit',
    f`ROUND(${energyPounds}+${standing}-${exportCredit},2)`,
  );
  const offPeakKwh = columns.column(
    label('Off-peak'),
    'kWh',
    'Import at the lowest rate',
    'kwh',
    columns.ofDays(energy.offPeakKwh),
  );
  columns.sum(offPeakKwh, months.selected, 'kwh', `off_peak_kWh_of_period_${tariff + 1}`);
  const offPeakPence = columns.column(
    label('Off-peak cost'),
    '{minor}',
    'Cost of that import',
    'pence',
    bySet(context, 'Off-peak cost', '{minor}', context.rates.offPeak, inMonth(context, energy.offPeakKwh)),
  );
  columns.sum(offPeakPence, months.selected, 'pence', `off_peak_pence_of_period_${tariff + 1}`);
  return { energy: energyPounds, standing, exportCredit, total, offPeakKwh, offPeakPence };
}

const nameOf = (text: string): string => `period_${text.toLowerCase().replaceAll(' ', '_')}`;

/** A tariff's bill lines with the battery. */
export interface BatteryMonths {
  energyPence: Column;
  exportCreditPence: Column;
  energy: Column;
  exportCredit: Column;
  total: Column;
  chargedKwh: Column;
  periodEnergyPence: Line;
}

/** Decimals of exported kWh: sums leave crumbs where nothing is exported. */
const EXPORT_DECIMALS = 6;

export function batteryMonths(
  context: MonthContext,
  shared: { exportKwh: Column },
  energy: EnergyDays,
  battery: BatteryDays,
  without: TariffMonths,
): BatteryMonths {
  const { tariff, months } = context;
  const { columns } = months;
  const label = (text: string): string => `${text}, tariff ${tariff + 1}`;
  const ofMonth = (column: Column): Node => columns.sumOfDays(column);
  const energyPence = columns.column(
    label('Energy with battery'),
    '{minor}',
    'Before rounding',
    'pence',
    columns.whereDays(
      f`${ofMonth(energy.energyPence)}+${ofMonth(battery.boughtPence)}-${ofMonth(battery.givenPence)}+${ofMonth(battery.soldPence)}`,
    ),
  );
  const periodEnergyPence = columns.sum(
    energyPence,
    months.selected,
    'pence',
    `period_battery_energy_pence_${tariff + 1}`,
  );
  const exported: OfSet = (month, set) => {
    const sum = (column: Column): Node => inMonth(context, column)(month, set);
    return f`ROUND(${sum(shared.exportKwh)}-${sum(battery.chargedKwh)}+${sum(battery.boughtKwh)}+${sum(battery.soldKwh)},${EXPORT_DECIMALS})`;
  };
  const exportCreditPence = columns.column(
    label('Export credit with battery'),
    '{minor}',
    'Before rounding',
    'pence',
    bySet(context, 'Export credit with battery', '{minor}', context.rates.exportRate, exported),
  );
  columns.sum(exportCreditPence, months.selected, 'pence', `period_battery_export_pence_${tariff + 1}`);
  const money = (text: string, description: string, is: Node): Column => {
    const column = columns.column(label(text), '{major}', description, 'money', is);
    columns.sum(column, months.selected, 'moneyStrong', `${nameOf(text)}_${tariff + 1}`, true);
    return column;
  };
  const pounds = money('Energy with battery', 'Rounded on the line', billed(f`${energyPence}`));
  const credit = money('Export credit with battery', 'Rounded on the line', billed(f`${exportCreditPence}`));
  const total = money(
    'Total with battery',
    'Energy + standing charge − export credit',
    f`ROUND(${pounds}+${without.standing}-${credit},2)`,
  );
  const chargedKwh = columns.column(
    label('Taken by the battery'),
    'kWh AC',
    'Sum of the month',
    'kwh',
    columns.ofDays(battery.chargedKwh),
  );
  columns.sum(chargedKwh, months.selected, 'kwh', `period_charged_kWh_${tariff + 1}`);
  return {
    energyPence,
    exportCreditPence,
    energy: pounds,
    exportCredit: credit,
    total,
    chargedKwh,
    periodEnergyPence,
  };
}
