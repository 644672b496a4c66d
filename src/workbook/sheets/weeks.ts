import type { Node } from '../../formula/nodes.js';
import { all, type Column, f, namedOf } from '../book/terms.js';
import type { Calendar, TariffDays } from './days.js';
import type { Months } from './months.js';
import type { TariffRates } from './rates.js';
import type { Shape } from './shape.js';
import type { BatteryDays, EnergyDays } from './tariff-days.js';

/** Days of a week. */
export const WEEK_DAYS = 7;

/** Whole weeks from the first day on, a row a week. */
export interface Weeks {
  /** 1 where the period takes the week in and every half-hour of it was metered. */
  counts: Column;
  /** What the use of the week costs on each tariff, side by side. */
  useCost: readonly Column[];
}

/** What the weeks need of a tariff. */
export interface WeekOfTariff {
  rates: TariffRates;
  days: TariffDays;
  energy: EnergyDays;
  battery: BatteryDays;
}

/**
 * Declares the whole weeks on the days sheet, right of the days: seven rows of days are one of weeks.
 *
 * @param calendar the days
 * @param months which of them the period takes in
 * @param shared columns of days that all tariffs share
 * @param tariffs lines of each tariff
 * @param shape how much the workbook holds
 */
export function weeks(
  calendar: Calendar,
  months: Months,
  shared: { metered: Column; exportKwh: Column },
  tariffs: readonly WeekOfTariff[],
  shape: Shape,
): Weeks {
  const rows = weekRows(shape);
  const ofWeek = (column: Column): Node => {
    const cells = all(column);
    const first = f`INDEX(${cells},(${calendar.number}-1)*${WEEK_DAYS}+1)`;
    return namedOf(column, 'of_week', f`${first}:INDEX(${cells},${calendar.number}*${WEEK_DAYS})`);
  };
  const { sheet, date, month, length } = calendar;
  const selected = (end: 'MIN' | 'MAX') =>
    end === 'MIN'
      ? f`SUM(INDEX(${all(months.selected)},MIN(${ofWeek(month)})))`
      : f`SUM(INDEX(${all(months.selected)},MAX(${ofWeek(month)})))`;
  const counts = sheet.column({
    label: 'Weeks: counts',
    unit: '1 or 0',
    description:
      'A row a week, seven days each from the first: whether the period takes it in and every half-hour was metered',
    style: 'integer',
    rows,
    is: f`IF(COUNT(${ofWeek(date)})<${WEEK_DAYS},0,IF(SUM(${ofWeek(shared.metered)})<SUM(${ofWeek(length)}),0,${selected('MIN')}*${selected('MAX')}))`,
  });
  const useCost = tariffs.map(({ rates, days, energy, battery }, t): Column => {
    const set = ofWeek(days.set);
    const pence = f`SUM(${ofWeek(energy.energyPence)},${ofWeek(battery.boughtPence)},${ofWeek(battery.soldPence)})-SUM(${ofWeek(battery.givenPence)})`;
    const exported = f`SUM(${ofWeek(shared.exportKwh)},${ofWeek(battery.boughtKwh)},${ofWeek(battery.soldKwh)})-SUM(${ofWeek(battery.chargedKwh)})`;
    const exportRate = f`SUM(INDEX(${all(rates.exportRate)},MIN(${set})))`;
    return sheet.column({
      label: `Weeks: cost of use, tariff ${t + 1}`,
      unit: '{major}',
      description:
        'Energy less export credit, with the battery, without the standing charge; blank where the week does not count or the rates change in it',
      style: 'money',
      rows,
      is: f`IF(OR(${counts}=0,MIN(${set})<MAX(${set})),"",(${pence}-(${exported})*${exportRate})/100)`,
    });
  });
  return { counts, useCost };
}

/** Whole weeks that a workbook holds. */
export function weekRows({ days }: Pick<Shape, 'days'>): number {
  return Math.floor(days / WEEK_DAYS);
}
