import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { deflateEntry, inflateEntry, readZip, writeZip, type ZipEntry } from '../../src/zip/zip-container.js';

/** Changes of parts: text of the old part to text of the new one. */
export type PartEdits = Record<string, (xml: string) => string>;

/**
 * A workbook with some parts changed and some added; the rest is copied as it is packed.
 *
 * @param bytes the workbook
 * @param edits changes by part; a change that changes nothing is refused, so that no test goes blind
 * @param added new parts
 */
export function withParts(
  bytes: Uint8Array,
  edits: PartEdits,
  added: Record<string, string | Uint8Array> = {},
): Uint8Array {
  const entries = readZip(bytes, 'home.xlsx');
  const pack = (old: ZipEntry, content: string | Uint8Array): ZipEntry =>
    deflateEntry(old, typeof content === 'string' ? Buffer.from(content) : content, 1);
  const edited = entries.map((entry) => {
    const edit = edits[entry.name];
    if (edit === undefined) return entry;
    const xml = inflateEntry(entry, 'home.xlsx').toString();
    const now = edit(xml);
    if (now === xml) throw new Error(`nothing to change in ${entry.name}`);
    return pack(entry, now);
  });
  for (const part of Object.keys(edits)) {
    if (!entries.some(({ name }) => name === part)) throw new Error(`no part ${part}`);
  }
  const more = Object.entries(added).map(([name, content]) =>
    pack({ ...entries[0]!, name, nameBytes: Buffer.from(name) }, content),
  );
  return writeZip([...edited, ...more]);
}

/** Part that holds a sheet of a workbook that the project built. */
export function sheetPart(bytes: Uint8Array, sheet: string): string {
  const names = openWorkbookPackage(bytes, 'home.xlsx').sheetNames();
  return `xl/worksheets/sheet${names.indexOf(sheet) + 1}.xml`;
}

/** XML of cells by their name; '' takes the cell out. */
export type CellEdits = Record<string, string>;

/** A workbook with some cells replaced, each whole. */
export function withCells(bytes: Uint8Array, sheets: Record<string, CellEdits>): Uint8Array {
  const edits: PartEdits = {};
  for (const [sheet, cells] of Object.entries(sheets)) {
    edits[sheetPart(bytes, sheet)] = (xml) =>
      Object.entries(cells).reduce((now, [cell, replacement]) => replaceCell(now, cell, replacement), xml);
  }
  return withParts(bytes, edits);
}

/** Replaces a cell, or adds it at the end of its row. */
function replaceCell(xml: string, cell: string, replacement: string): string {
  const pattern = new RegExp(`<((?:\\w+:)?)c r="${cell}"(?:[^>]*/>|[^>]*[^/]>[\\s\\S]*?</\\1c>)`);
  if (pattern.test(xml)) return xml.replace(pattern, () => replacement);
  const row = new RegExp(`(<row r="${cell.replace(/\D/g, '')}"(?:[^>]*[^/])?>[\\s\\S]*?)</row>`);
  if (!row.test(xml)) throw new Error(`no row for cell ${cell}`);
  return xml.replace(row, (_, inner: string) => `${inner}${replacement}</row>`);
}

/** XML of a cell with a number. */
export function numberCell(cell: string, value: number): string {
  return `<c r="${cell}"><v>${value}</v></c>`;
}

/** XML of a cell with a text. */
export function textCell(cell: string, text: string): string {
  return `<c r="${cell}" t="inlineStr"><is><t>${text}</t></is></c>`;
}

/** XML of a cell with a formula, and its stored value where there is one. */
export function formulaCell(cell: string, formula: string, value?: number): string {
  return `<c r="${cell}"><f>${formula}</f>${value === undefined ? '' : `<v>${value}</v>`}</c>`;
}
