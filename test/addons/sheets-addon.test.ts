import { type Context, createContext, runInContext } from 'node:vm';
import { beforeAll, describe, expect, it } from 'vitest';
import { SHEETS_SCRIPT, sheetsAddonFiles } from '../../src/addons/sheets/sheets-addon-files.js';
import { describedFunctions } from '../../src/functions/index.js';
import { expectCells } from './agree.js';

type Called = (...args: unknown[]) => unknown;

let script: string;
let bare: Context;
let files: ReadonlyMap<string, string | Uint8Array>;

beforeAll(async () => {
  files = await sheetsAddonFiles('Europe/London');
  script = files.get(SHEETS_SCRIPT) as string;
  // The language and nothing else: no Node, no browser, no Apps Script service.
  bare = createContext({});
  runInContext(script, bare);
});

const named = (context: Context, cellName: string) => context[cellName] as Called;

describe('the Apps Script project', () => {
  it('is a manifest and one script', () => {
    expect([...files.keys()]).toEqual(['appsscript.json', 'Code.gs']);
    expect(JSON.parse(files.get('appsscript.json') as string)).toMatchObject({
      timeZone: 'Europe/London',
      runtimeVersion: 'V8',
    });
  });

  it('refuses a time zone that is none', async () => {
    await expect(sheetsAddonFiles('Europe/Nowhere')).rejects.toThrow(RangeError);
  });

  it('declares every function with its parameters and completion help, and no other global but the library', () => {
    const globals = Object.keys(bare).sort();
    expect(globals).toEqual(
      [...describedFunctions.map(({ cellName }) => cellName), 'homeTariffFunctions'].sort(),
    );
    for (const { cellName, summary, arguments: all } of describedFunctions) {
      expect(named(bare, cellName)).toHaveLength(all.length);
      const end = script.indexOf(`function ${cellName}(`);
      const help = script.slice(script.lastIndexOf('/**', end), end);
      expect(help).toContain(summary);
      expect(help).toContain('@customfunction');
      expect(help.match(/@param/g) ?? []).toHaveLength(all.length);
      for (const { name, description } of all) {
        expect(help).toContain(name);
        expect(help).toContain(description);
      }
    }
  });

  it.each(describedFunctions.map((described) => ({ cellName: described.cellName, described })))(
    'gives the example of $cellName in a bare context, blank cells as empty texts',
    ({ described: { cellName, example } }) => {
      const empty = (value: unknown): unknown => (Array.isArray(value) ? value.map(empty) : (value ?? ''));
      expectCells(named(bare, cellName)(...example.arguments.map(empty)), example.result);
    },
  );

  it('throws an error whose message names the argument', () => {
    expect(() => named(bare, 'ADD_VAT')('x', 0.05)).toThrow('amount is "x"');
    expect(() => named(bare, 'ADD_VAT')('', 0.05)).toThrow('amount is blank');
    expect(() => named(bare, 'ADD_VAT')(100)).toThrow('vatShare is blank');
    expect(() => named(bare, 'ENERGY_COST')([[1], [2]], [[10], ['#N/A']])).toThrow(
      'unitRatePence is "#N/A" in row 2',
    );
  });

  it('reads dates and times of cells by the wall clock', () => {
    const date = (text: string) => runInContext(`new Date(${text})`, bare) as Date;
    const table = [
      ['', '', '', 27.5, '', 50],
      [date('1899, 11, 30, 0, 30'), date('1899, 11, 30, 4, 30'), 'Every day', 13.5, '', ''],
    ];
    expect(named(bare, 'UNIT_RATE')(date('2026, 0, 1, 0, 30'), table)).toBe(13.5);
    expect(named(bare, 'UNIT_RATE')(date('2026, 0, 1, 4, 30'), table)).toBe(27.5);
    expect(named(bare, 'STANDING_CHARGE')(date('2026, 0, 1'), date('2026, 0, 31'), 50)).toBe(15.5);
  });

  it('says so where the script’s time zone is not the spreadsheet’s', () => {
    const shownAt = (minutesLater: number) => {
      const context = createContext({
        SpreadsheetApp: { getActive: () => ({ getSpreadsheetTimeZone: () => 'Asia/Kolkata' }) },
        Utilities: {
          // What the spreadsheet shows: the script's own clock, and so many minutes.
          formatDate: (shown: Date) => {
            const later = new Date(shown.getTime() + minutesLater * 60_000);
            const offset = later.getTimezoneOffset() * 60_000;
            return new Date(later.getTime() - offset).toISOString().slice(0, 19);
          },
        },
      });
      runInContext(script, context);
      const [first, last] = [new Date(2026, 0, 1), new Date(2026, 0, 31)];
      return () => named(context, 'STANDING_CHARGE')(first, last, 50);
    };
    expect(shownAt(0)()).toBe(15.5);
    expect(shownAt(330)).toThrow('time zone of the script is not that of the spreadsheet (Asia/Kolkata)');
  });
});
