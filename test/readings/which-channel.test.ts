import { describe, expect, test } from 'vitest';
import { importFiles, mergeReadings } from '../../src/readings/index.js';
import { importText, messageOf } from './import-text.js';

const at = (i: number): string =>
  new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16).replace('T', ' ');
const rows = (value: string, n = 4): string[] => Array.from({ length: n }, (_, i) => `${at(i)},${value}`);
const channelsOf = (...call: Parameters<typeof importText>): string[] =>
  Object.keys(importText(...call).readings.channels);

describe('what the user says a file holds', () => {
  test.each(['Electricity consumed (kWh)', 'Import (kWh)', 'kWh', 'Energy'])('holds under "%s"', (header) => {
    const lines = [`start,${header}`, ...rows('0.3')];
    expect(channelsOf(lines, { defaultChannel: 'heatPumpKwh' })).toEqual(['heatPumpKwh']);
    expect(channelsOf(lines, { perFile: { 'readings.csv': { defaultChannel: 'heatPumpKwh' } } })).toEqual([
      'heatPumpKwh',
    ]);
  });
  test('against a sure word, the report says so', () => {
    const { report } = importText(['start,Import (kWh)', ...rows('0.3')], { defaultChannel: 'carKwh' });
    expect(report.files[0]!.assumptions[0]).toBe(
      '"Import (kWh)" is carKwh, as told, though its name says importKwh',
    );
  });
  test('is of the column that can hold it, the others keep their words', () => {
    const lines = ['start,Energy (kWh),price p/kWh,Cost (p)', ...rows('0.3,20,6')];
    expect(channelsOf(lines, { defaultChannel: 'carKwh' })).toEqual(['carKwh', 'pricePence']);
  });
  test('does not rename columns that are all named', () => {
    const lines = ['start,Import (kWh),Export (kWh)', ...rows('0.3,0.1')];
    expect(channelsOf(lines, { defaultChannel: 'carKwh' })).toEqual(['importKwh', 'exportKwh']);
  });
});

describe('a word that could mean several channels', () => {
  const lines = ['start,Electricity consumed', ...rows('0.3')];
  test('is said as assumed', () => {
    expect(importText(lines).report.files[0]!.assumptions).toContain(
      '"Electricity consumed" is importKwh, as its name suggests (--default-channel says otherwise)',
    );
    const beside = ['start,Electricity consumed,export kWh', ...rows('0.3,0.1')];
    expect(importText(beside).report.files[0]!.assumptions[0]).toBe(
      '"Electricity consumed" is importKwh, as its name suggests (--channel "Electricity consumed=…" says otherwise)',
    );
  });
  test('is asked about where the name of the file, or a title, says another', () => {
    expect(messageOf(() => importText(lines, {}, 'heat-pump-2026.csv'))).toBe(
      'InputError: heat-pump-2026.csv, line 1: "Electricity consumed" could be importKwh, as its name suggests, or heatPumpKwh, as the name of the file says. Say which: --default-channel importKwh or --default-channel heatPumpKwh.',
    );
    expect(messageOf(() => importText(['Readings of the heat pump', ...lines]))).toContain(
      'or heatPumpKwh, as line 1 says',
    );
    expect(channelsOf(lines, { defaultChannel: 'importKwh' }, 'heat-pump-2026.csv')).toEqual(['importKwh']);
  });
  test('a download called an export says nothing', () => {
    expect(channelsOf(lines, {}, 'export-2026-01.csv')).toEqual(['importKwh']);
  });
  test('a conflict does not advise to let it win over another meter', () => {
    const meter = importText(['start,import kWh', ...rows('0.3')], {}, 'meter.csv');
    const other = importText(['start,Electricity consumed', ...rows('0.4')], {}, 'other.csv');
    const says =
      /^InputError: other.csv, line 2: importKwh of 2026-01-25 00:00 is 0.4 here and 0.3 in .*, and 3 more such. That other.csv holds importKwh is stated nowhere: if it is of another channel, say so with --for "other.csv:default-channel=CHANNEL". If it is importKwh, remove the wrong value, or let the later file win: --replace\.$/;
    expect(messageOf(() => mergeReadings([meter, other]))).toMatch(says);
    const file = (name: string, text: string[]) => ({ name, bytes: Buffer.from(text.join('\n')) });
    const files = [
      file('meter.csv', ['start,import kWh', ...rows('0.3')]),
      file('other.csv', ['start,Electricity consumed', ...rows('0.4')]),
    ];
    expect(messageOf(() => importFiles(files, { timeZone: 'Europe/London' }))).toMatch(says);
  });
});

describe('a register read up to 23:30', () => {
  const reads = (days: number, from = 0): string[] =>
    Array.from({ length: days * 48 }, (_, i) => `${at(from + i)},${1000 + (from + i) / 4}`);
  const header = 'time,import register kWh';
  test('says that its last half-hour is open, and what closes it', () => {
    const { report } = importText([header, ...reads(2)]);
    expect(report.files[0]!.findings).toMatchObject([
      {
        kind: 'register end',
        count: 1,
        places: [{ line: 97, text: 'the last read is of 2026-01-26 23:30' }],
      },
    ]);
  });
  test('given with the next file, nothing is open between them', () => {
    const file = (name: string, lines: string[]) => ({
      name,
      bytes: Buffer.from([header, ...lines].join('\n')),
    });
    const { readings, report } = importFiles([file('a.csv', reads(2)), file('b.csv', reads(1, 96))], {
      timeZone: 'Europe/London',
    });
    expect(readings.startUtcMs.length).toBe(143);
    expect(report.files[0]!.findings).toEqual([]);
    expect(report.files[1]!.findings).toMatchObject([{ kind: 'register end', count: 1 }]);
  });
});
