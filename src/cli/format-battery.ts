import { batteryAnswer } from '../workbook/evaluate/battery/battery-answers.js';
import type { WorkbookResults } from '../workbook/evaluate/workbook-results.js';
import { hasName } from '../workbook/inputs/workbook-inputs.js';
import { wrapped } from './format-comparison.js';

const NAME_WIDTH = 24;

/**
 * What the battery changes on every tariff, as a table that fits 80 columns, cheapest with the battery first.
 *
 * @param results what the library worked out
 * @returns lines of text, without colour; empty without a battery
 */
export function formatBattery(results: WorkbookResults): string {
  const { figures, period } = results.battery;
  const { usableKwh, chargeKw } = figures.battery;
  if (usableKwh === 0 || period.halfHours === 0) return '';
  const currency = String(results.inputs.home.currency ?? '');
  const rows = results.inputs.tariffs
    .map(({ name }, t) => ({ name, isTodays: t === results.todays, answer: batteryAnswer(results, t) }))
    .filter(({ name }) => hasName(name))
    .sort((a, b) => (a.answer.withPounds ?? 0) - (b.answer.withPounds ?? 0))
    .map(({ name, isTodays, answer }) => [
      clipped(`${isTodays ? '*' : ' '}${String(name)}`),
      money(answer.withoutPounds),
      money(answer.withPounds),
      money(answer.savingPounds),
      money(answer.leftPounds),
      answer.cyclesPerYear === null ? '' : answer.cyclesPerYear.toFixed(0),
    ]);
  const headers = ['Tariff', 'Without', 'With', 'Saves', 'Left on the table', 'Cycles'];
  const units = ['', currency, currency, currency, currency, 'a year'];
  const table = [headers, units, ...rows];
  const widths = headers.map((_, column) => Math.max(...table.map((row) => row[column]!.length)));
  const lines = table.map((row) =>
    row
      .map((cell, column) => (column === 0 ? cell.padEnd(widths[0]!) : cell.padStart(widths[column]!)))
      .join('  ')
      .trimEnd(),
  );
  lines.splice(2, 0, '-'.repeat(widths.reduce((sum, width) => sum + width + 2, -2)));
  return [
    `With the battery of ${usableKwh} kWh and ${chargeKw} kW, by its rule:`,
    '',
    ...lines,
    '',
    'Left on the table: what the rule costs more than the best possible schedule.',
    ...hoursLine(results),
  ].join('\n');
}

/** When it charges from the grid on the tariff looked at, where it does. */
function hoursLine(results: WorkbookResults): string[] {
  const { chosen, profile } = results.battery;
  if (profile.hoursInWords === '') return [];
  const name = String(results.inputs.tariffs[chosen]!.name);
  return wrapped(`On an average day on ${name} it charges from the grid ${profile.hoursInWords}.`);
}

function clipped(text: string): string {
  return text.length <= NAME_WIDTH ? text : `${text.slice(0, NAME_WIDTH - 1)}…`;
}

function money(pounds: number | null): string {
  // Adding 0 takes the sign off minus zero.
  return pounds === null ? '' : (pounds + 0).toFixed(2);
}
