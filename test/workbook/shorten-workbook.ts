import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { FIRST_ROW, LAST_DAY_ROW, LAST_READING_ROW } from '../../src/workbook/layout.js';
import { sheetPart } from './edit-package.js';

/**
 * A copy of a workbook with fewer rows of half-hours and days, for an engine that a year is too much for: rows beyond
 * the last one kept are taken out, and every formula that reached to the old last row reaches to the new one.
 *
 * @param workbook bytes of a workbook whose readings end before the rows that are taken out
 * @param rows how many rows of half-hours and of days to keep
 * @returns bytes of the copy
 */
export function shortenWorkbook(workbook: Uint8Array, rows: { halfHours: number; days: number }): Uint8Array {
  const cuts = [
    { from: LAST_READING_ROW, to: FIRST_ROW + rows.halfHours - 1 },
    { from: LAST_DAY_ROW, to: FIRST_ROW + rows.days - 1 },
  ];
  const parts = unzipSync(workbook);
  for (const [name, bytes] of Object.entries(parts)) {
    if (!name.startsWith('xl/worksheets/sheet') && name !== 'xl/workbook.xml') continue;
    const xml = strFromU8(bytes);
    // A sheet of half-hours or days is one whose shared formulas reach to the last row of its kind.
    const own = cuts.find(({ from }) =>
      new RegExp(`<f t="shared" ref="[A-Z]+${FIRST_ROW}:[A-Z]+${from}"`).test(xml),
    );
    const cut = own ?? (xml.includes(`<row r="${LAST_READING_ROW}"`) ? cuts[0] : undefined);
    const kept = cut === undefined ? xml : withoutRows(xml, cut);
    parts[name] = strToU8(cuts.reduce((text, { from, to }) => shortenedRanges(text, from, to), kept));
  }
  return zipSync(parts, { level: 1 });
}

function withoutRows(xml: string, { from, to }: { from: number; to: number }): string {
  return xml
    .replace(/<row r="(\d+)"[^>]*?(?:\/>|>.*?<\/row>)/gs, (row, number: string) => {
      const at = Number(number);
      if (at <= to) return row;
      if (at <= from) return '';
      // A cell below the last row ends a running value: it moves up with the last row.
      const moved = to + at - from;
      return row
        .replace(`<row r="${at}"`, `<row r="${moved}"`)
        .replace(/ r="([A-Z]+)\d+"/g, (_, letters: string) => ` r="${letters}${moved}"`);
    })
    .replace(/<dimension [^>]*\/>/, '');
}

function shortenedRanges(xml: string, from: number, to: number): string {
  return xml.replace(/<f[^>]*>[^<]*<\/f>|<f[^>]*\/>|<definedName[^>]*>[^<]*/g, (formula) =>
    formula
      .replace(new RegExp(`(?<=ref="[A-Z]+\\d+:[A-Z]+)${from}(?!\\d)`), String(to))
      .replace(new RegExp(`(?<=[A-Z]\\$)${from}(?!\\d)`, 'g'), String(to))
      .replace(new RegExp(`(?<=[A-Z]\\$)${from + 1}(?!\\d)`, 'g'), String(to + 1)),
  );
}

/**
 * A copy of a workbook in which the formulas of some sheets are values: what an engine can't follow, it takes as given,
 * and everything that depends on it is still calculated.
 *
 * @param workbook bytes of a workbook that the project built
 * @param sheets names of the sheets
 */
export function withStoredValues(workbook: Uint8Array, sheets: readonly string[]): Uint8Array {
  const parts = unzipSync(workbook);
  for (const sheet of sheets) {
    const part = sheetPart(workbook, sheet);
    parts[part] = strToU8(strFromU8(parts[part]!).replace(/<f[^>]*>[^<]*<\/f>|<f[^>]*\/>/g, ''));
  }
  return zipSync(parts, { level: 1 });
}
