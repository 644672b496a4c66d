import type { Node } from '../../../formula/nodes.js';
import type { SheetBuilder } from '../../book/sheet-builder.js';
import { all, blockOf, type Column, f, type Line, rowsDown } from '../../book/terms.js';
import { BLOCK_ROWS, FIRST_ROW } from '../../layout.js';
import type { Book } from '../book.js';
import { columnNamed, SPAN_FIRST_ROW, slice } from './span-rows.js';

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
  const { months, calendar, halfHours, realCost, battery } = book.workings;
  const { monthRows: rows, days } = book.shape;
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
  const costOf = (of: Column): Node => f`SUMPRODUCT(${ofMonth(realCost.pencePerKwh)},${ofMonth(of)})`;
  const ofAll = pence('Used by the home, at the shared cost', where(costOf(halfHours.usedKwh)));
  const ofCar = pence('Car, at the shared cost', where(costOf(halfHours.carKwh)));
  const heatPumpPence = pence(
    'Heat pump cost',
    where(costOf(halfHours.heatPumpKwh)),
    'month_heat_pump_pence',
  );

  const block = (of: Column) => blockOf(of, BLOCK_ROWS, SPAN_FIRST_ROW);
  const { looked } = book.workings;
  const exportRate = rowsDown(columnNamed(calendar.sheet, 'looked_export_rate'), FIRST_ROW - SPAN_FIRST_ROW);
  const beyond = f`(${block(halfHours.carKwh)}>${block(halfHours.importKwh)})*(${block(halfHours.carKwh)}-${block(halfHours.importKwh)})`;
  const ofDays = (
    label: string,
    unit: string,
    description: string,
    style: Column['style'],
    is: Node,
    name?: string,
  ) =>
    sheet.column({
      label,
      unit,
      description,
      style,
      rows: days,
      is: f`IF(OR(${battery.carBarred}=0,${looked}=0),0,${is})`,
      ...(name === undefined ? {} : { name }),
    });
  const carSun = ofDays(
    'Sun in a car of its own',
    'kWh, by day',
    'What a car that the battery may not feed used beyond the import',
    'kwhFine',
    f`SUMPRODUCT(${beyond})`,
  );
  const alone = ofDays(
    'Cost of a car of its own',
    '{minor}, by day',
    'What a car that the battery may not feed takes from the grid at the unit rates, and from the sun at the export rate',
    'pence',
    f`SUMPRODUCT((${block(halfHours.carKwh)}-${beyond})*${block(realCost.unitRatePence)})+${carSun}*${exportRate}`,
    'day_car_pence',
  );
  const carPence = pence(
    'Car cost',
    f`IF(${battery.carBarred}=0,${ofCar},SUMIFS(${all(alone)},${all(calendar.month)},${number}))`,
    'month_car_pence',
  );
  // A barred car shares nothing: what the others share is without it.
  const totalPence = pence(
    'Whole home cost',
    f`${ofAll}+${battery.carBarred}*(${carPence}-${ofCar})`,
    'month_used_pence',
  );
  const period = new Map<Column, Line>();
  const result = { usedKwh, heatPumpKwh, carKwh, totalPence, heatPumpPence, carPence };
  for (const summed of Object.values(result)) {
    const line = sheet.line(SPAN_FIRST_ROW - 1, summed.column, {
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
