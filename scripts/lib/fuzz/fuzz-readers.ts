import {
  type FileReport,
  type ImportOptions,
  importFiles,
  importGasFiles,
  importTemperatureFiles,
} from '../../../src/readings/index.js';

/** A value that a file gave, and the line (from 1) that it stands on; NaN where the reader names none. */
interface FoundValue {
  value: number;
  line: number;
}

/** What came of a file: values and marks by channel and instant, and the report. */
export interface Understood {
  values: Map<string, FoundValue>;
  report: FileReport;
}

/** Reads a file of one kind, as the import does. */
export type FuzzReader = (bytes: Uint8Array) => Understood;

const FILE = 'a.csv';
const OPTIONS = { timeZone: 'Europe/London' };

/**
 * A reader of electricity.
 *
 * @param options what the user says of the file
 * @returns the reader
 */
export const electricityReader =
  (options: Partial<ImportOptions> = {}): FuzzReader =>
  (bytes) => {
    const { readings, report, placeOf } = importFiles([{ name: FILE, bytes }], { ...OPTIONS, ...options });
    const values: Understood['values'] = new Map();
    for (const [channel, column] of Object.entries(readings.channels)) {
      column.forEach((value, i) => {
        if (Number.isNaN(value)) return;
        const utcMs = readings.startUtcMs[i]!;
        const line = numberOf(placeOf(channel as keyof typeof readings.channels, utcMs).line);
        values.set(`${channel} ${utcMs}`, { value, line });
        if (readings.estimated?.[i] === 1) values.set(`mark ${utcMs}`, { value: 1, line });
      });
    }
    return { values, report: report.files[0]! };
  };

/** The number of a line, or of a row of a sheet. */
const numberOf = (place: string | number | undefined): number => Number(/\d+$/.exec(String(place))?.[0]);

/** Reads gas. */
export const gasReader: FuzzReader = (bytes) => {
  const { periods, report } = importGasFiles([{ name: FILE, bytes }], OPTIONS);
  const keyed = periods.map(({ unit, fromSerial, toSerial, value }): [string, FoundValue] => [
    `gas ${unit} ${fromSerial.toFixed(4)} ${toSerial.toFixed(4)}`,
    { value, line: Number.NaN },
  ]);
  return { values: new Map(keyed), report: report.files[0]! };
};

/** Reads temperatures by day. */
export const temperatureReader: FuzzReader = (bytes) => {
  const { daily, report } = importTemperatureFiles([{ name: FILE, bytes }], OPTIONS);
  const keyed = daily.flatMap(({ serialDay, ...own }) =>
    Object.entries(own).map(([channel, value]): [string, FoundValue] => [
      `${channel} ${serialDay}`,
      { value, line: Number.NaN },
    ]),
  );
  return { values: new Map(keyed), report: report.files[0]! };
};
