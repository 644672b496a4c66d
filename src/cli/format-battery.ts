import { plainText, shortened } from '../plain-text.js';
import { hasName } from '../workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../workbook/layout.js';
import { batteryResultRow } from '../workbook/model/battery/battery-rows.js';
import type { WorkbookValues } from '../workbook/workbook-values.js';
import { wrapped } from './format-comparison.js';
import { textTable } from './text-table.js';

const NAME_WIDTH = 24;
/** Columns of the table on the battery sheet. */
const COLUMN = { without: 'C', total: 'D', saves: 'E', cycles: 'J', left: 'M' } as const;

/**
 * What the battery changes on every tariff, as a table that fits 80 columns, cheapest with the battery first.
 *
 * @param values a workbook, worked out
 * @returns lines of text, without colour; empty without a battery
 */
export function formatBattery(values: WorkbookValues): string {
  const { inputs, calculated, book } = values;
  const { battery, months } = book.workings;
  const usableKwh = calculated.of(battery.usableKwh);
  const days = months.period.get(months.days);
  if (usableKwh === 0 || days === undefined || calculated.of(days) === 0) return '';
  const currency = String(inputs.home.currency ?? '');
  const todays = String(inputs.todaysTariff ?? '').toLowerCase();
  const rows = inputs.tariffs
    .map(({ name }, t) => ({
      name: plainText(String(name)),
      isNamed: hasName(name),
      figure: (letters: string): number | null => {
        const value = calculated.at(SHEETS.battery, `${letters}${batteryResultRow(t)}`);
        return typeof value === 'number' ? value : null;
      },
    }))
    .filter(({ isNamed }) => isNamed)
    .sort((a, b) => (a.figure(COLUMN.total) ?? 0) - (b.figure(COLUMN.total) ?? 0))
    .map(({ name, figure }) => [
      `${name.toLowerCase() === todays ? '*' : ' '}${name}`,
      money(figure(COLUMN.without)),
      money(figure(COLUMN.total)),
      money(figure(COLUMN.saves)),
      money(figure(COLUMN.left)),
      figure(COLUMN.cycles)?.toFixed(0) ?? '',
    ]);
  const headers = ['Tariff', 'Without', 'With', 'Saves', 'Above best', 'Cycles'];
  const units = ['', currency, currency, currency, currency, 'a year'];
  return [
    `With the battery of ${String(usableKwh)} kWh and ${String(calculated.of(battery.chargeKw))} kW, by its rule:`,
    '',
    ...textTable([headers, units, ...rows], 2, NAME_WIDTH),
    '',
    'Above best: what the rule costs more than the best possible schedule.',
    ...hoursLine(values),
  ].join('\n');
}

/** When it charges from the grid on the tariff looked at, where it does. */
function hoursLine({ inputs, calculated, book }: WorkbookValues): string[] {
  const hours = calculated.named('battery_charging_hours');
  const looked = calculated.of(book.workings.looked);
  if (hours === '' || typeof looked !== 'number' || looked === 0) return [];
  const name = shortened(String(inputs.tariffs[looked - 1]?.name));
  return wrapped(`On an average day on ${name} it charges from the grid ${String(hours)}.`);
}

function money(pounds: number | null): string {
  // Adding 0 takes the sign off minus zero.
  return pounds === null ? '' : (pounds + 0).toFixed(2);
}
