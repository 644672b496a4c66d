import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { buildTemplate } from '../../src/cli/build-template.js';
import { carryFile } from '../../src/cli/carry-file.js';
import { fillFile } from '../../src/cli/fill-file.js';
import { PATHS } from '../../src/cli/paths.js';
import { Progress } from '../../src/cli/progress.js';
import { InputError } from '../../src/errors.js';
import { BATTERY_FIELDS } from '../../src/workbook/fields/battery-fields.js';
import { HOME_FIELDS } from '../../src/workbook/fields/home-fields.js';
import { TOLD } from '../../src/workbook/fields/told-places.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import {
  ratePeriodRows,
  TODAYS_TARIFF_CELL,
  tariffLetters,
  windowRows,
} from '../../src/workbook/model/tariff-rows.js';
import { verifyWorkbook } from '../../src/workbook/verify/verify-workbook.js';
import { formulaCell, numberCell, textCell, withCells } from './edit-package.js';
import { filledMonth, template } from './template.js';

const folder = mkdtempSync(join(tmpdir(), 'several-faults-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const quiet = new Progress({ write: () => true });
const home = join(folder, 'home.xlsx');

const RATE = `${tariffLetters(1)}${ratePeriodRows(0).base}`;
const STANDING = `${tariffLetters(0)}${ratePeriodRows(0).standing}`;
const RESERVE = BATTERY_FIELDS.reserveKwh.at;
const ZONE = HOME_FIELDS.timeZone.at;

async function refusalOf(work: () => Promise<unknown>): Promise<string[]> {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return error.message.replaceAll(`${folder}/`, '').split('\n');
  }
  return ['nothing refused'];
}

/** Lines of what a fill of a workbook refuses; the workbook stays as it is. */
async function refusedByFill(workbook: Uint8Array): Promise<string[]> {
  const files = [join(folder, 'november.csv')];
  writeFileSync(files[0]!, 'interval start,import kWh\n2026-11-01T00:00:00Z,0.2\n2026-11-01T00:30:00Z,0.3\n');
  writeFileSync(home, workbook);
  const lines = await refusalOf(() =>
    fillFile({ files, workbook: home, out: home, importOptions: {} }, quiet),
  );
  expect(Buffer.compare(readFileSync(home), workbook)).toBe(0);
  return lines;
}

describe('a fill tells all that is wrong at once', () => {
  it('each input on a line of its own, with its cell, what was found, and what to do', async () => {
    const slips = withCells(await template(), {
      [SHEETS.tariffs]: {
        [RATE]: textCell(RATE, '28,31 p'),
        [STANDING]: '',
        [TODAYS_TARIFF_CELL]: textCell(TODAYS_TARIFF_CELL, 'Old one'),
      },
      [SHEETS.battery]: { [RESERVE]: numberCell(RESERVE, -2) },
    });
    expect(await refusedByFill(slips)).toEqual([
      `home.xlsx, Tariffs!${STANDING}: the standing charge is missing. Type a number.`,
      `home.xlsx, Tariffs!${RATE}: the base rate is "28,31 p", not a number. Type a number.`,
      `home.xlsx, Tariffs!${TODAYS_TARIFF_CELL}: today's tariff "Old one" is none of the tariffs. Choose one of: Single rate, Two-rate night, Heat pump hours, Half-hourly price, Free weekend lunch, Old night meter.`,
      `home.xlsx, Battery!${RESERVE}: the battery's reserve is -2. Type a number from 0 and up to 1000, or clear the cell.`,
    ]);
  });

  it('a zone that is none among them, once', async () => {
    const slips = withCells(await template(), {
      [SHEETS.readings]: { [ZONE]: textCell(ZONE, 'Mars/Phobos') },
      [SHEETS.battery]: { [RESERVE]: numberCell(RESERVE, -2) },
    });
    const lines = await refusedByFill(slips);
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatch(/^home\.xlsx, Readings!A5: "Mars\/Phobos" is not a known time zone\. /);
    expect(lines[1]).toMatch(new RegExp(`^home\\.xlsx, Battery!${RESERVE}: `));
  });

  it('windows of one tariff that overlap beside a rate of another', async () => {
    const [from, to] = [windowRows(1).from, windowRows(1).to].map((row) => `${tariffLetters(1)}${row}`);
    const base = `${tariffLetters(0)}${ratePeriodRows(0).base}`;
    const rates = [0, 1].map((p) => `${tariffLetters(1)}${ratePeriodRows(p).windowRates[1]}`);
    const lines = await refusedByFill(
      withCells(await template(), {
        [SHEETS.tariffs]: {
          [base]: textCell(base, 'dear'),
          [from!]: numberCell(from!, 4 / 24),
          [to!]: numberCell(to!, 6 / 24),
          ...Object.fromEntries(rates.map((at) => [at, numberCell(at, 10)])),
        },
      }),
    );
    expect(lines).toHaveLength(2);
    expect(lines[0]).toContain(`Tariffs!${base}: the base rate is "dear"`);
    expect(lines[1]).toMatch(new RegExp(`Tariffs!${from!}: the windows .* overlap on Mon at 04:00`));
  });

  it('ten of them, then how many more', async () => {
    const text = (row: number): [string, string] => [`A${row}`, textCell(`A${row}`, '1 October')];
    const rows = (count: number) =>
      Object.fromEntries(Array.from({ length: count }, (_, i) => text(FIRST_ROW + i)));
    const twelve = await refusedByFill(withCells(await filledMonth(), { [SHEETS.readings]: rows(12) }));
    expect(twelve).toHaveLength(11);
    expect(twelve[0]).toBe(
      `home.xlsx, Readings!A${FIRST_ROW}: the date is text. Turn the column into real dates, or clear the row and fill it from the file.`,
    );
    expect(twelve[10]).toBe('and 2 more');
    const ten = await refusedByFill(withCells(await filledMonth(), { [SHEETS.readings]: rows(10) }));
    expect(ten).toHaveLength(10);
    expect(ten[9]).toContain(`Readings!A${FIRST_ROW + 9}: `);
  });

  it('cells that hold an error or no result, wherever they are, as verify does', async () => {
    const B = BATTERY_FIELDS.usableKwh.at;
    const slips = withCells(await filledMonth(), {
      [SHEETS.tariffs]: { [RATE]: `<c r="${RATE}" t="e"><v>#REF!</v></c>` },
      [SHEETS.battery]: { [B]: formulaCell(B, '1+1') },
      [SHEETS.readings]: { A8: formulaCell('A8', '1+1') },
    });
    const lines = [
      `home.xlsx, Tariffs!${RATE}: the cell holds #REF!. Correct its formula, or type the value.`,
      `home.xlsx, Battery!${B}: the cell holds a formula without a result. Open the workbook in a spreadsheet program and save it, or type the value.`,
      'home.xlsx, Readings!A8: the cell holds a formula without a result. Open the workbook in a spreadsheet program and save it, or type the value.',
    ];
    expect(await refusedByFill(slips)).toEqual(lines);
    expect(await refusalOf(async () => verifyWorkbook(slips, 'home.xlsx'))).toEqual(lines);
  });

  it('answers on Notes that can’t be used', async () => {
    const first = TOLD.firstRow;
    const { letters } = TOLD;
    const row = (i: number, kind: string, answer: string): Record<string, string> =>
      Object.fromEntries(
        (
          [
            ['columns', 'a; b'],
            ['kind', kind],
            ['answer', answer],
          ] as const
        ).map(([key, text]) => {
          const at = `${letters[key]}${first + i}`;
          return [at, textCell(at, text)];
        }),
      );
    const slips = withCells(await template(), {
      [TOLD.sheet]: { ...row(0, 'reading', 'unit=Wh'), ...row(1, 'readings', 'unit') },
    });
    const lines = await refusedByFill(slips);
    expect(lines.map((line) => line.split(': ').slice(0, 2).join(': '))).toEqual([
      `home.xlsx, ${TOLD.sheet}!${letters.kind}${first}: "reading" is none of readings, gas, temperatures. Correct the cell, or clear its row`,
      `home.xlsx, ${TOLD.sheet}!${letters.answer}${first + 1}: "unit" is not written OPTION=VALUE. Correct the cell, or clear its row`,
    ]);
  });
});

it('carry tells all that is wrong at once, and writes nothing', async () => {
  const out = join(folder, 'new.xlsx');
  writeFileSync(
    home,
    withCells(await template(), {
      [SHEETS.tariffs]: { [RATE]: textCell(RATE, '28,31 p') },
      [SHEETS.battery]: { [RESERVE]: numberCell(RESERVE, -2) },
    }),
  );
  const lines = await refusalOf(() => carryFile({ old: home, out }, quiet));
  expect(lines.map((line) => line.split(': ')[0])).toEqual([
    `home.xlsx, Tariffs!${RATE}`,
    `home.xlsx, Battery!${RESERVE}`,
  ]);
  expect(() => readFileSync(out)).toThrow('ENOENT');
});

describe('build tells all that is wrong in the starting inputs', () => {
  const path = join(folder, 'inputs.json');
  const refusedOf = (...changes: readonly (readonly [string, string])[]): Promise<string[]> => {
    const json = readFileSync(PATHS.sampleInputs, 'utf8');
    const changed = changes.reduce((text, [from, to]) => text.replace(from, to), json);
    writeFileSync(path, changed);
    return refusalOf(() => buildTemplate(path));
  };

  it('in what does not follow their shape', async () => {
    const lines = await refusedOf(
      ['"vatShare": 0.05', '"vatShare": "5 %"'],
      ['"currency"', '"curency"'],
      ['"baseRatePence": 27.1', '"baseRatePence": "27.1 p"'],
    );
    expect(lines).toEqual([
      'inputs.json, home.vatShare: this is a text, and a number without quotes belongs here. Correct it and try again.',
      'inputs.json, home.currency: this is missing. Give it: a text in quotes.',
      'inputs.json, home: "curency" is no name that stands here. Correct its spelling, or take it out.',
      'inputs.json, tariffs[0].ratePeriods[0].baseRatePence: this is a text, and a number without quotes belongs here. Correct it and try again.',
    ]);
  });

  it('in what they say', async () => {
    const lines = await refusedOf(
      ['Europe/London', 'Mars/Phobos'],
      ['"vatShare": 0.05', '"vatShare": 1'],
      ['[{ "from": "01:30"', '[{ "from": "01:20"'],
      ['"Heat pump hours"', '"single RATE"'],
      ['"todaysTariff": "Two', '"todaysTariff": "Three'],
    );
    expect(lines.map((line) => line.split(': ')[0])).toEqual([
      'inputs.json, home.timeZone',
      'inputs.json, home.vatShare',
      'inputs.json, tariffs[1].windows[0].from',
      'inputs.json, tariffs[2].name',
      'inputs.json, todaysTariff',
    ]);
  });
});

describe('build tells slips of every kind in one run', () => {
  const path = join(folder, 'slips.json');
  // biome-ignore lint/suspicious/noExplicitAny: the file may hold anything.
  async function refusedWith(slip: (inputs: any) => void): Promise<string[]> {
    const inputs = JSON.parse(readFileSync(PATHS.sampleInputs, 'utf8'));
    slip(inputs);
    writeFileSync(path, JSON.stringify(inputs));
    return refusalOf(() => buildTemplate(path));
  }
  const placesOf = (lines: readonly string[]): string[] =>
    lines.map((line) => line.split(': ')[0]!.replace('slips.json, ', ''));

  it('of shape, of meaning, and what a fill would refuse', async () => {
    const lines = await refusedWith(({ home, tariffs, battery, ...inputs }) => {
      home.largestHalfHourKwh = 'twelve';
      home.vatShare = 1;
      tariffs[0].ratePeriods[0].standingChargePencePerDay = 4000;
      tariffs[1].windows[0].to = '25:00';
      tariffs[1].exitFeePounds = -5;
      tariffs[1].ratePeriods[0].baseRatePence = '27.1';
      tariffs[1].ratePeriods[0].exportRatePence = 1001;
      battery.chargeKw = 0;
      battery.usableKwh = '9.5';
      inputs.heating.settings.boilerEficiency = 0.8;
      inputs.heating.settings.gasPrice = 6;
      inputs.heating.rates[1].from = '1 January';
      inputs.bills.rows[0].totalPounds = '£220';
      inputs.timers.car.from = '7 pm';
    });
    expect(lines.at(-1)).toBe('and 3 more');
    expect(placesOf(lines.slice(0, 10))).toEqual([
      'home.largestHalfHourKwh',
      'battery.usableKwh',
      'heating.rates[1].from',
      'tariffs[1].windows[0].to',
      'tariffs[1].ratePeriods[0].baseRatePence',
      'bills.rows[0].totalPounds',
      'timers.car.from',
      'home.vatShare',
      'tariffs[1].exitFeePounds',
      'heating.settings.boilerEficiency',
    ]);
  });

  it('a cell beside a slip of shape', async () => {
    const lines = await refusedWith(({ tariffs, battery }) => {
      tariffs[1].ratePeriods[0].baseRatePence = '27.1';
      tariffs[1].ratePeriods[0].exportRatePence = 1001;
      battery.chargeKw = 0;
    });
    expect(placesOf(lines)).toEqual([
      'tariffs[1].ratePeriods[0].baseRatePence',
      `Tariffs!${tariffLetters(1)}${ratePeriodRows(0).exportRate}`,
      `Battery!${BATTERY_FIELDS.chargeKw.at}`,
    ]);
  });

  it.each<[string, (window: { from: string; to: string; days?: string }) => void, string]>([
    ['an end of 25:00', (window) => Object.assign(window, { to: '25:00' }), 'to'],
    ['a start that is no time', (window) => Object.assign(window, { from: 'night' }), 'from'],
    ['a start off the half-hour', (window) => Object.assign(window, { from: '01:10' }), 'from'],
    ['no length', (window) => Object.assign(window, { from: '05:00', to: '05:00' }), 'to'],
    ['days that are none', (window) => Object.assign(window, { days: 'Funday' }), 'days'],
  ])('one of a window, once, whatever the window meets: %s', async (_, slip, part) => {
    const lines = await refusedWith(({ tariffs }) => {
      const [, { windows, ratePeriods }] = tariffs;
      slip(windows[0]);
      windows.push({ from: '04:00', to: '06:00' });
      for (const { windowRatesPence } of ratePeriods) windowRatesPence.push(12);
    });
    expect(placesOf(lines)).toEqual([`tariffs[1].windows[0].${part}`]);
  });

  it('the others of a tariff whose window has one', async () => {
    const lines = await refusedWith(({ tariffs }) => {
      const [, { windows, ratePeriods }] = tariffs;
      windows[0].to = '25:00';
      windows.push({ from: '04:00', to: '06:00' }, { from: '05:00', to: '07:00' });
      ratePeriods[0].windowRatesPence.push(12, 13);
      ratePeriods[1].windowRatesPence.push(12);
    });
    expect(placesOf(lines)).toEqual([
      'tariffs[1].windows[0].to',
      'tariffs[1].windows[2]',
      'tariffs[1].ratePeriods[1].windowRatesPence[2]',
    ]);
  });

  it('no tariff missing where its name could not be read', async () => {
    const lines = await refusedWith(({ tariffs }) => {
      tariffs[1].name = 5;
    });
    expect(placesOf(lines)).toEqual(['tariffs[1].name']);
  });

  it.each(['home', 'battery', 'heating', 'tariffs'])('a part that is missing, once: %s', async (part) => {
    const lines = await refusedWith((inputs) => {
      delete inputs[part];
    });
    expect(placesOf(lines)).toEqual([part]);
  });
});

it('one fault alone is told as ever', async () => {
  const slip = withCells(await template(), { [SHEETS.tariffs]: { [RATE]: textCell(RATE, 'dear') } });
  expect(await refusedByFill(slip)).toEqual([
    `home.xlsx, Tariffs!${RATE}: the base rate is "dear", not a number. Type a number.`,
  ]);
});
