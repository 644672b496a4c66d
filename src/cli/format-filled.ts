import { shortened } from '../plain-text.js';
import { halfHoursWithoutReadings } from '../readings/without-readings.js';
import { SHEETS } from '../workbook/layout.js';
import { ALL_WELL, VERDICT_NAME } from '../workbook/model/checks-sheet.js';
import type { WorkbookValues } from '../workbook/workbook-values.js';
import { count, counted, importWithout } from './count-words.js';
import type { FilledFile } from './fill-file.js';
import { formatBattery } from './format-battery.js';
import { formatComparison, wrapped } from './format-comparison.js';
import { formatCounts } from './format-counts.js';
import { dayOf, formatGaps } from './format-gaps.js';
import { formatHeating } from './format-heating.js';
import { formatTimers } from './format-timers.js';

const FIRST_FEW = 5;
/** A formula can be long; its beginning tells enough. */
const FORMULA_SHOWN = 48;

/**
 * What a fill did, for a terminal.
 *
 * @param filled the fill's outcome
 * @param out path of the workbook
 * @returns text of at most 80 columns where paths allow, ending with a newline
 */
export function formatFilled(filled: FilledFile, out: string): string {
  const { result, report, written, clearedTariff } = filled;
  const parts: string[] = [];
  if (report !== '') parts.push(report.trimEnd(), '');
  parts.push(formatComparison(result.values), '', ...checksAsk(result.values), ...batteryAsks(result.values));
  parts.push(...formatGaps(result.values));
  for (const table of [
    formatTimers(result.values),
    formatBattery(result.values),
    formatHeating(result.values),
  ]) {
    if (table !== '') parts.push(table, '');
  }
  if (result.altered.length > 0) {
    parts.push(
      `Attention: ${result.altered.length} formula cells are not the project's any more:`,
      ...result.altered
        .slice(0, FIRST_FEW)
        .map(({ sheet, cell, found }) => `  ${sheet}!${cell} holds ${shortened(found, FORMULA_SHOWN)}`),
      ...(result.altered.length > FIRST_FEW
        ? [`  and ${count(result.altered.length - FIRST_FEW)} more`]
        : []),
      'Stored values were left out, so that the spreadsheet program works them out',
      'with the formulas as they stand; the table above is without them. Where you',
      'changed none, the workbook is of another version: fill into a fresh one.',
      '',
    );
  }
  if (clearedTariff !== undefined) parts.push(`The column of "${clearedTariff}" was emptied.`);
  parts.push(
    written
      ? `${formatCounts(result).join('\n')}.`
      : 'Nothing changed: the workbook holds these readings already.',
    out,
    '',
  );
  return parts.join('\n');
}

/** The verdict of the checks in their own words where one is not well, else nothing. */
export function checksAsk({ calculated }: WorkbookValues): string[] {
  const verdict = String(calculated.named(VERDICT_NAME));
  return verdict.startsWith(ALL_WELL) ? [] : [...wrapped(`${SHEETS.checks}: ${verdict}`), ''];
}

/** Says how many half-hours have no reading of the battery that ran, and since when; nothing where there is none. */
function batteryAsks({ inputs }: WorkbookValues): string[] {
  const { startSerial, values } = inputs.readings;
  const { since, before } = halfHoursWithoutReadings(startSerial, values.importKwh, [
    values.batteryInKwh,
    values.batteryOutKwh,
  ]);
  const told: string[] = [];
  if (since !== undefined) {
    told.push(
      `${importWithout(since.halfHours)} a reading of the battery, the first on ${dayOf(since.firstSerial)}. ` +
        'Their import already holds what the battery moved, so tariffs are misjudged: fill the battery’s file for these days.',
    );
  }
  if (before !== undefined && inputs.home.batteryRan === 'yes') {
    told.push(
      `${counted(before.halfHours, 'half-hour')} from ${dayOf(before.firstSerial)} on ${before.halfHours === 1 ? 'lies' : 'lie'} before its first reading: if it ran then, fill its file for them too.`,
    );
  }
  return told.length === 0 ? [] : [...wrapped(`Battery: ${told.join(' ')}`), ''];
}
