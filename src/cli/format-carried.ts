import { plainText, shortened } from '../plain-text.js';
import { serialToIsoDate } from '../time/serial.js';
import type { Carried } from '../workbook/carry/carry-workbook.js';
import { hasName } from '../workbook/inputs/workbook-inputs.js';
import { formatComparison, wrapped } from './format-comparison.js';
import { checksAsk } from './format-filled.js';

/**
 * What was carried over and what was not, for a terminal.
 *
 * @param carried what was done
 * @param out path of the new workbook
 * @returns text of at most 80 columns where paths and cells allow, ending with a newline
 */
export function formatCarried(carried: Carried, out: string): string {
  const { values, layout, days, daysBefore } = carried;
  const { tariffs } = values.inputs;
  const lines = [formatComparison(values), '', ...checksAsk(values)];
  const counts: [number, string, string][] = [
    [tariffs.filter(({ name }) => hasName(name)).length, 'tariff', 'tariffs'],
    [carried.readings, 'half-hour of readings', 'half-hours of readings'],
    [carried.gasRows, 'stretch of gas', 'stretches of gas'],
    [carried.temperatureDays, 'day of temperatures', 'days of temperatures'],
    [carried.ownCells, 'cell of your own beside ours', 'cells of your own beside ours'],
    [carried.comments, 'comment of your own', 'comments of your own'],
    [carried.ownSheets.length, 'sheet of your own', 'sheets of your own'],
  ];
  lines.push(
    `Carried over from layout ${layout}, with all inputs:`,
    ...counts
      .filter(([count]) => count > 0)
      .map(([count, one, many]) => `  ${count.toLocaleString('en-GB')} ${count === 1 ? one : many}`),
  );
  lines.push(...wrapped(roomSaid(days, daysBefore)), ...periodSaid(carried).flatMap(wrapped), '');
  if (carried.notCarried.length > 0) {
    lines.push(
      'Not carried over:',
      ...carried.notCarried.map(
        ({ at, found, why }) => `  ${shortened(at)}: ${shortened(found)}: ${plainText(why)}`,
      ),
      '',
    );
  }
  lines.push(out, '');
  return lines.join('\n');
}

function roomSaid(days: number, before: number): string {
  if (days === before) return `It holds ${days} days, as before; --days says how many.`;
  return `It holds ${days} days; the old one ${before}.`;
}

/** Where no months were chosen, a workbook of layout 2 counted everything, one of today at most the last whole year. */
function periodSaid({ values, layout }: Carried): string[] {
  const { inputs, book, calculated } = values;
  if (layout > 2 || inputs.fromMonth !== null || inputs.toMonth !== null) return [];
  const starts = calculated.column(book.workings.months.start).filter((start) => typeof start === 'number');
  const counted = calculated
    .column(book.workings.months.selected)
    .filter((selected) => selected === 1).length;
  const [first] = starts;
  if (first === undefined || counted === starts.length) return [];
  return [
    `No months were chosen: the old workbook counted all from ${serialToIsoDate(first)} on, this one counts the last twelve whole months. Choose months on Answer for others.`,
  ];
}
