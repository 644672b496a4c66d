import { absolute } from '../../cell-address.js';
import { batteryAnswer, STATUS, sizingStatus } from '../../evaluate/battery/battery-answers.js';
import type { WorkbookResults } from '../../evaluate/workbook-results.js';
import { hasName, saysYes } from '../../inputs/workbook-inputs.js';
import { SHEETS, TARIFF_COUNT } from '../../layout.js';
import type { Check } from '../checks.js';
import { CELL, MONTH, PERIOD_ROW, READING, readingColumn } from '../columns.js';
import { BATTERY_REFERENCES as B, fact } from './battery-columns.js';
import { BATTERY_LAWS } from './battery-laws.js';
import { spanFigure } from './battery-months-sheet.js';
import { BATTERY_RESULTS, batteryInput, SIZING } from './battery-rows.js';

const tariffs = Array.from({ length: TARIFF_COUNT }, (_, t) => t);
const whole = (text: string): string => `IF(${text},1,0)`;

const CHANNELS_MISSING = `AND(${CELL.batteryRan}="yes",OR(COUNT(${readingColumn(READING.batteryInKwh)})=0,COUNT(${readingColumn(READING.batteryOutKwh)})=0))`;
const MISSING_TEXT =
  'A battery ran while this was metered, and its in and out channels are missing: the import already holds its shifting. Tariffs that are cheap when it charged look cheaper than without it, others dearer, and “with battery” counts shifting twice.';

/** Whether a battery ran and one of its channels is missing. */
function channelsMissing(results: WorkbookResults): boolean {
  const { batteryInKwh, batteryOutKwh } = results.inputs.readings.values;
  const isMissing = (values: Float64Array): boolean => values.every((kwh) => Number.isNaN(kwh));
  return saysYes(results.inputs.home.batteryRan) && (isMissing(batteryInKwh) || isMissing(batteryOutKwh));
}

/** Says on the answer sheet what missing battery channels do to the figures; blank where none are missing. */
export function missingBatteryFormula(): string {
  const metered = absolute(SHEETS.months, MONTH.metered, PERIOD_ROW);
  return `IF(AND(${CHANNELS_MISSING},${metered}>0),"${MISSING_TEXT.slice(0, 200)}"&"${MISSING_TEXT.slice(200)}","")`;
}

/** What {@link missingBatteryFormula} gives. */
export function missingBatteryText(results: WorkbookResults): string {
  return channelsMissing(results) && results.period.metered > 0 ? MISSING_TEXT : '';
}

function inputChecks(): Check[] {
  const names = batteryInput('tariff');
  return [
    {
      name: 'A battery ran, its channels are missing',
      formula: whole(CHANNELS_MISSING),
      count: (r) => (channelsMissing(r) ? 1 : 0),
      advice:
        'The import already holds the battery’s shifting: other tariffs look better or worse than they would be. Add both channels.',
      kind: 'fault',
    },
    {
      name: 'Battery figures that can’t be used',
      formula: fact('faults'),
      count: (r) => r.battery.figures.faults,
      advice: `Powers above 0 kW, efficiencies above 0 % and at most 100 %, nothing negative; until then ${SHEETS.battery} counts as no battery.`,
      kind: 'fault',
    },
    {
      name: 'Tariff to look at on Battery not found',
      formula: whole(`AND(NOT(ISBLANK(${names})),${fact('chosen')}=0)`),
      count: (r) => (r.inputs.battery.tariff !== null && r.battery.chosen < 0 ? 1 : 0),
      advice: `Choose one of the names on ${SHEETS.tariffs}, or clear the cell for today’s.`,
      kind: 'fault',
    },
    {
      name: 'Days whose half-hours stand apart: the battery stands still',
      formula: fact('daysApart'),
      count: (r) => r.battery.home.daysApart,
      advice: 'Take repeated and stray rows out of Readings, so that the half-hours of a day stand together.',
      kind: 'fault',
    },
    {
      name: 'Reserve above the usable capacity',
      formula: whole(`AND(${B.usableKwh}>0,${B.reserveKwh}>${B.usableKwh})`),
      count: ({ battery: { figures } }) =>
        figures.battery.usableKwh > 0 && figures.battery.reserveKwh > figures.battery.usableKwh ? 1 : 0,
      advice: 'Such a battery never gives anything.',
      kind: 'note',
    },
    {
      name: 'Least costs and sizing that an input has outdated',
      formula: `COUNTIFS(${SHEETS.battery}!$N$${BATTERY_RESULTS.first}:$N$${BATTERY_RESULTS.first + TARIFF_COUNT - 1},"${STATUS.stale}")+${whole(`${SHEETS.battery}!$C$${SIZING.status}="${STATUS.stale}"`)}`,
      count: (r) =>
        tariffs.filter(
          (t) => hasName(r.inputs.tariffs[t]!.name) && batteryAnswer(r, t).status === STATUS.stale,
        ).length + (sizingStatus(r) === STATUS.stale ? 1 : 0),
      advice: 'Run the fill without files: it works them out anew.',
      kind: 'note',
    },
  ];
}

function lawChecks(): Check[] {
  return BATTERY_LAWS.map(({ row, name, isBroken }) => ({
    name,
    formula: `SUM(${spanFigure(0, row)}:${spanFigure(TARIFF_COUNT - 1, row).replace(/^.*!/, '')})`,
    count: (r) => tariffs.filter((t) => isBroken(r, t)).length,
    advice: 'Energy or money came from nowhere: a formula was changed.',
    kind: 'fault',
  }));
}

/** The checks of the battery's sheets. */
export function batteryChecks(): Check[] {
  return [...inputChecks(), ...lawChecks()];
}
