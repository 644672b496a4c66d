import type { Node } from '../../../formula/nodes.js';
import type { SheetBuilder } from '../../book/sheet-builder.js';
import { all, type Column, f, type Line } from '../../book/terms.js';
import { BLOCK_ROWS } from '../../layout.js';
import type { Book } from '../book.js';
import { SPAN_FIRST_ROW, slice } from './span-rows.js';

/** What energy really cost on the tariff looked at, by month. */
export interface RealCostMonths {
  usedKwh: Column;
  heatPumpKwh: Column;
  carKwh: Column;
  totalPence: Column;
  heatPumpPence: Column;
  carPence: Column;
}

/**
 * What the users of the home used and what that really cost, by month and over the chosen period.
 *
 * @param book inputs and workings
 * @param sheet where the columns go
 */
export function realCostMonths(
  book: Book,
  sheet: SheetBuilder,
): { months: RealCostMonths; period: ReadonlyMap<Column, Line> } {
  const { months, calendar, halfHours, realCost } = book.workings;
  const { monthRows: rows } = book.shape;
  const column = (
    label: string,
    unit: string,
    description: string,
    style: Column['style'],
    is: Node,
    name?: string,
  ): Column =>
    sheet.column({ label, unit, description, style, rows, is, ...(name === undefined ? {} : { name }) });
  const number = sheet.column({
    label: 'No.',
    unit: 'month from 1',
    description: 'As on Months',
    style: 'integer',
    rows,
    values: Array.from({ length: rows }, (_, i) => i + 1),
  });
  column('Month', 'first day', 'As on Months', 'month', f`INDEX(${all(months.start)},${number})`);
  const first = column(
    'First half-hour',
    'row of Grid; 0: none',
    'Of the month',
    'integer',
    f`IFERROR((MATCH(${number},${all(calendar.month)},0)-1)*${BLOCK_ROWS}+1,0)`,
  );
  const last = column(
    'Last half-hour',
    'row of Grid; 0: none',
    'Of the month',
    'integer',
    f`IF(${first}=0,0,${first}+${BLOCK_ROWS}*COUNTIFS(${all(calendar.month)},${number})-1)`,
  );
  const ofMonth = (of: Column): Node => slice(of, first, last);
  const where = (is: Node): Node => f`IF(${first}=0,0,${is})`;
  const kwh = (label: string, of: Column, name: string): Column =>
    column(label, 'kWh', 'Sum of the month', 'kwh', where(f`SUM(${ofMonth(of)})`), name);
  const usedKwh = kwh('Used by the home', halfHours.usedKwh, 'month_used');
  const heatPumpKwh = kwh('of it the heat pump', halfHours.heatPumpKwh, 'month_heat_pump');
  const carKwh = kwh('of it the car', halfHours.carKwh, 'month_car');
  const pence = (label: string, is: Node, name?: string): Column =>
    column(label, '{minor}', 'On the tariff looked at, through the battery', 'pence', is, name);
  const ofDays = (of: Column): Node => f`SUMIFS(${all(of)},${all(calendar.month)},${number})`;
  const totalPence = pence('Whole home cost', ofDays(realCost.totalPence), 'month_used_pence');
  const carPence = pence('Car cost', ofDays(realCost.carPence), 'month_car_pence');
  const heatPumpPence = pence('Heat pump cost', ofDays(realCost.heatPumpPence), 'month_heat_pump_pence');
  const period = new Map<Column, Line>();
  const result = { usedKwh, heatPumpKwh, carKwh, totalPence, heatPumpPence, carPence };
  for (const summed of Object.values(result)) {
    const line = sheet.line(SPAN_FIRST_ROW - 1, summed.column - sheet.firstColumn + 1, {
      label: '',
      unit: '',
      style: summed.style,
      is: f`SUMIFS(${all(summed)},${all(months.selected)},1)`,
      name: `${String(summed.name).replace('month_', 'period_real_')}`,
    });
    period.set(summed, line);
  }
  return { months: result, period };
}
