import type { Node } from '../../formula/nodes.js';
import { EARLIEST_SERIAL, LATEST_SERIAL } from '../../time/serial.js';
import { across, all, f, joined, type Line, stretch } from '../book/terms.js';
import { HOME_RULES, PERIOD_RULES } from '../fields/home-fields.js';
import { TODAYS_TARIFF_RULE } from '../fields/tariff-rules.js';
import { SHEETS } from '../layout.js';
import { askedChecks } from './asked-checks.js';
import { batteryChecks } from './battery/battery-checks.js';
import { billChecks } from './bills/bill-checks.js';
import type { Book } from './book.js';
import { channelChecks } from './channel-checks.js';
import { MOST_GAINED } from './clock-table.js';
import { heatingChecks, laterHeatingChecks } from './heating/heating-checks.js';
import { periodLine } from './period-line.js';
import { belowLastReading } from './readings-sheet.js';
import { ref, textOf } from './references.js';
import { hasNoTariff, WRONG_WAY_NAME } from './sentences.js';
import type { Cell } from './sheet-model.js';
import { tariffChecks } from './tariff-checks.js';
import { timerChecks } from './timers/timer-checks.js';

/** A self-test of the workbook: it counts what is wrong, 0 is well. */
export interface Check {
  name: string;
  /** Formula that counts, without `=` where it is text; a check of each tariff is the sum of its counts. */
  formula: Node | string | readonly (Node | string)[];
  /** What to do when it is not 0. */
  advice: string;
  /** `ask`: asks for a look as a fault does, but counts as typed, for it may be meant. `note`: told, but no fault. */
  kind: 'fault' | 'ask' | 'note';
  /** What is asked of the first that it counts, in place of the advice; with the cells that this is made in. */
  question?: (row: number, counts: readonly Line[]) => { words: Line | Node; cells: readonly Cell[] };
  /** Defined name of the count, where another sheet tells it. */
  cellName?: string;
}

const whole = (is: Node): Node => f`IF(${is},1,0)`;
/** Demand this little below zero is noise of the meters, kWh. */
const NOISE_KWH = 0.05;
/** No demand is as far below zero, kWh: what is excused by so much is excused whatever it is. */
const MORE_THAN_ANY_KWH = 1e9;

function readingChecks(book: Book): Check[] {
  const { readings, halfHours, calendar, months } = book.workings;
  const { channels } = readings;
  const start = all(readings.start);
  const valueColumns = Object.values(channels);
  const values = across(valueColumns, 'read_values');
  const energy = across(
    [
      channels.importKwh,
      channels.exportKwh,
      channels.solarKwh,
      channels.batteryInKwh,
      channels.batteryOutKwh,
      channels.heatPumpKwh,
      channels.heatOutputKwh,
      channels.carKwh,
    ],
    'read_energy',
  );
  const outside = `COUNTIFS(${ref(start)},"<${EARLIEST_SERIAL}")+COUNTIFS(${ref(start)},">${LATEST_SERIAL + 1}")`;
  const anyValue = joined(
    '+',
    valueColumns.map((column) => f`(${all(column)}<>"")`),
  );
  const demand = f`${all(channels.importKwh)}-${all(channels.exportKwh)}+${all(channels.solarKwh)}+${all(channels.batteryOutKwh)}-${all(channels.batteryInKwh)}`;
  // More leaves a home with sun that no channel meters than comes in by the meter: nothing is wrong with its readings. A
  // battery that gives more than it takes has its channels swapped, sun or not.
  const unmeteredSun = f`(COUNT(${all(channels.solarKwh)})=0)*(SUM(${all(channels.exportKwh)})>0)*(SUM(${all(channels.batteryOutKwh)})<=SUM(${all(channels.batteryInKwh)}))`;
  const excused = f`${-NOISE_KWH}-${MORE_THAN_ANY_KWH}*${unmeteredSun}`;
  const metered = periodLine(book, months.metered);
  const { mark } = readings;
  const { readingRow } = halfHours;
  const last = readingRow.rows - 1;
  const used = stretch(readingRow, 2, last);
  const isSame = (rowsUp: number): Node => f`(${used}=${stretch(readingRow, 2 - rowsUp, last - rowsUp)})`;
  return [
    {
      name: 'No readings in the chosen period',
      formula: whole(f`${metered}=0`),
      advice: `Paste half-hours into ${SHEETS.readings}, run the fill, or choose months on ${SHEETS.answer} that have some.`,
      kind: 'fault',
    },
    {
      name: 'Dates that arrived as text',
      formula: f`COUNTA(${start})-COUNT(${start})`,
      advice: `In ${SHEETS.readings}, turn them into real dates (text to columns, with the right order of day and month), or use the fill.`,
      kind: 'fault',
    },
    {
      name: 'Dates outside 1990 to 2099',
      formula: outside,
      advice: 'Check the date.',
      kind: 'fault',
    },
    {
      name: 'Readings below the last row that the workbook counts',
      formula: f`COUNTA(${belowLastReading(book)})`,
      advice: 'They count nowhere: carry the workbook over into one that holds more days.',
      kind: 'fault',
      cellName: 'readings_below',
    },
    {
      name: 'Days after the last that the workbook holds',
      formula: f`MAX(0,SUM(${calendar.lastDay})-SUM(${calendar.firstDay})+1-${book.shape.days})`,
      advice:
        'Their readings count nowhere. Check the first and the last date for slips; else carry the workbook over into one that holds more days.',
      kind: 'fault',
      cellName: 'days_beyond',
    },
    {
      name: 'Half-hours that share a reading with another',
      // The hour that autumn repeats has the same times twice.
      formula: f`SUMPRODUCT((${used}>0)*(${isSame(1)}+${isSame(2)}))`,
      advice:
        'One of the two readings is missing, or they do not follow one another: give both, in the order of time.',
      kind: 'fault',
      cellName: 'half_hours_sharing',
    },
    {
      name: 'Readings that no half-hour uses: repeated, off the half-hour, or beyond the days',
      formula: `COUNT(${ref(start)})-(${outside})-COUNTIFS(${ref(all(readingRow))},">0")+half_hours_sharing`,
      advice:
        'Each row is a half-hour that starts at :00 or :30, and stands once. Such rows are in no total.',
      kind: 'fault',
    },
    {
      name: 'Values that are not numbers',
      formula: f`COUNTA(${values})-COUNT(${values})`,
      advice: 'Type a number or clear the cell; it counts as missing.',
      kind: 'fault',
    },
    {
      name: 'Values without a time',
      formula: f`SUMPRODUCT((${start}="")*(${anyValue}>0))`,
      advice: 'Give the row its time, or clear it.',
      kind: 'fault',
    },
    {
      name: 'Half-hours missing in the chosen period',
      formula: f`MAX(0,${periodLine(book, months.expected)}-${metered})`,
      advice: `Totals leave them out. ${SHEETS.days} says how many each day should have, and has.`,
      kind: 'fault',
    },
    {
      name: 'Negative kWh',
      formula: f`COUNTIFS(${energy},"<0")`,
      advice: 'A meter channel does not run backwards: check its sign and its unit.',
      kind: 'fault',
    },
    {
      name: 'Outliers: half-hours above the largest plausible',
      formula: `IF(ISNUMBER(largest_half_hour_kwh),COUNTIFS(${ref(energy)},">"&largest_half_hour_kwh),0)`,
      advice: `Check for Wh read as kWh, or raise the limit on ${SHEETS.readings}.`,
      kind: 'fault',
    },
    {
      name: `Half-hours of demand below zero by more than noise (${NOISE_KWH} kWh)`,
      // A value that is text can't be added: then it can't be told, which is no well.
      formula: f`IFERROR(SUMPRODUCT((${demand}<${excused})*1),1)`,
      advice: 'More leaves than comes in: a solar or battery channel is missing or has the wrong sign.',
      kind: 'fault',
    },
    {
      name: 'Half-hours of demand below zero that are no fault: noise, or sun that no channel meters',
      formula: f`IFERROR(SUMPRODUCT((${demand}<0)*(${demand}>=${excused})),0)`,
      advice:
        'If a meter counts your sun, add its channel; else nothing to do: use of your own sun is in no figure.',
      kind: 'note',
    },
    {
      name: 'Rows marked as estimated',
      formula: f`SUMPRODUCT((${all(mark)}>="E")*(${all(mark)}<"F"))`,
      advice: 'They count; ask for the real readings where it matters.',
      kind: 'note',
    },
  ];
}

function choiceChecks(): Check[] {
  return [
    {
      name: 'Today’s tariff not found',
      formula: TODAYS_TARIFF_RULE.is,
      advice: `Choose one of the names on ${SHEETS.tariffs}.`,
      kind: 'fault',
    },
    {
      name: 'No tariff is typed yet',
      formula: `IF(${hasNoTariff()},1,0)`,
      advice: `Type today’s on ${SHEETS.tariffs}, then those to compare it with.`,
      kind: 'note',
    },
    {
      name: 'From-month after to-month, or not a date',
      formula: `IF(${WRONG_WAY_NAME}+${textOf(PERIOD_RULES.fromMonth.is)}+${textOf(PERIOD_RULES.toMonth.is)}>0,1,0)`,
      advice: `Put the months right on ${SHEETS.answer}.`,
      kind: 'fault',
    },
    {
      name: 'The choice of rates is neither as they were nor as they are now',
      formula: PERIOD_RULES.ratesUsed.is,
      advice: `Choose one on ${SHEETS.answer}; until then they count as they were.`,
      kind: 'fault',
    },
    {
      name: 'The time zone is missing',
      formula: HOME_RULES.timeZone.is,
      advice: `Give an IANA name such as Europe/London on ${SHEETS.readings}.`,
      kind: 'fault',
    },
    {
      name: 'Clock changes are those of another zone',
      formula: 'IF(clock_time_zone<>time_zone,1,0)',
      advice: `Run the fill with --time-zone, or put the zone on ${SHEETS.readings} back.`,
      kind: 'fault',
    },
    {
      name: 'Readings of years whose clock changes are not known',
      formula:
        'IF(COUNT(first_day,last_day)<2,0,IF(OR(first_day<clock_covers_from,last_day>clock_covers_until),1,0))',
      advice: 'Run the fill: it writes the clock changes of these years.',
      kind: 'fault',
    },
    {
      name: 'Days longer than the workbook has rows for',
      formula: `IF(COUNT(first_day,last_day)<2,0,COUNTIFS(clock_day,">="&first_day,clock_day,"<="&last_day,clock_gained,">${MOST_GAINED}"))`,
      advice: 'Leave the readings of that day out: its last half-hours are not counted.',
      kind: 'fault',
    },
    {
      name: 'VAT that is no share from 0 % to below 100 %',
      formula: HOME_RULES.vatShare.is,
      advice: `Type it on ${SHEETS.tariffs}, 0 % for none: what is no number counts as 0.`,
      kind: 'fault',
    },
    {
      name: 'The largest plausible half-hour is no number above 0',
      formula: HOME_RULES.largestHalfHourKwh.is,
      advice: `Type kWh on ${SHEETS.readings}; readings above it are counted as outliers.`,
      kind: 'fault',
    },
    {
      name: 'Whether a battery ran is neither yes nor no',
      formula: HOME_RULES.batteryRan.is,
      advice: `Write yes or no on ${SHEETS.readings}.`,
      kind: 'fault',
    },
  ];
}

function sumChecks({ workings }: Book): Check[] {
  const { months, halfHours } = workings;
  return [
    {
      name: 'Import by month and by half-hour differ',
      formula: whole(f`ABS(SUM(${all(months.importKwh)})-SUM(${all(halfHours.importKwh)}))>0.000001`),
      advice: 'The parts do not sum to the whole: a formula was changed.',
      kind: 'fault',
    },
    {
      name: 'Tariffs whose months differ from their days by more than rounding',
      formula: workings.tariffs.map((tariff) =>
        whole(
          f`ABS(SUM(${all(tariff.months.energy)})-SUM(${all(tariff.energy.energyPence)})/100)>${tariff.months.energy.rows * 0.006}`,
        ),
      ),
      advice: 'The parts do not sum to the whole: a formula was changed.',
      kind: 'fault',
    },
  ];
}

/** Every check, in the order of the sheet: the first that is not well is the first to look at. */
export function allChecks(book: Book): Check[] {
  return [
    ...readingChecks(book),
    ...choiceChecks(),
    ...tariffChecks(book),
    ...billChecks(),
    ...timerChecks(book),
    ...batteryChecks(book),
    ...heatingChecks(book),
    ...sumChecks(book),
    // At the end, so that no other check moves.
    ...channelChecks(book),
    ...laterHeatingChecks(),
    ...askedChecks(),
  ];
}
