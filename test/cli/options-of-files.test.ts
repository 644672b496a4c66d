import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { addFileOption } from '../../src/cli/file-option.js';
import { type FilledFile, fillFile } from '../../src/cli/fill-file.js';
import { optionsByKind, type SaidOptions } from '../../src/cli/options-by-kind.js';
import { Progress } from '../../src/cli/progress.js';
import { messageOf } from '../workbook/package/tiny-workbook.js';
import { template } from '../workbook/template.js';

const everyKind = { readings: ['may.csv'], gas: ['gas.csv'], temperature: ['weather.csv'] };

describe('what is said of files', () => {
  it('goes to the kind that holds the file', () => {
    const perFile = { 'gas.csv': { unit: 'm3' }, 'may.csv': { unit: 'Wh' } };
    expect(optionsByKind(everyKind, { perFile })).toEqual({
      readings: { perFile: { 'may.csv': { unit: 'Wh' } } },
      gas: { perFile: { 'gas.csv': { unit: 'm3' } } },
      temperature: {},
    });
  });

  it('is refused for a file that is of no kind', () => {
    const perFile = { 'gsa.csv': { unit: 'm3' } };
    expect(messageOf(() => optionsByKind(everyKind, { perFile }))).toBe(
      'InputError: options are given for "gsa.csv", which is not among the files. Give its name as in the list of files.',
    );
  });

  it('goes to the readings where it is said of all files', () => {
    expect(optionsByKind(everyKind, { unit: 'Wh', register: true })).toEqual({
      readings: { unit: 'Wh', register: true },
      gas: {},
      temperature: {},
    });
  });

  it('goes to the only kind that is given', () => {
    const gasAlone = { readings: [], gas: ['gas.csv'], temperature: [] };
    expect(optionsByKind(gasAlone, { unit: 'm3' }).gas).toEqual({ unit: 'm3' });
    const weatherAlone = { readings: [], gas: [], temperature: ['weather.csv'] };
    expect(optionsByKind(weatherAlone, { unit: 'degF' }).temperature).toEqual({ unit: 'degF' });
  });

  it.each([
    ['gas and temperatures', { ...everyKind, readings: [] }],
    ['nothing', { readings: [], gas: [], temperature: [] }],
  ])('of all is never dropped silently: with %s alone it is refused', (_, files) => {
    expect(messageOf(() => optionsByKind(files, { unit: 'm3' }))).toBe(
      'InputError: options are given for files of readings, and there is none. Say which file an option is for: --for FILE:OPTION=VALUE.',
    );
  });

  it('about conflicts holds for every kind', () => {
    const { readings, gas, temperature } = optionsByKind(everyKind, { onConflict: 'replace' });
    expect([readings, gas, temperature]).toEqual(Array(3).fill({ onConflict: 'replace' }));
  });
});

describe('--for', () => {
  it('gathers what is said of a file, the channels of its columns too', () => {
    const said = [
      'my gas.csv:unit=m3',
      'my gas.csv:channel=Used: a=b=gas',
      'my gas.csv:channel=Cost=ignore',
      'C:\\may.csv:stamp-zone=+01:00',
    ].reduce((all, text) => addFileOption(text, all), {});
    expect(said).toEqual({
      'my gas.csv': { unit: 'm3', channels: { 'Used: a=b': 'gas', Cost: 'ignore' } },
      'C:\\may.csv': { stampZone: '+01:00' },
    });
  });

  it.each(['gas.csv', 'gas.csv:unit', 'gas.csv:colour=red', ':unit=m3'])('is not written %s', (text) => {
    expect(() => addFileOption(text)).toThrow('Write FILE:OPTION=VALUE, where OPTION is one of channel, ');
  });
});

describe('a fill of readings and gas', () => {
  const folder = mkdtempSync(join(tmpdir(), 'options-of-files-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const put = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };
  const energy = Array.from({ length: 48 }, (_, i) => (i % 3) / 10);
  const stamp = (i: number): string => new Date(Date.UTC(2026, 11, 1) + i * 1_800_000).toISOString();
  const rows = energy.map((kwh, i) => `${stamp(i)},${kwh},0\n`);
  const readings = put('readings.csv', `Start,A,B\n${rows.join('')}`);
  const gas = put('gas.csv', 'From,To,Gas\n2024-12-01,2024-12-31,100\n2025-01-01,2025-01-31,160\n');
  const register = put('register.csv', 'Date,Value\n2024-12-01,100\n2025-01-15,160\n2025-02-01,200\n');

  async function filled(gasFile: string, importOptions: SaidOptions): Promise<FilledFile> {
    const workbook = join(folder, 'home.xlsx');
    writeFileSync(workbook, await template());
    return fillFile(
      {
        files: [readings],
        gasFiles: [gasFile],
        workbook,
        out: workbook,
        importOptions,
        save: async () => {},
      },
      new Progress({ write: () => true }),
    );
  }
  const channels = { A: 'importKwh', B: 'exportKwh' } as const;

  it('reads each by what was said of it', async () => {
    const { result, report } = await filled(register, {
      channels,
      perFile: { [register]: { unit: 'm3', register: true } },
    });
    expect(result).toMatchObject({ addedHalfHours: 48, gas: { added: 2 } });
    expect(report).toContain('Options of one of these files are written --for FILE:OPTION=VALUE.');
    // The values are those of intervals, not of a register, whatever the gas is.
    const imported = result.values.inputs.readings.values.importKwh.subarray(0, 48);
    expect([...imported]).toEqual(energy);
    expect(result.values.inputs.heating.gas[0]).toMatchObject({ volume: 60, volumeUnit: 'm3' });
  });

  it.each<[string, string, SaidOptions, string]>([
    ['unit', gas, { channels, unit: 'Wh' }, 'gas.csv, line 1: no unit of "Gas" is stated. '],
    [
      'kind of value',
      register,
      { channels, register: true, perFile: { [register]: { unit: 'm3' } } },
      'register.csv, line 1: "Value" only ever rises, like a cumulative register',
    ],
  ])('does not take the %s of the readings for that of the gas, and says how to give it', async (...row) => {
    const [, file, importOptions, found] = row;
    const message = await filled(file, importOptions).then(
      () => 'no error',
      (error: Error) => error.message.replaceAll(`${folder}/`, ''),
    );
    expect(message).toContain(found);
    expect(message).toMatch(/For this file, it is written --for (gas|register)\.csv:OPTION=VALUE\.$/);
  });
});
