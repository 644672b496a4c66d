import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { readInputs, shapeOfWorkbook } from '../../../src/workbook/inputs/read-inputs.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { keptFile, sourceKey } from '../kept-file.js';
import { sampleGas, sampleReadings } from '../sample-workbooks.js';
import { template } from '../template.js';

/** Half-hours of the year before each month: October has 25 hours on one day. */
const OCTOBER_ENDS = 31 * 48 + 2;
const NOVEMBER_ENDS = OCTOBER_ENDS + 30 * 48;
const DECEMBER_ENDS = NOVEMBER_ENDS + 31 * 48;

/** What is missing in {@link gappyYear}: channel, first half-hour, half-hour after the last. */
const GAPS = [
  // No heat meter in November, a gap of two days in December.
  ['heatOutputKwh', OCTOBER_ENDS, NOVEMBER_ENDS],
  ['heatOutputKwh', NOVEMBER_ENDS + 200, NOVEMBER_ENDS + 300],
  // One day of December without all its temperatures.
  ['outdoorC', NOVEMBER_ENDS + 480, NOVEMBER_ENDS + 500],
  // Two days of February without the heat pump.
  ['heatPumpKwh', DECEMBER_ENDS + 1600, DECEMBER_ENDS + 1680],
] as const;

/** The same with gaps in November, December and February. */
export function gappyYear(): Promise<Uint8Array> {
  return keptFile('gappy-year.xlsx', sourceKey(), async () => {
    const { readings, placeOf } = sampleReadings();
    const channels = { ...readings.channels };
    for (const [channel, from, to] of GAPS) {
      channels[channel] = channels[channel]!.map((value, i) => (i >= from && i < to ? Number.NaN : value));
    }
    const gappy = { readings: { ...readings, channels }, placeOf };
    return fillWorkbook(await template(), 'home.xlsx', gappy, sampleGas()).bytes;
  });
}

/** What the input cells of a workbook hold. */
export function inputsOf(workbook: Uint8Array): WorkbookInputs {
  const opened = openWorkbookPackage(workbook, 'home.xlsx');
  return readInputs(opened, shapeOfWorkbook(opened));
}
