import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { buildTemplate } from '../../src/cli/build-template.js';
import { type FillFileOptions, fillFile } from '../../src/cli/fill-file.js';
import { PATHS } from '../../src/cli/paths.js';
import { Progress } from '../../src/cli/progress.js';
import { HOME_FIELDS } from '../../src/workbook/fields/home-fields.js';
import { checkInputs } from '../../src/workbook/inputs/check-inputs.js';
import { readInputs, shapeOfWorkbook } from '../../src/workbook/inputs/read-inputs.js';
import { blankTariffCells } from '../../src/workbook/inputs/tariff-cells.js';
import type { TariffCells } from '../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS, TARIFF_COUNT } from '../../src/workbook/layout.js';
import { DAYS_CELL, LAYOUT_CELL, LAYOUT_VERSION } from '../../src/workbook/model/notes-sheet.js';
import {
  ratePeriodRows,
  TARIFF_ROW,
  TODAYS_TARIFF_CELL,
  tariffLetters,
  windowRows,
} from '../../src/workbook/model/tariff-rows.js';
import { openWorkbookPackage, type SaveFileSystem, saveBeside } from '../../src/workbook/package/index.js';
import { layout2Workbook } from './carry/layout-2.js';
import { layout4Workbook } from './carry/layout-4.js';
import { workbookInPlace } from './carry/workbook-in-place.js';
import { numberCell, sheetPart, textCell, withCells, withParts } from './edit-package.js';
import { householdWorkbook } from './package/household-workbook.js';
import { filledMonth, octoberCsv, template } from './template.js';

const [ZONE, VAT] = [HOME_FIELDS.timeZone.at, HOME_FIELDS.vatShare.at];

const folder = mkdtempSync(join(tmpdir(), 'bad-input-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const quiet = new Progress({ write: () => true });
const november = 'interval start,import kWh\n2026-11-01T00:00:00Z,0.2\n2026-11-01T00:30:00Z,0.3\n';

/** Every file of the folder with a hash of what it holds. */
function contents(): Record<string, string> {
  return Object.fromEntries(
    readdirSync(folder)
      .sort()
      .map((name) => [
        name,
        createHash('sha256')
          .update(readFileSync(join(folder, name)))
          .digest('hex'),
      ]),
  );
}

/** Fills readings into a workbook and gives the message; whatever happens, the folder must stay as it was. */
async function messageOfFill(
  workbook: Uint8Array,
  readings: string | Uint8Array = november,
  more: Partial<FillFileOptions> = {},
): Promise<string> {
  const paths = { workbook: join(folder, 'home.xlsx'), readings: join(folder, 'readings.csv') };
  writeFileSync(paths.workbook, workbook);
  writeFileSync(paths.readings, readings);
  const before = contents();
  let message = 'no error';
  try {
    const options = {
      files: [paths.readings],
      workbook: paths.workbook,
      out: paths.workbook,
      importOptions: {},
    };
    await fillFile({ ...options, ...more }, quiet);
  } catch (error) {
    message = `${(error as Error).name}: ${(error as Error).message}`;
  }
  expect(contents()).toEqual(before);
  return message.replaceAll(`${folder}/`, '');
}

describe('a file of readings that is none', () => {
  it.each<[string, string | Uint8Array, string]>([
    ['empty', '', 'readings.csv: the file is empty. Export the readings again.'],
    ['only blank lines', '\n\n', 'readings.csv'],
    [
      'of words',
      'Dear diary,\ntoday it rained.\n',
      'readings.csv, line 1: no line holds a date and a value; the first is "Dear diary,"',
    ],
    [
      'binary',
      Uint8Array.from({ length: 3000 }, (_, i) => (i * 97) % 256),
      'readings.csv: the file is binary, not text.',
    ],
    [
      'only a header',
      'interval start,import kWh\n',
      'readings.csv, line 1: no line holds a date and a value',
    ],
    [
      'without a column of values',
      'interval start,note\n2026-11-01T00:00:00Z,cold\n2026-11-01T00:30:00Z,mild\n',
      'readings.csv, line 1',
    ],
    [
      'without a column of times',
      'import kWh\n0.2\n0.3\n',
      'readings.csv, line 1: no line holds a date and a value',
    ],
    ['with a text for a value', `${november}2026-11-01T01:00:00Z,lots\n`, 'readings.csv, line 4'],
    ['with a line cut short', `${november}2026-11-01T01:0`, 'readings.csv, line 4'],
  ])('%s', async (_, readings, message) => {
    const found = await messageOfFill(await template(), readings);
    expect(found).toContain(`InputError: ${message}`);
    expect(found).toMatch(/\. .+\.$/);
  });

  it('is not there, or a folder', async () => {
    const bytes = await template();
    expect(await messageOfFill(bytes, november, { files: [join(folder, 'none.csv')] })).toBe(
      'InputError: none.csv: there is no such file. Check the path.',
    );
    expect(await messageOfFill(bytes, november, { files: [folder] })).toContain(
      'this is a folder. Give the files in it.',
    );
  });

  it('is the very workbook that is to be filled', async () => {
    const files = [join(folder, 'readings.csv'), join(folder, '.', 'home.xlsx')];
    expect(await messageOfFill(await template(), november, { files })).toBe(
      'InputError: home.xlsx: the workbook that is to be filled stands among the files of readings. Name the files of your meter instead; without files the stored values are worked out anew.',
    );
  });

  it('is a workbook with several sheets that may hold readings', async () => {
    expect(await messageOfFill(await template(), await template())).toMatch(
      /^InputError: readings.csv: the sheets ".*" may all hold readings\. Say which: --sheet/,
    );
  });
});

describe('a workbook that is none of ours', () => {
  it.each<[string, () => Uint8Array | Promise<Uint8Array>, string]>([
    ['empty', () => new Uint8Array(), 'home.xlsx: the file is empty. Choose a workbook (.xlsx).'],
    [
      'a text',
      () => Buffer.from('date,kWh\n'),
      'home.xlsx: this is a text file, not a workbook. Choose a file that a spreadsheet program saved as .xlsx.',
    ],
    [
      'binary',
      () => Uint8Array.from({ length: 500 }, (_, i) => (i * 89) % 256),
      'home.xlsx: this is not a workbook. Choose a file that a spreadsheet program saved as .xlsx.',
    ],
    [
      'another spreadsheet',
      householdWorkbook,
      'home.xlsx: this is a spreadsheet, but not a home tariff workbook. Start from workbook-template/home-tariff-workbook.xlsx.',
    ],
    [
      'cut short',
      async () => (await template()).subarray(0, 500_000),
      'home.xlsx: the workbook is damaged: its end is missing, as after a broken download or copy. Open it in a spreadsheet program and save it again as .xlsx, or go back to an earlier copy.',
    ],
    [
      'without a sheet',
      async () =>
        withParts(await template(), {
          'xl/workbook.xml': (xml) => xml.replace('name="Days"', 'name="Tage"'),
        }),
      'home.xlsx: the sheet "Days" is missing. Give it its name back, or start from a fresh template.',
    ],
    [
      'of another layout',
      async () => {
        const bytes = await template();
        return withParts(bytes, {
          'xl/workbook.xml': (xml) =>
            xml.replace(/(<definedName name="[^"]*layout[^"]*">)[^<]*/i, '$1Notes!$Z$99'),
          [sheetPart(bytes, SHEETS.notes)]: (xml) =>
            xml.replace(/<sheetData>[\s\S]*<\/sheetData>/, '<sheetData/>'),
        });
      },
      'home.xlsx: the workbook has layout unknown, this version writes layout ',
    ],
    [
      'of layout 2',
      async () =>
        withCells(await template(), { [SHEETS.notes]: { [LAYOUT_CELL]: numberCell(LAYOUT_CELL, 2) } }),
      `home.xlsx: the workbook has layout 2, this version writes layout ${LAYOUT_VERSION}. Carry it over into a new one: npm run carry -- home.xlsx --out NEW.xlsx (installed: home-tariff carry home.xlsx --out NEW.xlsx).`,
    ],
    [
      'of layout 2, as it was built',
      async () => layout2Workbook(),
      `home.xlsx: the workbook has layout 2, this version writes layout ${LAYOUT_VERSION}. Carry it over into a new one: npm run carry -- home.xlsx`,
    ],
    ...([5, 6, 7] as const).map((layout): [string, () => Promise<Uint8Array>, string] => [
      `of layout ${layout}, as it was built`,
      async () => workbookInPlace(layout),
      `home.xlsx: the workbook has layout ${layout}, this version writes layout ${LAYOUT_VERSION}. Carry it over into a new one: npm run carry -- home.xlsx --out NEW.xlsx`,
    ]),
    [
      'of layout 4, as it was built',
      async () => layout4Workbook(),
      `home.xlsx: the workbook has layout 4, this version writes layout ${LAYOUT_VERSION}. Carry it over into a new one: npm run carry -- home.xlsx --out NEW.xlsx`,
    ],
    [
      'of a newer layout',
      async () =>
        withCells(await template(), { [SHEETS.notes]: { [LAYOUT_CELL]: numberCell(LAYOUT_CELL, 99) } }),
      `home.xlsx: the workbook has layout 99, this version writes layout ${LAYOUT_VERSION}. Use the newer version of this program.`,
    ],
    [
      'that does not say how much it holds',
      async () => withCells(await template(), { [SHEETS.notes]: { [DAYS_CELL]: '' } }),
      'home.xlsx, Notes!B5: the workbook does not say how many days it holds (found null). Give the cell its number back, or start from a fresh template.',
    ],
    [
      'counting from 1904',
      async () =>
        withParts(await template(), {
          'xl/workbook.xml': (xml) => xml.replace(/<workbookPr[^>]*\/>/, '<workbookPr date1904="1"/>'),
        }),
      'home.xlsx: the workbook counts dates from 1904. Switch the 1904 date system off',
    ],
  ])('%s', async (_, workbook, message) => {
    expect(await messageOfFill(await workbook())).toContain(`InputError: ${message}`);
  });

  it('a zip that would unpack to gigabytes is refused by what it claims', async () => {
    const bytes = Buffer.from(await template());
    // The directory's record of the largest sheet: 4 bytes of unpacked size at offset 24.
    const at = bytes.lastIndexOf(sheetPart(bytes, SHEETS.halfHours)) - 46;
    bytes.writeUInt32LE(3_900_000_000, at + 24);
    expect(await messageOfFill(bytes)).toBe(
      'InputError: home.xlsx: it unpacks to more than 600 MB. A workbook of half-hourly readings is far smaller. Check where this file comes from.',
    );
  });

  it('is not there', async () => {
    expect(await messageOfFill(await template(), november, { workbook: join(folder, 'none.xlsx') })).toBe(
      'InputError: none.xlsx: there is no such file. Check its path, or build a workbook (npm run build) and copy it there.',
    );
  });
});

describe('inputs of a workbook that can’t be worked with', () => {
  const column = tariffLetters(1);
  const windows = [windowRows(0), windowRows(1)];
  const rates = ratePeriodRows(0);
  const half = 1 / 48;
  const laterWindow = `${column}${ratePeriodRows(1).windowRates[3]}`;

  it.each<[string, string, Record<string, string>, string]>([
    [
      'a rate that is text',
      SHEETS.tariffs,
      { [`${column}${rates.base}`]: textCell(`${column}${rates.base}`, '28,31 p') },
      `Tariffs!${column}${rates.base}: the base rate is "28,31 p", not a number. Type a number.`,
    ],
    [
      'a tariff without a rate',
      SHEETS.tariffs,
      { [`${column}${rates.base}`]: '' },
      `Tariffs!${column}${rates.base}: the base rate is missing. Type a number.`,
    ],
    [
      'a window without a rate',
      SHEETS.tariffs,
      { [`${column}${rates.windowRates[0]}`]: '' },
      `Tariffs!${column}${rates.windowRates[0]}: the rate in window 1 is missing. Type a number.`,
    ],
    [
      'a window off the half-hour',
      SHEETS.tariffs,
      { [`${column}${windows[0]!.from}`]: numberCell(`${column}${windows[0]!.from}`, 20 / 1440) },
      `Tariffs!${column}${windows[0]!.from}: `,
    ],
    [
      'a window without an end',
      SHEETS.tariffs,
      { [`${column}${windows[0]!.to}`]: '' },
      `Tariffs!${column}${windows[0]!.to}: the end of window 1 is missing. Type a number.`,
    ],
    [
      'two windows that overlap',
      SHEETS.tariffs,
      {
        [`${column}${windows[1]!.from}`]: numberCell(`${column}${windows[1]!.from}`, 4 * 2 * half),
        [`${column}${windows[1]!.to}`]: numberCell(`${column}${windows[1]!.to}`, 6 * 2 * half),
        [`${column}${rates.windowRates[1]}`]: numberCell(`${column}${rates.windowRates[1]}`, 10),
        [`${column}${ratePeriodRows(1).windowRates[1]}`]: numberCell(
          `${column}${ratePeriodRows(1).windowRates[1]}`,
          10,
        ),
      },
      `Tariffs!${column}${windows[1]!.from}: the windows 01:30–05:00 (Every day) and 04:00–06:00 (Every day) overlap on Mon at 04:00. Change the times or days of one of them.`,
    ],
    [
      'days that are none',
      SHEETS.tariffs,
      { [`${column}${windows[0]!.days}`]: textCell(`${column}${windows[0]!.days}`, 'Funday') },
      `Tariffs!${column}${windows[0]!.days}: the days "Funday" are not understood`,
    ],
    [
      'an unknown clock',
      SHEETS.tariffs,
      { [`${column}${TARIFF_ROW.clock}`]: textCell(`${column}${TARIFF_ROW.clock}`, 'lunar') },
      `Tariffs!${column}${TARIFF_ROW.clock}: "lunar" is no choice here. Write local or utc.`,
    ],
    [
      'a tariff of today that is none',
      SHEETS.tariffs,
      { [TODAYS_TARIFF_CELL]: textCell(TODAYS_TARIFF_CELL, 'Old one') },
      `Tariffs!${TODAYS_TARIFF_CELL}: today's tariff "Old one" is none of the tariffs. Choose one of: `,
    ],
    [
      'two tariffs of one name',
      SHEETS.tariffs,
      { [`${column}${TARIFF_ROW.name}`]: textCell(`${column}${TARIFF_ROW.name}`, 'single RATE') },
      `Tariffs!${column}${TARIFF_ROW.name}: two tariffs are called "single RATE". Give each a name of its own.`,
    ],
    [
      'a rate in a window that there is not',
      SHEETS.tariffs,
      {
        [`${column}${rates.windowRates[3]}`]: numberCell(`${column}${rates.windowRates[3]}`, 9.5),
      },
      `Tariffs!${column}${rates.windowRates[3]}: window 4 has a rate but no times. Type the times of the window, or clear the rate.`,
    ],
    [
      'a later rate in a window that there is not',
      SHEETS.tariffs,
      { [laterWindow]: numberCell(laterWindow, 9.5) },
      `Tariffs!${laterWindow}: window 4 has a rate but no times. Type the times of the window, or clear the rate.`,
    ],
    [
      'a tariff whose name was taken out',
      SHEETS.tariffs,
      { [`${column}${TARIFF_ROW.name}`]: '' },
      `Tariffs!${column}${TARIFF_ROW.name}: the column has rates or windows but no name. Type a name, or clear them.`,
    ],
    [
      'an error value',
      SHEETS.tariffs,
      { [`${column}${rates.base}`]: `<c r="${column}${rates.base}" t="e"><v>#REF!</v></c>` },
      `Tariffs!${column}${rates.base}: the cell holds #REF!. Correct its formula, or type the value.`,
    ],
    [
      'an unknown zone',
      SHEETS.readings,
      { [ZONE]: textCell(ZONE, 'Mars/Phobos') },
      'Readings!A5: "Mars/Phobos" is not a known time zone. Give an IANA name such as Europe/London or Australia/Sydney.',
    ],
    [
      'no zone',
      SHEETS.readings,
      { [ZONE]: '' },
      'Readings!A5: the time zone is missing. Give an IANA name such as Europe/London.',
    ],
    [
      'a zone that is an error',
      SHEETS.readings,
      { [ZONE]: `<c r="${ZONE}" t="e"><v>#N/A</v></c>` },
      'Readings!A5: the cell holds #N/A.',
    ],
    ['VAT in percent', SHEETS.tariffs, { [VAT]: numberCell(VAT, 5) }, 'Tariffs!E3: '],
    [
      'VAT that is text',
      SHEETS.tariffs,
      { [VAT]: textCell(VAT, 'five') },
      'Tariffs!E3: the VAT is "five", not a number. Type a number.',
    ],
  ])('%s', async (_, sheet, cells, message) => {
    const found = await messageOfFill(withCells(await template(), { [sheet]: cells }));
    // A tariff without its name is missed by the bills that name it too: what was slipped stands first.
    expect(found.replace(/^InputErrors/, 'InputError')).toMatch(/^InputError: home\.xlsx, /);
    expect(found.split('\n')[0]).toContain(`: home.xlsx, ${message}`);
    expect(found).toMatch(/\. .+\.$/);
  });

  it('a column without a name may be blank, and nothing else', async () => {
    const workbook = openWorkbookPackage(await template(), 'home.xlsx');
    const inputs = readInputs(workbook, shapeOfWorkbook(workbook));
    const last = TARIFF_COUNT - 1;
    const check = (change: (cells: TariffCells) => void): ReturnType<typeof checkInputs> => {
      const cells = blankTariffCells();
      change(cells);
      return checkInputs({ ...inputs, tariffs: inputs.tariffs.with(last, cells) }, 'home.xlsx');
    };
    expect(check(() => {})[last]).toBeUndefined();
    const message = `home.xlsx, Tariffs!${tariffLetters(last)}${TARIFF_ROW.name}: the column has rates or windows but no name. Type a name, or clear them.`;
    for (const change of [
      (cells) => {
        cells.periods[0]!.base = 9.5;
      },
      (cells) => {
        cells.periods[2]!.exportRate = 9.5;
      },
      (cells) => {
        cells.windows[3]!.from = half;
      },
    ] satisfies ((cells: TariffCells) => void)[]) {
      expect(() => check(change)).toThrow(message);
    }
  });

  it('an unknown zone on the command line', async () => {
    expect(await messageOfFill(await template(), november, { timeZone: 'Mars/Phobos' })).toBe(
      'InputError: --time-zone: "Mars/Phobos" is not a known time zone. Give an IANA name such as Europe/London or Australia/Sydney.',
    );
  });

  it('a reading below the last row', async () => {
    const bytes = await template();
    const part = sheetPart(bytes, SHEETS.readings);
    const below = withParts(bytes, {
      [part]: (xml) =>
        xml.replace('</sheetData>', '<row r="19300"><c r="A19300"><v>46000</v></c></row></sheetData>'),
    });
    expect(await messageOfFill(below)).toBe(
      'InputError: home.xlsx, Readings!A19300: there is a reading below row 19209, the last that the workbook counts. Carry the workbook over into one that holds more: npm run carry -- home.xlsx --out NEW.xlsx (installed: home-tariff carry home.xlsx --out NEW.xlsx).',
    );
  });
});

describe('a place that can’t be written', () => {
  const failing = (code: string) => async (path: string, bytes: Uint8Array) => {
    const fileSystem = await import('node:fs/promises');
    const broken: SaveFileSystem = {
      ...fileSystem,
      open: async (name, flags, mode) => {
        const handle = await fileSystem.open(name, flags, mode);
        const writeFile = async (content: string | Uint8Array): Promise<void> => {
          await handle.writeFile((content as Uint8Array).subarray(0, 1000));
          throw Object.assign(new Error(code), { code });
        };
        return {
          writeFile,
          sync: () => handle.sync(),
          chmod: (m) => handle.chmod(m),
          chown: (u, g) => handle.chown(u, g),
          close: () => handle.close(),
        };
      },
    };
    await saveBeside(path, bytes, { fileSystem: broken });
  };

  it('a full disk leaves the old workbook whole and nothing beside it', async () => {
    expect(await messageOfFill(await template(), november, { save: failing('ENOSPC') })).toBe(
      'InputError: home.xlsx: the disk is full. The old file is as it was. Free some space and try again.',
    );
  });

  it('no permission', async () => {
    expect(await messageOfFill(await template(), november, { save: failing('EACCES') })).toBe(
      'InputError: home.xlsx: there is no permission to write here. The old file is as it was. Choose another place for the workbook, or allow writing.',
    );
  });

  it.each(['.~lock.home.xlsx#', '~$home.xlsx'])('a workbook that is open elsewhere (%s)', async (lock) => {
    writeFileSync(join(folder, lock), '');
    const message = await messageOfFill(await template());
    rmSync(join(folder, lock));
    expect(message).toBe(
      `InputError: home.xlsx: the workbook is open in another program. Close it there and try again. If no program has it open, delete the leftover file '${lock}'.`,
    );
  });

  it('a folder that does not exist', async () => {
    expect(await messageOfFill(await template(), november, { out: join(folder, 'none', 'home.xlsx') })).toBe(
      'InputError: none/home.xlsx: the folder does not exist. Make the folder, or choose another place.',
    );
  });
});

describe('readings that contradict the workbook', () => {
  it('are refused, and the workbook stays as it was', async () => {
    const again = octoberCsv(1, 1).replace(/,\d\.\d+/, ',9.999');
    expect(await messageOfFill(await filledMonth(), again)).toMatch(
      /^InputError: readings\.csv, line 2: importKwh of 2026-10-01 00:00 is 9\.999 here and 0 in home\.xlsx, Readings!C8\./,
    );
  });
});

describe('starting inputs that are wrong', () => {
  it.each<[string, (json: string) => string, string]>([
    ['no JSON', () => 'hello', 'inputs.json, line 1: this is not JSON'],
    [
      'a comma too many',
      (json) => json.replace('"batteryRan": true', '"batteryRan": true,'),
      'inputs.json, line 9: this is not JSON',
    ],
    [
      'a rate that is text',
      (json) => json.replace('"baseRatePence": 27.1', '"baseRatePence": "27.1 p"'),
      'inputs.json, tariffs[0].ratePeriods[0].baseRatePence: ',
    ],
    [
      'a window off the half-hour',
      (json) => json.replace('[{ "from": "01:30"', '[{ "from": "01:20"'),
      'inputs.json, tariffs[1].windows[0].from',
    ],
    [
      'windows that overlap',
      (json) => json.replace('"from": "12:30"', '"from": "06:00"'),
      'inputs.json, tariffs[2].windows[1]',
    ],
    [
      'a window without a rate',
      (json) => json.replace('"windowRatesPence": [9.7]', '"windowRatesPence": []'),
      'inputs.json, tariffs[1].ratePeriods[0]',
    ],
    [
      'an unknown zone',
      (json) => json.replace('Europe/London', 'Mars/Phobos'),
      'inputs.json, home.timeZone: "Mars/Phobos" is not a known time zone.',
    ],
    [
      'VAT of the whole price',
      (json) => json.replace('"vatShare": 0.05', '"vatShare": 1'),
      'inputs.json, home.vatShare: the VAT rate 1 is not a share from 0 to 1. Write 5 % as 5% or 0.05.',
    ],
    [
      'a name that spreadsheets take for a wildcard',
      (json) => json.replace('"Heat pump hours"', '"Heat pump *"'),
      'inputs.json, tariffs[2].name: the tariff\'s name "Heat pump *" holds *, ? or ~, which spreadsheets take for wildcards. Leave them out.',
    ],
    [
      'two names that differ by case alone',
      (json) => json.replace('"Heat pump hours"', '"single RATE"'),
      'inputs.json, tariffs[2].name: two tariffs are called "single RATE". Give each a name of its own.',
    ],
    [
      'a tariff of today that is none',
      (json) => json.replace('"todaysTariff": "Two', '"todaysTariff": "Three'),
      'inputs.json, todaysTariff: no tariff is called',
    ],
  ])('%s', async (_, change, message) => {
    const path = join(folder, 'inputs.json');
    const json = readFileSync(PATHS.sampleInputs, 'utf8');
    expect(change(json)).not.toBe(json);
    writeFileSync(path, change(json));
    const found = await buildTemplate(path).then(
      () => 'no error',
      (error: Error) => `${error.name}: ${error.message}`,
    );
    expect(found.replaceAll(`${folder}/`, '')).toContain(`InputError: ${message}`);
  });
});
