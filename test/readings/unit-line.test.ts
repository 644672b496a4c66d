import { describe, expect, test } from 'vitest';
import { readingsSheet } from '../../src/workbook/sheets/readings.js';
import { shapeOf } from '../../src/workbook/sheets/shape.js';
import { importText } from './import-text.js';

const values = (n: number, i: number): string =>
  Array.from({ length: n }, (_, k) => (k + i + 1) / 10).join(',');
const rows = (n: number): string[] =>
  [0, 1, 2, 0].map((i, at) => `2026-01-05 0${at >> 1}:${at % 2 === 0 ? '00' : '30'},${values(n, i)}`);

describe('a line of units below the names', () => {
  test('our own Readings saved as CSV, with its rows of title and hints', () => {
    const { columns } = readingsSheet(shapeOf(400)).sheet;
    const quoted = (texts: readonly string[]): string => texts.map((text) => `"${text}"`).join(',');
    const labels = columns.map(({ text }) => text.label);
    const units = columns.map(({ text }) => text.unit.replace('{minor}', 'p'));
    const blanks = ','.repeat(labels.length - 1);
    const body = [0, 1, 2].map((i) => {
      const energy = Array.from({ length: labels.length - 5 }, (_, k) => ((k + i) % 4) / 10);
      return (
        ['05/01/2026 00:00', '05/01/2026 00:30', '13/01/2026 00:00'][i] +
        `,0,${energy.join(',')},4.${i},27.5,${i === 1 ? 'E' : ''}`
      );
    });
    const { readings, report } = importText([
      `Readings${blanks}`,
      `One row a half-hour${blanks}`,
      blanks,
      quoted(labels),
      quoted(units),
      ...body,
      blanks,
    ]);
    expect(Object.keys(readings.channels)).toEqual([
      'importKwh',
      'exportKwh',
      'solarKwh',
      'batteryInKwh',
      'batteryOutKwh',
      'heatPumpKwh',
      'heatOutputKwh',
      'carKwh',
      'outdoorC',
      'pricePence',
    ]);
    expect(readings.channels.pricePence![0]).toBe(27.5);
    expect(Array.from(readings.estimated!)).toEqual([0, 1, 0]);
    expect(report.files[0]?.lines).toEqual({
      all: 9,
      readings: 3,
      withoutValue: 0,
      header: 2,
      above: [1, 2],
      blank: 2,
    });
    expect(report.files[0]?.unusedColumns).toEqual(['"Clock offset (h from UTC, may stay blank)"']);
  });

  test.each<[string, string[], number]>([
    ['words about the stamp', ['Time,Import,Export', 'local time,Wh,Wh'], 0.0001],
    ['nothing below the stamp', ['Time,Import,Export', ',Wh,Wh'], 0.0001],
    ['the header told', ['Time,Import,Export', 'local time,kWh,kWh'], 0.1],
  ])('with %s', (what, header, first) => {
    const { readings, report } = importText(
      [...header, ...rows(2)],
      what === 'the header told' ? { headerLine: 1 } : {},
    );
    expect(readings.channels.importKwh![0]).toBeCloseTo(first, 12);
    expect(readings.channels.exportKwh![0]).toBeCloseTo(2 * first, 12);
    expect(report.files[0]?.lines.header).toBe(2);
  });

  test('what it says of the stamp holds: its zone and its end', () => {
    const { report } = importText(['Time,Import', 'interval end (UTC),kWh', ...rows(1)]);
    expect(report.files[0]).toMatchObject({ clock: 'UTC', stamp: 'end of the interval' });
  });

  test('a title above a header is no line of names', () => {
    const { report } = importText([
      'Home of the Smiths,Consumption report',
      'Interval end (UTC),kWh',
      ...rows(1),
    ]);
    expect(report.files[0]).toMatchObject({ clock: 'UTC', stamp: 'end of the interval', headerLine: 2 });
  });
});
