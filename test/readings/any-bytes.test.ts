import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/errors.js';
import {
  formatImportReport,
  importFiles,
  importGasFiles,
  importTemperatureFiles,
} from '../../src/readings/index.js';

/** Imports, and lets through only the errors that a user can read. */
function importOrExplain(bytes: Uint8Array): void {
  for (const importer of [importFiles, importGasFiles, importTemperatureFiles]) {
    try {
      const { report } = importer([{ name: 'a.csv', bytes }], { timeZone: 'Europe/London' });
      expect(
        formatImportReport(report)
          .split('\n')
          .every((line) => line.length <= 80),
      ).toBe(true);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      expect(error.message).not.toMatch(/undefined|NaN|\[object/);
    }
  }
}

const cell = fc.oneof(
  fc.constantFrom(
    '',
    '0.5',
    '-1',
    '1,5',
    '=1+1',
    'n/a',
    'kWh',
    'import',
    'Date',
    'start',
    'end',
    'E',
    '24:00',
    '00:30',
    '1',
    '48',
    '"',
  ),
  fc.constantFrom(
    '2026-01-25',
    '25/01/2026 00:30',
    '2026-03-29 01:00',
    '2026-10-25T01:30',
    '2026-01-25T00:00Z',
    '01/02/26',
    '2026-13-45',
  ),
  fc.string({ maxLength: 6 }),
);
const table = fc
  .tuple(
    fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 8 }),
    fc.constantFrom(',', ';', '\t', '|'),
  )
  .map(([rows, delimiter]) => Buffer.from(rows.map((row) => row.join(delimiter)).join('\n')));

const GOOD = Buffer.from(
  [
    'Our home',
    'start,import kWh,outdoor °C,quality',
    ...Array.from({ length: 60 }, (_, i) => {
      const at = new Date(Date.UTC(2026, 2, 28, 12) + i * 1_800_000).toISOString().slice(0, 16);
      return `${at},0.${100 + i},${i % 9},A`;
    }),
  ].join('\r\n'),
);

describe('whatever the bytes, the answer is readings or a message that says what to do', () => {
  test('tables of scraps', () => {
    fc.assert(fc.property(table, importOrExplain), { seed: 7, numRuns: 400 });
  });
  test('bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 200 }), importOrExplain), { seed: 7, numRuns: 150 });
  });
  test('a good file with some bytes changed, cut or doubled', () => {
    const change = fc.array(fc.tuple(fc.nat(GOOD.length - 1), fc.nat(255)), { maxLength: 6 });
    fc.assert(
      fc.property(change, fc.nat(GOOD.length), fc.boolean(), (changes, length, doubled) => {
        const bytes = Buffer.from(GOOD);
        for (const [at, byte] of changes) bytes[at] = byte;
        const cut = bytes.subarray(0, length);
        importOrExplain(doubled ? Buffer.concat([cut, cut]) : cut);
      }),
      { seed: 7, numRuns: 150 },
    );
  });
});

test('one broken byte in a file marked as UTF-8 does not become part of its header', () => {
  const bytes = Buffer.from('\ufeffstart,import kWh\n2026-01-25 00:00,0.1\n2026-01-25 00:30,0.2\n');
  bytes[7] = 0xe9;
  const { report } = importFiles([{ name: 'a.csv', bytes }], { timeZone: 'Europe/London' });
  expect(report.files[0]!.columns[0]!.column).toBe('"staré"');
});
