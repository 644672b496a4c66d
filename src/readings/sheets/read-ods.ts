import { InputError } from '../../errors.js';
import { readXml } from '../read-xml.js';
import { MOST_COLUMNS, MOST_ROWS } from './cell-address.js';
import type { PackageParts } from './package-parts.js';
import type { SheetPart } from './read-xlsx.js';
import { timeText } from './serial-text.js';
import { SheetBuilder } from './sheet-cells.js';

/**
 * Reads the sheets of an .ods file. (Layout: OASIS OpenDocument 1.2 part 1, 9.1 and 19.)
 *
 * @param parts the package
 * @param file name for messages
 * @returns its sheets in their order
 * @throws InputError where it is protected by a password, or its content is missing or not well-formed
 * @example odsSheets(parts, 'may.ods')[0]?.name // 'Readings'
 */
export function odsSheets(parts: PackageParts, file: string): SheetPart[] {
  const manifest = parts.text('META-INF/manifest.xml') ?? '';
  if (/<(\w+:)?encryption-data\b/.test(manifest)) {
    throw new InputError('the file is protected by a password', 'Save a copy without a password.', { file });
  }
  const xml = parts.text('content.xml');
  if (xml === undefined) {
    throw new InputError(
      "the file is damaged: its part 'content.xml' is missing",
      'Open it in a spreadsheet program and save it again as .xlsx or .ods.',
      { file },
    );
  }
  const sheets: SheetPart[] = [];
  let sheet: SheetBuilder | undefined;
  let name = '';
  let depth = 0;
  let row = 0;
  let rowTimes = 1;
  let column = 0;
  let cell: { at: Readonly<Record<string, string>>; paragraphs: string[]; times: number } | undefined;
  let inParagraph = 0;
  let inNote = 0;
  let rowCells: [column: number, text: string][] = [];
  readXml(xml, file, {
    open: (element, at) => {
      if (element === 'table') {
        depth++;
        if (depth > 1) return;
        sheet = new SheetBuilder(file);
        name = at.name ?? '';
        row = 0;
      } else if (depth !== 1) return;
      else if (element === 'table-row') {
        rowTimes = times(at['number-rows-repeated'], MOST_ROWS);
        column = 0;
        rowCells = [];
      } else if (element === 'table-cell' || element === 'covered-table-cell') {
        cell = { at, paragraphs: [], times: times(at['number-columns-repeated'], MOST_COLUMNS) };
      } else if (element === 'annotation') inNote++;
      else if (cell === undefined || inNote > 0) return;
      else if (element === 'p') {
        inParagraph++;
        cell.paragraphs.push('');
      } else if (element === 's' && inParagraph > 0) addText(' '.repeat(times(at.c, 1000)));
      else if (element === 'tab') addText('\t');
    },
    close: (element) => {
      if (element === 'table') {
        depth--;
        if (depth > 0 || sheet === undefined) return;
        const cells = { name, hidden: false, rows: sheet.rows };
        sheets.push({ name, hidden: false, cells: () => cells });
      } else if (depth !== 1) return;
      else if (element === 'annotation') inNote--;
      else if (element === 'p' && inNote === 0) inParagraph--;
      else if ((element === 'table-cell' || element === 'covered-table-cell') && cell !== undefined) {
        const text = shownText(cell.at, cell.paragraphs);
        if (text !== '') for (let k = 0; k < cell.times; k++) rowCells.push([column + k, text]);
        column += cell.times;
        cell = undefined;
      } else if (element === 'table-row') {
        if (rowCells.length > 0)
          for (let k = 0; k < rowTimes; k++) for (const [at, text] of rowCells) sheet!.put(row + k, at, text);
        row += rowTimes;
      }
    },
    text: (text) => {
      if (inParagraph > 0 && inNote === 0) addText(text);
    },
  });
  return sheets;

  function addText(text: string): void {
    if (cell === undefined || cell.paragraphs.length === 0) return;
    cell.paragraphs[cell.paragraphs.length - 1] += text;
  }
}

function times(text: string | undefined, most: number): number {
  const number = Number(text ?? 1);
  return Number.isInteger(number) && number >= 1 ? Math.min(number, most) : 1;
}

/** The stored value rather than what is shown: a format may round it. */
function shownText(at: Readonly<Record<string, string>>, paragraphs: readonly string[]): string {
  switch (at['value-type']) {
    case 'float':
    case 'currency':
    case 'percentage':
      return at.value ?? '';
    case 'date':
      return (at['date-value'] ?? '').replace('T', ' ').replace(/(:\d\d)\.0+$/, '$1');
    case 'time':
      return durationText(at['time-value'] ?? '');
    case 'boolean':
      return (at['boolean-value'] ?? '').toUpperCase();
    default: {
      const text = at['string-value'] ?? paragraphs.join('\n');
      return text === '' && at.formula !== undefined && at['value-type'] === undefined
        ? `=${at.formula.replace(/^\w+:=/, '')}`
        : text;
    }
  }
}

/** `PT00H30M00S` as a time of day. */
function durationText(text: string): string {
  const match = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)(?:[.,]\d+)?S)?$/.exec(text);
  if (match === null) return text;
  const [, hours = '0', minutes = '0', seconds = '0'] = match;
  return timeText(((Number(hours) * 60 + Number(minutes)) * 60 + Number(seconds)) * 1000);
}
