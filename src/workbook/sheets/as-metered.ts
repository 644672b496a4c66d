import type { Node } from '../../formula/nodes.js';
import { all, type Column, call, f, named, type Term } from '../book/terms.js';
import { dayBlocks } from './day-blocks.js';
import type { Calendar, TariffDays } from './days.js';
import type { HalfHours } from './half-hours.js';
import type { InputTerms } from './input-terms.js';
import { billed, type MonthColumns, type Months } from './months.js';
import { ofAllTariffs, type RatesSheets } from './rates.js';
import { BLOCK_ROWS, type Shape } from './shape.js';
import type { TariffMonths } from './tariff-months.js';

/** What was metered on a day, and what today's tariff charges for it. */
export interface AsMeteredDays {
  importKwh: Column;
  exportKwh: Column;
  energyPence: Column;
  exportPence: Column;
}

/** The bill of a month as the meter had it, on today's tariff: whatever a battery did is in it. */
export interface AsMeteredMonths {
  importKwh: Column;
  exportKwh: Column;
  energy: Column;
  standing: Column;
  exportCredit: Column;
  total: Column;
  /** Readings of the month in which a battery took or gave something. */
  batteryReadings: Column;
}

type Today = Pick<InputTerms, 'todaysPlace' | 'todaysIsPriced'>;

/** What stands at the place of today's tariff; nothing where there is none. */
const ofTariffs = ({ todaysPlace }: Today, none: number, terms: readonly Term[]): Node =>
  f`IF(${todaysPlace}=0,${none},${call('CHOOSE', [f`MAX(1,${todaysPlace})`, ...terms])})`;

export function asMeteredDays(
  today: Today,
  calendar: Calendar,
  grid: HalfHours,
  rates: RatesSheets,
  tariffs: readonly TariffDays[],
  shape: Shape,
): AsMeteredDays {
  const { todaysPlace } = today;
  const column = (
    label: string,
    unit: string,
    description: string,
    style: 'kwhFine' | 'pence' | 'integer',
    is: Node,
    name: string,
  ): Column => calendar.sheet.column({ label, unit, description, style, rows: shape.days, is, name });
  const ofDay = dayBlocks(calendar).whole;
  const imported = ofDay(grid.meteredImportKwh);
  const importKwh = column(
    'Import as metered',
    'kWh',
    'Sum of the day’s half-hours, whatever a battery did',
    'kwhFine',
    f`SUM(${imported})`,
    'day_metered_import',
  );
  const exportKwh = column(
    'Export as metered',
    'kWh',
    'Sum of the day’s half-hours, whatever a battery did',
    'kwhFine',
    f`SUM(${ofDay(grid.meteredExportKwh)})`,
    'day_metered_export',
  );
  const at = column(
    'Begins in the grid, today’s tariff',
    'row of Rate grid',
    'Of today’s tariff',
    'integer',
    ofTariffs(
      today,
      1,
      tariffs.map((tariff) => tariff.at),
    ),
    'todays_rates',
  );
  const place = f`MAX(1,${todaysPlace})`;
  const slice = named(
    'todays_rates_of_day',
    f`INDEX(${rates.gridBlock},${at},${place}):INDEX(${rates.gridBlock},${at}+${BLOCK_ROWS - 1},${place})`,
  );
  const factor = f`INDEX(${ofAllTariffs(rates, 'priceFactor')},1,${place})`;
  const byPricePence = column(
    'Energy as metered, by the half-hourly price',
    '{minor}',
    'Where today’s tariff follows it',
    'pence',
    f`IF(${todaysPlace}=0,0,IF(${factor}=0,0,${factor}*SUMPRODUCT(${imported},${ofDay(grid.pricePence)})))`,
    'metered_by_price_pence',
  );
  const energyPence = column(
    'Energy as metered',
    '{minor}',
    'Unit rates of today’s tariff × import as metered, with VAT',
    'pence',
    f`IF(${todaysPlace}=0,0,SUMPRODUCT(${imported},${slice})+${byPricePence})`,
    'metered_energy_pence',
  );
  const exportRates = ofAllTariffs(rates, 'exportRate');
  const set = ofTariffs(
    today,
    1,
    tariffs.map((tariff) => tariff.set),
  );
  const exportPence = column(
    'Export credit as metered',
    '{minor}',
    'Export rate of today’s tariff × export as metered; carries no VAT',
    'pence',
    f`IF(OR(${todaysPlace}=0,${exportKwh}=0),0,${exportKwh}*INDEX(${exportRates},${set},${place}))`,
    'metered_export_pence',
  );
  return { importKwh, exportKwh, energyPence, exportPence };
}

export function asMeteredMonths(
  today: Today,
  months: Months & { columns: MonthColumns },
  days: AsMeteredDays,
  tariffs: readonly Pick<TariffMonths, 'standing'>[],
): AsMeteredMonths {
  const { columns, selected } = months;
  const name = (text: string): string => `period_metered_${text}`;
  const kwh = (label: string, of: Column, key: string): Column => {
    const column = columns.column(
      label,
      'kWh',
      'Sum of the month, whatever a battery did',
      'kwh',
      columns.ofDays(of),
    );
    columns.sum(column, selected, 'kwh', name(key));
    return column;
  };
  // 0 where today’s tariff lacks something, and shown nowhere: a total without it would look cheap.
  const money = (label: string, description: string, is: Node, key: string): Column => {
    const wherePriced = f`IF(${today.todaysIsPriced}=0,0,${is})`;
    const column = columns.column(label, '{major}', description, 'money', wherePriced);
    columns.sum(column, selected, 'moneyStrong', name(key), true);
    return column;
  };
  const importKwh = kwh('Import as metered', days.importKwh, 'import_kWh');
  const exportKwh = kwh('Export as metered', days.exportKwh, 'export_kWh');
  const energy = money(
    'Energy as metered, today’s tariff',
    'Unit rates × import as metered, with VAT, rounded on the line',
    billed(columns.ofDays(days.energyPence)),
    'energy',
  );
  const standing = money(
    'Standing charge as metered, today’s tariff',
    'That of today’s tariff',
    ofTariffs(
      today,
      0,
      tariffs.map((tariff) => tariff.standing),
    ),
    'standing_charge',
  );
  const exportCredit = money(
    'Export credit as metered, today’s tariff',
    'Export as metered × export rate; carries no VAT; rounded on the line',
    billed(columns.ofDays(days.exportPence)),
    'export_credit',
  );
  const total = money(
    'Total as metered, today’s tariff',
    'Energy + standing charge − export credit: what a bill of the month comes to',
    f`ROUND(${energy}+${standing}-${exportCredit},2)`,
    'total',
  );
  const { readings, rowsOfMonth, start } = months;
  const above = (channel: Column): Node => rowsOfMonth(all(channel), '>0');
  const batteryReadings = columns.column(
    'Readings of a battery',
    'count',
    'In which a battery took or gave something',
    'count',
    f`IF(${start}="",0,${above(readings.channels.batteryInKwh)}+${above(readings.channels.batteryOutKwh)})`,
  );
  columns.sum(batteryReadings, selected, 'count', 'period_battery_readings');
  return { importKwh, exportKwh, energy, standing, exportCredit, total, batteryReadings };
}
