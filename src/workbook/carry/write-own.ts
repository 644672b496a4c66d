import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { escapeXml, openWorkbookPackage, type WorkbookPackage } from '../package/index.js';
import { ZIP_DATE } from '../package/zip-date.js';
import { carryStyles } from './carry-styles.js';
import { insertCells, type NewCell } from './insert-cells.js';
import type { OwnParts } from './own-parts.js';

const STYLES = 'xl/styles.xml';
const WORKBOOK = 'xl/workbook.xml';

/**
 * Writes the user's own cells, sheets and names into a new workbook that was built with empty sheets for them.
 *
 * @param built the new workbook as built
 * @param old the workbook that they come from, for their formats
 * @param own what is written
 * @returns the new workbook with them
 */
export function writeOwn(built: Uint8Array, old: WorkbookPackage, own: OwnParts): Uint8Array {
  const cells = [...own.sheets, ...own.beside].flatMap((part) => part.cells);
  if (cells.length + own.sheets.length + own.names.length === 0) return built;
  const entries = unzipSync(built);
  const fresh = openWorkbookPackage(built, old.fileName);
  const edit = (part: string, change: (xml: string) => string): void => {
    const bytes = entries[part];
    if (bytes === undefined) throw new Error(`the built workbook has no ${part}`);
    entries[part] = strToU8(change(strFromU8(bytes)));
  };
  let styleOf: ReadonlyMap<number, number> = new Map();
  edit(STYLES, (xml) => {
    const used = cells.map(({ style }) => style).filter((style) => style !== 0);
    const carried = carryStyles(String(old.readPart(STYLES) ?? '<styleSheet/>'), xml, used);
    styleOf = carried.styleOf;
    return used.length === 0 ? xml : carried.xml;
  });
  const restyled = (list: readonly NewCell[]): NewCell[] =>
    list.map((cell) => ({ ...cell, style: styleOf.get(cell.style) ?? 0 }));
  for (const { sheet, cells: list } of own.beside) {
    edit(fresh.sheetPart(sheet), (xml) => insertCells(xml, restyled(list)));
  }
  for (const { name, cells: list, columns, mergedCells } of own.sheets) {
    edit(fresh.sheetPart(name), (xml) =>
      insertCells(xml, restyled(list))
        .replace(/<cols>[\s\S]*?<\/cols>/, '')
        .replace('<sheetData>', () => `${columns}<sheetData>`)
        .replace('</sheetData>', () => `</sheetData>${mergedCells}`),
    );
  }
  if (own.names.length > 0) {
    const names = own.names
      .map(({ name, text }) => `<definedName name="${escapeXml(name)}">${escapeXml(text)}</definedName>`)
      .join('');
    edit(WORKBOOK, (xml) => xml.replace('</definedNames>', () => `${names}</definedNames>`));
  }
  // The sheets are packed anew when values are filled in.
  return zipSync(entries, { level: 1, mtime: ZIP_DATE });
}
