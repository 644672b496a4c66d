import { InputError, type Place } from '../../errors.js';
import {
  defaultZipLimits,
  deflateEntry,
  inflateEntry,
  readZip,
  writeZip,
  type ZipEntry,
  type ZipLimits,
} from '../../zip/zip-container.js';
import type { CellRange } from './cell-reference.js';
import type { CellValue } from './cell-value.js';
import { type EditCounts, editSheetXml, type SheetEdits } from './edit-sheet-xml.js';
import { readSharedStrings } from './shared-strings.js';
import { type SheetRange, sheetRange } from './sheet-range.js';
import { type ReadingContext, SheetReader } from './sheet-reader.js';
import {
  type DefinedName,
  readRelationships,
  readWorkbookStructure,
  type WorkbookStructure,
} from './workbook-structure.js';

/** Choices for {@link openWorkbookPackage}. */
export interface PackageOptions {
  /** Deflate level of sheets that are rewritten, 1 (quick) to 9 (small). 5 is within 1% of 6 and a quarter quicker. */
  compressionLevel?: number;
  /** What is refused as too large. */
  limits?: ZipLimits;
}

const saveAsXlsx = 'Open it in a spreadsheet program and save it as .xlsx.';

function startsWith(bytes: Uint8Array, ...signature: number[]): boolean {
  return signature.every((byte, index) => bytes[index] === byte);
}

/** Bytes of a zip file's local header before the name of its first part. */
const LOCAL_HEADER = 30;

function refuseOpenDocument(place: Place): never {
  throw new InputError('this is an OpenDocument file', saveAsXlsx, place);
}

/** Says what a file is that can't be a workbook, by its first bytes. */
function refuseOtherFiles(bytes: Uint8Array, place: Place): void {
  // Its type stands first and unpacked (OpenDocument 1.2, part 3, on packages): seen before its size, which is beyond a workbook's, is refused.
  const head = Buffer.from(bytes.subarray(LOCAL_HEADER, LOCAL_HEADER + 60)).toString('latin1');
  if (startsWith(bytes, 0x50, 0x4b) && /^mimetypeapplication\/vnd\.oasis\.opendocument/.test(head))
    refuseOpenDocument(place);
  if (bytes.length === 0) throw new InputError('the file is empty', 'Choose a workbook (.xlsx).', place);
  if (startsWith(bytes, 0xd0, 0xcf, 0x11, 0xe0)) {
    throw new InputError(
      'the workbook is protected by a password, or is of the old .xls kind',
      'Save a copy as .xlsx without a password to open.',
      place,
    );
  }
  if (startsWith(bytes, 0x50, 0x4b)) return;
  const start = bytes.subarray(0, 4096);
  const isText = !start.some((byte) => byte < 9 || (byte > 13 && byte < 32));
  throw new InputError(
    isText ? 'this is a text file, not a workbook' : 'this is not a workbook',
    'Choose a file that a spreadsheet program saved as .xlsx.',
    place,
  );
}

/**
 * A workbook whose cells are read and changed in place: parts that nobody edits keep their bytes.
 *
 * Get one from {@link openWorkbookPackage}.
 */
export class WorkbookPackage {
  private readonly index = new Map<string, number>();
  private readonly structure: WorkbookStructure;
  private sharedTexts: string[] | undefined;
  private changed = false;
  /** Entries whose bytes were held to their checksum, by number. */
  private readonly checked = new Set<number>();

  /** Use {@link openWorkbookPackage}, which checks what kind of file it is. */
  constructor(
    private readonly original: Uint8Array,
    readonly fileName: string,
    private readonly entries: ZipEntry[],
    private readonly compressionLevel: number,
  ) {
    for (const [index, entry] of entries.entries()) {
      // Part names differ by more than case (ECMA-376 part 2, 6.2.2.3); some writers use backslashes.
      const key = partKey(entry.name);
      if (this.index.has(key)) {
        throw new InputError(`the workbook is damaged: it holds part '${entry.name}' twice`, saveAsXlsx, {
          file: fileName,
        });
      }
      this.index.set(key, index);
    }
    const kind = this.readText('mimetype');
    if (kind?.startsWith('application/vnd.oasis.opendocument')) refuseOpenDocument({ file: fileName });
    this.structure = readWorkbookStructure((part) => this.readText(part), fileName);
  }

  /** Whether day 0 of the workbook's date serials is 1904-01-01: 1462 days less than the usual serial. */
  get date1904(): boolean {
    return this.structure.date1904;
  }

  /** Names of the worksheets in the order of their tabs. */
  sheetNames(): string[] {
    return this.structure.sheets.map(({ name }) => name);
  }

  /** Names of tabs that are no worksheets, such as sheets that hold only a chart. */
  otherTabs(): readonly string[] {
    return this.structure.otherTabs;
  }

  /**
   * Parts that a worksheet refers to.
   *
   * @param sheet name of the sheet
   * @returns for each the last word of its type, for example `comments`, and its name inside the container
   * @throws InputError when there is no such sheet
   */
  relatedParts(sheet: string): readonly { type: string; part: string }[] {
    return readRelationships(this.sheetPart(sheet), (part) => this.readText(part), this.fileName);
  }

  /** Whether a worksheet of this name exists; case does not matter, as in spreadsheet programs. */
  hasSheet(sheet: string): boolean {
    return this.findSheet(sheet) !== undefined;
  }

  /** All defined names, with those that belong to one sheet. */
  definedNames(): readonly DefinedName[] {
    return this.structure.definedNames;
  }

  /**
   * What a defined name of the whole workbook stands for.
   *
   * @param name the name, any case
   * @returns its text without the equals sign, for example `Tariffs!$C$4`; undefined where there is no such name
   */
  definedName(name: string): string | undefined {
    const wanted = name.toLowerCase();
    const found = this.structure.definedNames.filter((defined) => defined.name.toLowerCase() === wanted);
    return found.find(({ sheet }) => sheet === undefined)?.text;
  }

  /**
   * The cells that a defined name of the whole workbook stands for.
   *
   * @param name the name, any case
   * @returns sheet and range; undefined where there is no such name, or it does not stand for cells of one sheet
   */
  namedRange(name: string): SheetRange | undefined {
    const text = this.definedName(name);
    return text === undefined ? undefined : sheetRange(text);
  }

  /** Names of all parts of the container, in order. */
  partNames(): string[] {
    return this.entries.map(({ name }) => name);
  }

  /**
   * Bytes of a part.
   *
   * @param part name inside the container, for example `xl/styles.xml`
   * @returns its bytes, or undefined where there is no such part
   * @throws InputError when the part is damaged
   */
  readPart(part: string): Buffer | undefined {
    const index = this.index.get(partKey(part));
    return index === undefined ? undefined : this.inflate(index);
  }

  /**
   * Unpacks the parts that nobody has read yet, so that damage in one of them is not passed on.
   *
   * @throws InputError when a part can't be unpacked, or its checksum is wrong
   * @example workbook.checkParts()
   */
  checkParts(): void {
    for (const index of this.entries.keys()) if (!this.checked.has(index)) this.inflate(index);
  }

  private inflate(index: number): Buffer {
    const bytes = inflateEntry(this.entries[index] as ZipEntry, this.fileName);
    this.checked.add(index);
    return bytes;
  }

  /**
   * Puts new bytes in a part that the container holds already, for example a chart whose stored values are refreshed.
   *
   * @param part name inside the container
   * @param bytes its new content; bytes that are the same change nothing
   * @returns whether the part changed
   * @throws RangeError when there is no such part
   */
  replacePart(part: string, bytes: Uint8Array): boolean {
    const old = this.readPart(part);
    if (old === undefined) throw new RangeError(`the workbook has no part '${part}'`);
    if (old.equals(bytes)) return false;
    this.store(this.index.get(partKey(part)) as number, bytes);
    return true;
  }

  /**
   * Reads the cells of a sheet as it stands, edits included.
   *
   * @param sheet name of the sheet
   * @returns a cursor before the first cell
   * @throws InputError when there is no such sheet, or it is damaged
   */
  readSheet(sheet: string): SheetReader {
    return new SheetReader(this.sheetBytes(sheet), this.context(sheet));
  }

  /**
   * Stored values of a rectangle of cells, row by row; for the few cells of an input block. It reads the sheet up to
   * the end of the range: for many cells use {@link readSheet}.
   *
   * @param sheet name of the sheet
   * @param range the cells
   * @returns values, `[row][column]` from the first of the range; null where nothing is stored
   * @throws InputError when there is no such sheet, or it is damaged
   */
  readRange(sheet: string, range: CellRange): CellValue[][] {
    const width = range.lastColumn - range.firstColumn + 1;
    const values = Array.from({ length: range.lastRow - range.firstRow + 1 }, () =>
      new Array<CellValue>(width).fill(null),
    );
    const reader = this.readSheet(sheet);
    while (reader.next() && reader.row <= range.lastRow) {
      const { row, column } = reader;
      if (row < range.firstRow || column < range.firstColumn || column > range.lastColumn) continue;
      (values[row - range.firstRow] as CellValue[])[column - range.firstColumn] = reader.value;
    }
    return values;
  }

  /**
   * Changes values of a sheet; nothing else of it.
   *
   * @param sheet name of the sheet
   * @param edits inputs to type and stored results to set
   * @returns how many cells changed; 0 means that the sheet keeps its bytes
   * @throws InputError when there is no such sheet, it is damaged, or a formula stands in an input cell
   * @throws RangeError for a number that is not finite, or inputs that overlap or leave the sheet
   */
  editSheet(sheet: string, edits: SheetEdits): EditCounts {
    const index = this.index.get(partKey(this.sheetPart(sheet))) as number;
    const { bytes, ...counts } = editSheetXml(this.sheetBytes(sheet), edits, this.context(sheet));
    if (counts.changedCells > 0) this.store(index, bytes);
    return counts;
  }

  /**
   * The workbook as a file: the very bytes that were opened when nothing was changed.
   *
   * @returns bytes of the .xlsx file; the same edits of the same file give the same bytes
   * @throws InputError when a part that nobody read is damaged
   */
  toBytes(): Uint8Array {
    this.checkParts();
    return this.changed ? writeZip(this.entries) : this.original;
  }

  private store(index: number, bytes: Uint8Array): void {
    this.entries[index] = deflateEntry(this.entries[index] as ZipEntry, bytes, this.compressionLevel);
    this.changed = true;
  }

  private readText(part: string): string | undefined {
    const bytes = this.readPart(part);
    if (bytes === undefined) return undefined;
    return new TextDecoder(bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : 'utf-8').decode(bytes);
  }

  private findSheet(sheet: string): string | undefined {
    const wanted = sheet.toLowerCase();
    return this.structure.sheets.find(({ name }) => name.toLowerCase() === wanted)?.part;
  }

  /**
   * The part that holds a worksheet.
   *
   * @param sheet its name; case does not matter
   * @returns name inside the container
   * @throws InputError when there is no such sheet
   */
  sheetPart(sheet: string): string {
    const part = this.findSheet(sheet);
    if (part !== undefined && this.index.has(partKey(part))) return part;
    throw new InputError(
      `the workbook has no sheet '${sheet}'`,
      `It has: ${this.sheetNames().join(', ')}. Give the sheet its name back, or start from a fresh workbook.`,
      { file: this.fileName },
    );
  }

  private sheetBytes(sheet: string): Buffer {
    return this.readPart(this.sheetPart(sheet)) as Buffer;
  }

  private context(sheet: string): ReadingContext {
    return {
      place: { file: this.fileName, line: sheet },
      date1904: this.date1904,
      sharedStrings: () => this.sharedStrings(),
    };
  }

  private sharedStrings(): string[] {
    if (this.sharedTexts === undefined) {
      const part = this.structure.sharedStringsPart;
      const xml = part === undefined ? undefined : this.readText(part);
      this.sharedTexts = xml === undefined ? [] : readSharedStrings(xml, { file: this.fileName });
    }
    return this.sharedTexts;
  }
}

function partKey(name: string): string {
  return name.replaceAll('\\', '/').replace(/^\//, '').toLowerCase();
}

/**
 * Opens a workbook of the .xlsx kind, whoever saved it last.
 *
 * @param bytes the whole file; it is not changed, and must not be changed while the package is in use
 * @param fileName name for messages
 * @param options compression level and limits
 * @returns the package
 * @throws InputError when the file is empty, not a workbook, cut short, damaged, too large when unpacked, protected
 *   by a password, or of another spreadsheet format
 * @example
 * const workbook = openWorkbookPackage(await readFile('home.xlsx'), 'home.xlsx');
 * workbook.editSheet('Readings', { inputs: [{ column: 2, firstRow: 5, values: importKwh, nan: 'blank' }] });
 * await saveBeside('home.xlsx', workbook.toBytes());
 */
export function openWorkbookPackage(
  bytes: Uint8Array,
  fileName: string,
  options: PackageOptions = {},
): WorkbookPackage {
  refuseOtherFiles(bytes, { file: fileName });
  const entries = readZip(bytes, fileName, options.limits ?? defaultZipLimits);
  return new WorkbookPackage(bytes, fileName, entries, options.compressionLevel ?? 5);
}
