import { type Fault, InputError, refuse } from '../../errors.js';
import { CHANNELS, type Channel } from '../../readings/channels.js';
import type { HalfHourlyReadings, SourcedReadings } from '../../readings/index.js';
import { localMsToSerial, serialToLocalMs } from '../../time/serial.js';
import { ZoneClock } from '../../time/zone-clock.js';
import { columnNumber } from '../cell-address.js';
import { blankReadings } from '../inputs/blank-readings.js';
import { carryCall } from '../inputs/carry-call.js';
import type { ReadingRows, WorkbookInputs } from '../inputs/workbook-inputs.js';
import { FIRST_ROW, MOST_DAYS, SHEETS } from '../layout.js';
import { READING } from '../model/columns.js';
import { cellName } from '../package/index.js';
import type { Shape } from '../sheets/shape.js';
import { PROBLEM, placeReadings } from './place-readings.js';

const PROBLEMS: Record<number, [found: string, whatToDo: string]> = {
  [PROBLEM.dateIsText]: [
    'the date is text',
    'Turn the column into real dates, or clear the row and fill it from the file.',
  ],
  [PROBLEM.offHalfHour]: ['the time is off the half-hour', 'Give the start of a half-hour, :00 or :30.'],
  [PROBLEM.repeated]: ['the half-hour stands in an earlier row too', 'Take one of the two rows out.'],
  [PROBLEM.valueNotANumber]: ['a value of the row is not a number', 'Type a number or clear the cell.'],
  [PROBLEM.outsideCenturies]: ['the date is outside 1990 to 2099', 'Correct the date.'],
  [PROBLEM.valuesWithoutTime]: ['the row has values but no time', 'Type its time, or clear it.'],
};

/**
 * The readings that a workbook holds already.
 *
 * @param inputs the workbook's inputs
 * @param file name of the workbook, for messages
 * @returns the readings with the cell of each value; undefined where the sheet is empty
 * @throws InputError naming the row that can't be used; InputErrors where several can't
 */
export function readingsOfWorkbook(inputs: WorkbookInputs, file: string): SourcedReadings | undefined {
  const { readings } = inputs;
  if (readings.count === 0) return undefined;
  const placed = placeReadings(readings, inputs.clock);
  const rows: number[] = [];
  const faults: Fault[] = [];
  for (let row = 0; row < readings.count; row++) {
    const problem = PROBLEMS[placed.problem[row] ?? PROBLEM.none];
    if (problem !== undefined) {
      const [found, whatToDo] = problem;
      const line = `${SHEETS.readings}!${READING.start}${FIRST_ROW + row}`;
      faults.push({ found, whatToDo, place: { file, line } });
    }
    if ((placed.instantQuarters[row] ?? 0) > 0) rows.push(row);
  }
  refuse(faults);
  rows.sort((a, b) => (placed.instantQuarters[a] ?? 0) - (placed.instantQuarters[b] ?? 0));
  const startUtcMs = Float64Array.from(rows, (row) =>
    serialToLocalMs((placed.instantQuarters[row] ?? 0) / 96),
  );
  const channels: Partial<Record<Channel, Float64Array>> = {};
  for (const channel of CHANNELS) {
    const values = Float64Array.from(rows, (row) => readings.values[channel][row]!);
    if (values.some((value) => !Number.isNaN(value))) channels[channel] = values;
  }
  const rowOfStart = new Map(rows.map((row, i) => [startUtcMs[i]!, row]));
  const found: HalfHourlyReadings = { timeZone: String(inputs.home.timeZone), startUtcMs, channels };
  if (readings.estimated.some((mark) => mark === 1)) {
    found.estimated = Uint8Array.from(rows, (row) => readings.estimated[row]!);
  }
  return {
    readings: found,
    placeOf: (channel, start) => {
      const row = rowOfStart.get(start) ?? 0;
      return {
        file,
        line: `${SHEETS.readings}!${cellName(FIRST_ROW + row, columnNumber(READING[channel]))}`,
      };
    },
  };
}

/** What to do where readings of some days do not fit. */
function adviceOnRoom(file: string, days: number): string {
  return days > MOST_DAYS
    ? 'Keep this workbook, and fill the newest year into a copy with its readings cleared.'
    : `Carry the workbook over into one that holds more, and fill that: ${carryCall(file, `--days ${days}`)}.`;
}

/**
 * Readings as rows of the readings sheet.
 *
 * @param readings ascending, of the home's zone
 * @param file name of the workbook, for messages
 * @param shape how much the workbook holds
 * @returns one entry a row of the sheet
 * @throws InputError when they are more rows or days than the workbook holds
 */
export function readingRowsOf(readings: HalfHourlyReadings, file: string, shape: Shape): ReadingRows {
  const { startUtcMs } = readings;
  const count = startUtcMs.length;
  if (count > shape.readingRows) {
    throw new InputError(
      `the readings are ${count} half-hours, the workbook holds ${shape.readingRows}`,
      adviceOnRoom(file, Math.ceil((count - 2) / 48)),
      { file },
    );
  }
  const clock = new ZoneClock(readings.timeZone, startUtcMs[0] ?? 0, startUtcMs[count - 1] ?? 0);
  const rows = blankReadings(shape.readingRows);
  rows.count = count;
  for (let row = 0; row < count; row++) {
    const offset = clock.offsetMinutesAt(startUtcMs[row]!);
    rows.startSerial[row] = localMsToSerial(startUtcMs[row]! + offset * 60_000);
    rows.offsetHours[row] = offset / 60;
  }
  const days = Math.floor(rows.startSerial[count - 1] ?? 0) - Math.floor(rows.startSerial[0] ?? 0) + 1;
  if (days > shape.days) {
    throw new InputError(
      `the readings span ${days} days, the workbook holds ${shape.days}`,
      adviceOnRoom(file, days),
      { file },
    );
  }
  for (const channel of CHANNELS) {
    const values = readings.channels[channel];
    if (values !== undefined) rows.values[channel].set(values);
  }
  if (readings.estimated !== undefined) rows.estimated.set(readings.estimated);
  return rows;
}
