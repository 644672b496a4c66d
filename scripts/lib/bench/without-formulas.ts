import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

/** A sheet's cell, with its content or without; quotes keep a `>` in an attribute from ending it. */
const CELL = /<c(?=[\s>/])(?:[^>"]|"[^"]*")*?(?:\/>|>[\s\S]*?<\/c>)/g;
const SHEET = /^xl\/worksheets\/[^/]+\.xml$/;

/** A workbook that holds what was typed and no formula. */
export interface BareWorkbook {
  /** The .xlsx file. */
  bytes: Uint8Array;
  /** Cells that held a formula and are gone, value and all. */
  removedCells: number;
  /** Cells with a value that are left. */
  keptValues: number;
}

/**
 * The same workbook with its inputs only: what any program needs for the readings alone, and so the baseline for loading.
 * Sheets, rows, formats, charts and names stay.
 *
 * @param bytes an .xlsx file that this project wrote
 * @returns the file without its formula cells, and what was removed
 */
export function withoutFormulas(bytes: Uint8Array): BareWorkbook {
  const parts = unzipSync(bytes);
  let removedCells = 0;
  let keptValues = 0;
  for (const [name, part] of Object.entries(parts)) {
    if (!SHEET.test(name)) continue;
    const bare = strFromU8(part).replace(CELL, (cell) => {
      if (/<f[\s>/]/.test(cell)) {
        removedCells++;
        return '';
      }
      if (/<(?:v|is)[\s>]/.test(cell)) keptValues++;
      return cell;
    });
    parts[name] = strToU8(bare);
  }
  return { bytes: zipSync(parts, { level: 6 }), removedCells, keptValues };
}
