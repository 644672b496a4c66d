import { describe, expect, it } from 'vitest';
import {
  CHANNELS,
  formatImportReport,
  type ImportedReadings,
  importFiles,
} from '../../src/readings/index.js';
import { type SampleFile, sampleExtraMonthFiles, sampleFiles } from '../../src/sample/sample-files.js';
import { sampleExtraMonth, sampleYear } from '../../src/sample/sample-year.js';
import type { SampleYear } from '../../src/sample/simulate-home.js';

/** Imports with the home's zone as the only option: all else must be found in the files. */
function importSample(files: readonly SampleFile[]): ImportedReadings {
  const asBytes = files.map(({ name, text }) => ({ name, bytes: Buffer.from(text) }));
  return importFiles(asBytes, { timeZone: 'Europe/London' });
}

function expectReadings({ readings }: ImportedReadings, truth: SampleYear): void {
  expect(readings.timeZone).toBe(truth.timeZone);
  expect(readings.startUtcMs).toEqual(truth.startUtcMs);
  expect(Object.keys(readings.channels).sort()).toEqual([...CHANNELS].sort());
  for (const channel of CHANNELS) {
    const read = readings.channels[channel]!;
    const wrong = Array.from(read.keys()).filter((i) => !(Math.abs(read[i]! - truth[channel][i]!) < 1e-9));
    expect({ channel, wrong }).toEqual({ channel, wrong: [] });
  }
}

describe('importing the sample home', () => {
  const files = sampleFiles();
  const imported = importSample(files);

  it('gives back the very readings of the year, channel by channel', () => {
    expectReadings(imported, sampleYear());
  });

  it('gives back October 2026 from its one file', () => {
    expectReadings(importSample(sampleExtraMonthFiles()), sampleExtraMonth());
  });

  it('joins October to the year, in any order of files', () => {
    const { readings } = importSample([...sampleExtraMonthFiles(), ...files.toReversed()]);
    expect(readings.startUtcMs).toHaveLength(17_520 + 1_490);
    expect(readings.channels.importKwh!.subarray(0, 17_520)).toEqual(imported.readings.channels.importKwh);
    expect(readings.channels.importKwh!.subarray(17_520)).toEqual(sampleExtraMonth().importKwh);
  });

  it('finds no gap, duplicate, conflict or oddity, and has to assume nothing', () => {
    const { files: reports, channels } = imported.report;
    expect(reports.map(({ file }) => file)).toEqual(files.map(({ name }) => name));
    for (const { file, findings, assumptions, unusedColumns } of reports) {
      expect({ file, findings, assumptions, unusedColumns }).toEqual({
        file,
        findings: [],
        assumptions: [],
        unusedColumns: [],
      });
    }
    expect(channels.map(({ halfHours, missing }) => ({ halfHours, missing }))).toEqual(
      CHANNELS.map(() => ({ halfHours: 17_520, missing: 0 })),
    );
  });

  it('says in its report what it understood of each file', () => {
    const report = formatImportReport(imported.report).replace(/\s+/g, ' ');
    const partOf = (name: string): string => {
      const from = report.indexOf(`${name} lines`);
      return report.slice(from, report.indexOf(' found ', from));
    };
    expect(partOf('meter-2025-q4.csv')).toMatch(/4,418, one line an interval.*offset from UTC.*30 minutes/);
    expect(partOf('solar-and-battery.csv')).toMatch(
      /header on line 4.*byte-order mark.*semicolon.*decimal comma.*local time of Europe\/London.*day first/,
    );
    expect(partOf('heat-pump-electricity.csv')).toMatch(/365, one line a day.*heat pump, kWh/);
    expect(partOf('heat-pump-heat-output.csv')).toMatch(/365, one line a day.*heat output, Wh/);
    expect(partOf('car-charger.tsv')).toMatch(/tab.*car, kWh.*end of the interval.*15 minutes/);
    expect(partOf('outdoor-temperature.csv')).toMatch(/outdoor temperature, .*60 minutes/);
    expect(partOf('half-hourly-price.csv')).toMatch(/half-hourly price, p\/kWh.*30 minutes/);
  });
});
