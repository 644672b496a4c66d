import { InputError } from '../../errors.js';
import { readXml } from '../read-xml.js';
import { cellAt } from './cell-address.js';
import { type ShownAs, shownAs } from './number-format.js';
import type { PackageParts } from './package-parts.js';
import { serialText } from './serial-text.js';
import { SheetBuilder, type SheetCells } from './sheet-cells.js';

/** A sheet of a workbook, its cells read when asked for. */
export interface SheetPart {
  name: string;
  hidden: boolean;
  cells: () => SheetCells;
}

/**
 * Lists the sheets of an .xlsx file, by whatever program. (Layout: ECMA-376 part 1, 12.3 and 18.)
 *
 * @param parts the package
 * @param file name for messages
 * @returns its sheets of cells in their order; sheets of charts are left out
 * @throws InputError where parts that the package speaks of are missing or not well-formed
 * @example xlsxSheets(parts, 'may.xlsx')[0]?.name // 'Readings'
 */
export function xlsxSheets(parts: PackageParts, file: string): SheetPart[] {
  const root = relationsOf(parts, '', file).find(({ type }) => type.endsWith('/officeDocument'));
  const path = root?.target ?? 'xl/workbook.xml';
  const listed: { name: string; id: string; hidden: boolean }[] = [];
  let is1904 = false;
  readXml(partText(parts, path, file), file, {
    open: (name, at) => {
      if (name === 'workbookPr') is1904 = at.date1904 === '1' || at.date1904 === 'true';
      if (name === 'sheet')
        listed.push({ name: at.name ?? '', id: at.id ?? '', hidden: (at.state ?? 'visible') !== 'visible' });
    },
    close: () => {},
    text: () => {},
  });
  const relations = relationsOf(parts, path, file);
  const targetOf = (kind: string): string | undefined =>
    relations.find(({ type }) => type.endsWith(`/${kind}`))?.target;
  let shared: string[] | undefined;
  let formats: (ShownAs | undefined)[] | undefined;
  return listed.flatMap(({ name, id, hidden }): SheetPart[] => {
    const relation = relations.find((one) => one.id === id);
    if (relation === undefined || !relation.type.endsWith('/worksheet')) return [];
    const cells = (): SheetCells => {
      shared ??= sharedStrings(parts, targetOf('sharedStrings'), file);
      formats ??= cellFormats(parts, targetOf('styles'), file);
      const xml = partText(parts, relation.target, file);
      return { name, hidden, is1904, rows: rowsOf(xml, { file, shared, formats, is1904 }) };
    };
    return [{ name, hidden, cells }];
  });
}

function partText(parts: PackageParts, name: string, file: string): string {
  const text = parts.text(name);
  if (text !== undefined) return text;
  throw new InputError(
    `the file is damaged: its part '${name}' is missing`,
    'Open it in a spreadsheet program and save it again as .xlsx.',
    { file },
  );
}

/** What a part refers to; targets as names of parts. */
function relationsOf(
  parts: PackageParts,
  path: string,
  file: string,
): { id: string; type: string; target: string }[] {
  const slash = path.lastIndexOf('/');
  const folder = path.slice(0, slash + 1);
  const xml = parts.text(`${folder}_rels/${path.slice(slash + 1)}.rels`);
  const list: { id: string; type: string; target: string }[] = [];
  if (xml === undefined) return list;
  readXml(xml, file, {
    open: (name, at) => {
      if (name !== 'Relationship' || at.TargetMode === 'External') return;
      list.push({ id: at.Id ?? '', type: at.Type ?? '', target: resolved(folder, at.Target ?? '') });
    },
    close: () => {},
    text: () => {},
  });
  return list;
}

function resolved(folder: string, target: string): string {
  if (target.startsWith('/')) return target.slice(1);
  const steps = folder.split('/').filter((step) => step !== '');
  for (const step of target.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '.') steps.push(step);
  }
  return steps.join('/');
}

/** Texts that cells refer to by number; runs of one text joined, phonetic hints left out. */
function sharedStrings(parts: PackageParts, path: string | undefined, file: string): string[] {
  const list: string[] = [];
  if (path === undefined) return list;
  let text: string | undefined;
  let inText = false;
  let phonetic = 0;
  readXml(partText(parts, path, file), file, {
    open: (name) => {
      if (name === 'si') text = '';
      else if (name === 'rPh') phonetic++;
      else if (name === 't') inText = phonetic === 0;
    },
    close: (name) => {
      if (name === 'si') list.push(text ?? '');
      else if (name === 'rPh') phonetic--;
      else if (name === 't') inText = false;
    },
    text: (more) => {
      if (inText) text += more;
    },
  });
  return list;
}

/** What each cell format shows a number as. */
function cellFormats(parts: PackageParts, path: string | undefined, file: string): (ShownAs | undefined)[] {
  if (path === undefined) return [];
  const codes = new Map<number, string>();
  const ids: number[] = [];
  let inCells = false;
  readXml(partText(parts, path, file), file, {
    open: (name, at) => {
      if (name === 'numFmt') codes.set(Number(at.numFmtId), at.formatCode ?? '');
      else if (name === 'cellXfs') inCells = true;
      else if (name === 'xf' && inCells) ids.push(Number(at.numFmtId ?? 0));
    },
    close: (name) => {
      if (name === 'cellXfs') inCells = false;
    },
    text: () => {},
  });
  return ids.map((id) => shownAs(id, codes.get(id)));
}

interface SheetContext {
  file: string;
  shared: readonly string[];
  formats: readonly (ShownAs | undefined)[];
  is1904: boolean;
}

function rowsOf(xml: string, context: SheetContext): string[][] {
  const sheet = new SheetBuilder(context.file);
  let row = -1;
  let column = -1;
  let type = 'n';
  let format: ShownAs | undefined;
  let value: string | undefined;
  let formula: string | undefined;
  let target: 'value' | 'formula' | 'inline' | undefined;
  let phonetic = 0;
  readXml(xml, context.file, {
    open: (name, at) => {
      if (name === 'row') {
        row = at.r === undefined ? row + 1 : Number(at.r) - 1;
        column = -1;
      } else if (name === 'c') {
        if (at.r === undefined) column++;
        else ({ row, column } = placeOf(at.r, context.file));
        type = at.t ?? 'n';
        format = context.formats[Number(at.s ?? 0)];
        value = undefined;
        formula = undefined;
      } else if (name === 'v') {
        target = 'value';
        value = '';
      } else if (name === 'f') {
        target = 'formula';
        formula = '';
      } else if (name === 'rPh') phonetic++;
      else if (name === 't' && type === 'inlineStr' && phonetic === 0) {
        target = 'inline';
        value ??= '';
      }
    },
    close: (name) => {
      if (name === 'c') {
        // A formula whose result was never stored says nothing yet.
        const text = value === undefined && formula !== undefined ? `=${formula}` : (value ?? '');
        const isFormula = value === undefined && formula !== undefined;
        sheet.put(row, column, isFormula ? text : shownText(text, type, format, context));
      } else if (name === 'rPh') phonetic--;
      else if (name === 'v' || name === 'f' || name === 't') target = undefined;
    },
    text: (text) => {
      if (target === 'formula') formula += text;
      else if (target !== undefined) value += text;
    },
  });
  return sheet.rows;
}

function placeOf(reference: string, file: string): { row: number; column: number } {
  const at = cellAt(reference);
  if (at !== undefined) return at;
  throw new InputError(
    `the file is damaged: "${reference.slice(0, 20)}" is no cell`,
    'Open it in a spreadsheet program and save it again as .xlsx.',
    { file },
  );
}

function shownText(text: string, type: string, format: ShownAs | undefined, context: SheetContext): string {
  if (text === '') return '';
  if (type === 's') return context.shared[Number(text)] ?? '';
  if (type === 'b') return text === '1' ? 'TRUE' : 'FALSE';
  if (type === 'd') return text.replace('T', ' ');
  if (type !== 'n' || format === undefined) return text;
  const serial = Number(text);
  return Number.isFinite(serial) && serial >= 0 ? serialText(serial, format, context.is1904) : text;
}
