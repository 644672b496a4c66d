import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildTemplate } from '../../src/cli/build-template.js';
import { formatFilled } from '../../src/cli/format-filled.js';
import { formatVerification } from '../../src/cli/format-verification.js';
import { PATHS } from '../../src/cli/paths.js';
import { InputError } from '../../src/errors.js';
import { plainText, printable, shortened, shortQuotes } from '../../src/plain-text.js';
import { formatImportReport, importFiles } from '../../src/readings/index.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { TARIFF_ROW, tariffLetters } from '../../src/workbook/model/tariff-rows.js';
import { columnNumber, openWorkbookPackage } from '../../src/workbook/package/index.js';
import { verifyWorkbook } from '../../src/workbook/verify/verify-workbook.js';
import { octoberCsv } from '../workbook/template.js';

/** Clears a screen, turns the writing round, breaks the line, hides a joiner, rings. */
const HOSTILE = '\u001b[2J\u202edlog\u2066\u2028\u200b\r\nAll agree.\u0007\u009b1m\u007f';
const LONG = `${HOSTILE}${'n'.repeat(5000)}`;
/** Characters that a terminal obeys, except the ends of lines. */
const OBEYED = /[^\P{Cc}\n]|[\p{Cf}\p{Zl}\p{Zp}]/u;

describe('plain text', () => {
  it('shows what cannot be shown as a mark, breaks and tabs as blanks', () => {
    expect(plainText('Night\u202e\r\nrate\t\u001b[31m')).toBe('Night\ufffd rate \ufffd[31m');
    expect(plainText('Größe 12,5 °C – “ночь” 夜')).toBe('Größe 12,5 °C – “ночь” 夜');
  });
  it('of several lines keeps the ends of lines alone', () => {
    expect(printable('one\r\n\u001b[2Jtwo\n')).toBe('one\ufffd\n\ufffd[2Jtwo\n');
  });
  it('is shortened, and so are quotations within a message', () => {
    expect(shortened('a long name', 6)).toBe('a lon…');
    expect(shortQuotes(`"${LONG}" is not a date, "a" is`, 400)).toMatch(
      /^"[^"]{59}…" is not a date, "a" is$/,
    );
  });
});

it('every message of wrong input is one line of plain text, whatever it quotes', () => {
  const text = fc.oneof(fc.string({ unit: 'binary' }), fc.constantFrom(HOSTILE, LONG, `"${LONG}"`));
  fc.assert(
    fc.property(text, text, text, text, (found, whatToDo, file, line) => {
      const error = new InputError(`"${found}" is wrong`, `Correct "${whatToDo}".`, { line });
      expect(error.message).not.toMatch(/\n/);
      expect(error.message).not.toMatch(OBEYED);
      expect(error.message.length).toBeLessThan(80 + 400 + 1000 + 6);
      expect(new InputError(found, whatToDo, { file, line }).message).not.toMatch(/\n/);
    }),
    { seed: 7, numRuns: 500 },
  );
});

describe('names and cells of files', () => {
  const at = (i: number): string =>
    new Date(Date.UTC(2026, 0, 25) + i * 1_800_000).toISOString().slice(0, 16).replace('T', ' ');
  // Bytes below the blank are no text; marks of direction, and what Latin-1 calls controls, are.
  const cell = '\u202egnitset\u2066\u009b2J\u2028 remark';

  it.each([cell, `${cell}${'n'.repeat(5000)}`])(
    'reach the report as plain text within 80 columns',
    (name) => {
      const lines = Array.from({ length: 8 }, (_, i) => `${at(i)},0.${100 + i},away${name}`);
      const bytes = Buffer.from(['start,import kWh,event', ...lines].join('\n').replace('event', name));
      const { report } = importFiles([{ name: `${HOSTILE}.csv`, bytes }], { timeZone: 'Europe/London' });
      const text = formatImportReport(report);
      expect(text).not.toMatch(OBEYED);
      expect(text.split('\n').filter((line) => line.length > 80)).toEqual([]);
      expect(text.length).toBeLessThan(2500);
    },
  );

  it('reach a question as plain text, quoted no longer than a line', () => {
    const lines = Array.from({ length: 8 }, (_, i) => `${at(i)},0.1`);
    lines[4] = `${cell}${'n'.repeat(5000)},0.1`;
    const bytes = Buffer.from(['start,import kWh', ...lines].join('\n'));
    expect(() => importFiles([{ name: 'a.csv', bytes }], { timeZone: 'Europe/London' })).toThrow(
      /^a\.csv, line 6: "\ufffdgnitset\ufffd\ufffd2J\ufffd remarkn{30,40}…" is not a date\./,
    );
  });
});

it('names and cells of a workbook reach the terminal as plain text', async () => {
  const template = await buildTemplate(PATHS.sampleInputs, 31);
  const workbook = openWorkbookPackage(template, 'home.xlsx');
  const named = (values: string[]): void => {
    workbook.editSheet(SHEETS.tariffs, {
      inputs: [{ column: columnNumber(tariffLetters(0)), firstRow: TARIFF_ROW.name, values }],
    });
  };
  named([`Day${HOSTILE}`]);
  const bytes = Buffer.from(octoberCsv(1, 2));
  const imported = importFiles([{ name: `${HOSTILE}.csv`, bytes }], { timeZone: 'Europe/London' });
  const result = fillWorkbook(workbook.toBytes(), 'home.xlsx', imported);
  const altered = [{ sheet: SHEETS.answer, cell: 'B2', found: LONG }];
  const report = formatImportReport(imported.report);
  const filled = formatFilled({ result: { ...result, altered }, report, written: true }, 'home.xlsx');
  expect(filled).toContain('Day\ufffd[2J');
  expect(filled).not.toMatch(OBEYED);
  expect(filled.split('\n').filter((line) => line.length > 80)).toEqual([]);

  const verification = verifyWorkbook(result.bytes, 'home.xlsx');
  const [sheet, ...sheets] = verification.sheets;
  const differing = [{ sheet: SHEETS.answer, cell: 'B2', stored: LONG, expected: HOSTILE }];
  const verified = formatVerification({
    ...verification,
    agrees: false,
    sheets: [{ ...sheet!, altered, differing }, ...sheets],
  });
  expect(verified).not.toMatch(OBEYED);
  expect(verified.split('\n').filter((line) => line.length > 250)).toEqual([]);
});
