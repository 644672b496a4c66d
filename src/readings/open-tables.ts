import { InputError } from '../errors.js';
import { decodeText } from './decode-text.js';
import { isEspi } from './espi/espi-streams.js';
import { espiTables } from './espi/espi-tables.js';
import { hasReadings } from './find-header.js';
import type { FileOptions, InputFile } from './import-options.js';
import { kindOfBytes } from './kind-of-bytes.js';
import { isNem12 } from './nem12/nem12-records.js';
import { nem12Table } from './nem12/nem12-table.js';
import { readTable, type Table } from './read-table.js';
import { readSheets } from './sheets/read-sheets.js';
import type { Vocabulary } from './vocabulary.js';

/** A table, the file that it stands in, and what the user says about that. */
export interface OpenedTable {
  input: InputFile;
  table: Table;
  options: FileOptions;
}

/**
 * Reads a file into tables, by what is in it whatever its name: text of separated values, a sheet of a workbook,
 * or a standard's own shape.
 *
 * @param input name and bytes
 * @param options what the user says about it
 * @param vocabulary channels to look for
 * @returns its tables
 * @throws InputError where it is of a kind that can't be read, with what to save it as
 * @example openTables({ name: 'may.xlsx', bytes }, {}, electricityVocabulary)[0]?.table.source?.text // '.xlsx, sheet "May"'
 */
export function openTables<C extends string>(
  input: InputFile,
  options: FileOptions,
  vocabulary: Vocabulary<C>,
): OpenedTable[] {
  return tablesOf(input, options, vocabulary).map((table) => {
    if (table.source?.isFixed !== true) return { input, table, options };
    const idle = STATED.filter(([key]) => options[key] !== undefined).map(([, name]) => name);
    if (idle.length > 0) {
      table.source.assumptions.push(
        `${idle.join(', ')} say${idle.length === 1 ? 's' : ''} nothing of this file, as it states that itself`,
      );
    }
    return { input, table, options: { register: false } };
  });
}

/** Options about what some shapes state themselves. */
const STATED = [
  ['dateOrder', '--date-order'],
  ['stamp', '--stamp'],
  ['stampZone', '--stamp-zone'],
  ['stampColumn', '--stamp-column'],
  ['unit', '--unit'],
  ['register', '--register'],
  ['intervalMinutes', '--interval'],
  ['headerLine', '--header'],
  ['delimiter', '--delimiter'],
  ['decimalMark', '--decimal'],
] as const satisfies (readonly [keyof FileOptions, string])[];

function tablesOf<C extends string>(
  input: InputFile,
  options: FileOptions,
  vocabulary: Vocabulary<C>,
): Table[] {
  const { bytes, name: file } = input;
  switch (kindOfBytes(bytes)) {
    case 'zip':
      return [readSheets(bytes, file, options.sheet, hasReadings)];
    case 'compound':
      throw compoundFile(bytes, file);
    case 'pdf':
      throw new InputError(
        'the file is a PDF',
        'Download the readings as CSV or .xlsx: a page has no cells to read.',
        { file },
      );
    case 'picture':
      throw new InputError('the file is a picture', 'Download the readings as CSV or .xlsx.', { file });
    case 'gzip':
      throw new InputError('the file is packed by gzip', 'Unpack it first, or pack it as .zip.', { file });
  }
  const head = headOf(bytes);
  const isElectricity = vocabulary.channels.includes('importKwh' as C);
  if (MARKUP.test(head)) {
    if (!isEspi(head)) throw markup(head, file);
    const isGas = vocabulary.channels.includes('gas' as C);
    if (!isElectricity && !isGas) {
      throw new InputError(
        'the file is ESPI, which holds no temperatures',
        'Give it among the readings, or as gas.',
        {
          file,
        },
      );
    }
    const xml = decodeText(bytes, file).utf8.toString('utf8');
    return espiTables(xml, file, isGas ? 'gas' : 'electricity', options);
  }
  if (/^(\{\s*"|\[\s*[{[])/.test(head)) {
    throw new InputError('the file is JSON', 'Download the readings as CSV or .xlsx.', { file });
  }
  if (isNem12(head)) {
    if (isElectricity) return [nem12Table(bytes, file, options)];
    throw new InputError('the file is NEM12, which holds electricity', 'Give it among the readings.', {
      file,
    });
  }
  return [readTable(input, options.delimiter)];
}

const MARKUP = /^<(\?xml|!doctype|html|head|body|table|feed|entry|[\w]+:[\w]+)\b/i;
const HEAD_BYTES = 4000;

/** The beginning of a text, enough to tell what it is. */
function headOf(bytes: Uint8Array): string {
  const isUtf16 = bytes[0] === 0xff && bytes[1] === 0xfe;
  const decoder = new TextDecoder(isUtf16 ? 'utf-16le' : 'utf-8');
  return decoder.decode(bytes.subarray(0, HEAD_BYTES)).trimStart();
}

/** An encrypted workbook has a stream of that name; its directory holds names as UTF-16. */
function compoundFile(bytes: Uint8Array, file: string): InputError {
  const name = Buffer.from('EncryptedPackage', 'utf16le');
  const isEncrypted = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).includes(name);
  return isEncrypted
    ? new InputError(
        'the file is protected by a password',
        'Open it and save a copy as .xlsx without a password.',
        { file },
      )
    : new InputError(
        'the file is a workbook of an older kind (.xls) or another document of its time',
        'Open it and save it as .xlsx, or the sheet with the readings as CSV.',
        { file },
      );
}

function markup(head: string, file: string): InputError {
  if (/^<(!doctype\s+html|html|head|body|table)\b/i.test(head)) {
    return new InputError(
      'the file is a web page, whatever its name',
      'Open it in a spreadsheet program and save it as .xlsx, or download the readings again.',
      { file },
    );
  }
  if (/urn:schemas-microsoft-com:office:spreadsheet|office:document\b/.test(head)) {
    return new InputError('the file is a workbook saved as XML', 'Open it and save it as .xlsx.', { file });
  }
  return new InputError(
    'the file is an XML document of a kind that is not read',
    'Download the readings as CSV or .xlsx.',
    { file },
  );
}
