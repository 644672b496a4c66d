import { InputError } from '../../errors.js';

/** A sheet as rows of texts; row 1 is the first. */
export interface SheetCells {
  name: string;
  hidden: boolean;
  rows: string[][];
  /** Whether its dates count from 1904. */
  is1904?: boolean;
}

/** More cells than a decade of readings in quarters of an hour has. */
const MOST_CELLS = 8_000_000;

/** Gathers the cells of a sheet; rows and cells that are left out stay blank. */
export class SheetBuilder {
  readonly rows: string[][] = [];
  private cells = 0;

  /** @param file name for messages */
  constructor(private readonly file: string) {}

  /**
   * Puts a text into a cell.
   *
   * @param row from 0
   * @param column from 0
   * @param text what it shows, '' for a blank cell
   * @throws InputError where the sheet holds more than any readings do
   */
  put(row: number, column: number, text: string): void {
    if (text === '') return;
    const from = this.rows.length;
    this.count(Math.max(0, row + 1 - from));
    for (let r = from; r <= row; r++) this.rows.push([]);
    const cells = this.rows[row]!;
    this.count(Math.max(0, column + 1 - cells.length));
    while (cells.length < column) cells.push('');
    cells[column] = text;
  }

  private count(more: number): void {
    this.cells += more;
    if (this.cells <= MOST_CELLS) return;
    throw new InputError(
      `a sheet holds more than ${MOST_CELLS.toLocaleString('en-GB')} cells`,
      'Readings are far fewer. Copy the columns of readings into a workbook of their own.',
      { file: this.file },
    );
  }
}
