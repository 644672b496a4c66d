import { type CellPosition, columnName, LAST_COLUMN, LAST_ROW } from './cell-reference.js';
import { formulaTokens } from './formula-tokens.js';

/** A coordinate of a reference: `$` or not, and its number as it stands in the home cell; 0 where it has none. */
interface Reference {
  columnFixed: boolean;
  column: number;
  rowFixed: boolean;
  row: number;
}

const parts = /^(\$?)([A-Za-z]*)(\$?)([0-9]*)$/;

function reference(text: string): Reference {
  const [, first = '', letters = '', second = '', digits = ''] = parts.exec(text) ?? [];
  return {
    // In `$5` the only dollar stands before the row.
    columnFixed: letters !== '' && first === '$',
    column: letterValue(letters),
    rowFixed: letters === '' ? first === '$' : second === '$',
    row: digits === '' ? 0 : Number(digits),
  };
}

function letterValue(letters: string): number {
  let column = 0;
  for (const letter of letters.toUpperCase()) column = column * 26 + letter.charCodeAt(0) - 64;
  return column;
}

function inSheet(ref: Reference): boolean {
  return ref.column <= LAST_COLUMN && ref.row <= LAST_ROW;
}

/** A formula that was written in one cell and can be read as if it stood in another. */
export class MovableFormula {
  private readonly pieces: Piece[] = [];
  private relativeText: string | undefined;

  /**
   * @param formula formula without the equals sign
   * @param home the cell that it was written in
   */
  constructor(
    readonly formula: string,
    private readonly home: CellPosition,
  ) {
    for (const { kind, text } of formulaTokens(formula)) {
      const piece = kind === 'cell' || kind === 'rows' || kind === 'columns' ? referencePiece(text) : text;
      this.pieces.push(piece);
    }
  }

  /**
   * The formula as it reads in another cell of the sheet.
   *
   * @param to that cell
   * @returns formula without the equals sign; `#REF!` where a reference would leave the sheet
   */
  at(to: CellPosition): string {
    const rows = to.row - this.home.row;
    const columns = to.column - this.home.column;
    if (rows === 0 && columns === 0) return this.formula;
    let text = '';
    for (const piece of this.pieces) {
      if (typeof piece === 'string') text += piece;
      else if (Array.isArray(piece)) {
        const first = moved(piece[0], rows, columns);
        const last = moved(piece[1], rows, columns);
        text += first === '#REF!' || last === '#REF!' ? '#REF!' : `${first}:${last}`;
      } else text += moved(piece, rows, columns);
    }
    return text;
  }

  /** The formula with references written as distances from its cell, `R[-1]C2`: the same all the way down a column. */
  relative(): string {
    if (this.relativeText !== undefined) return this.relativeText;
    let text = '';
    for (const piece of this.pieces) {
      if (typeof piece === 'string') text += piece;
      else if (Array.isArray(piece)) text += this.span(...piece);
      else text += this.distance(piece);
    }
    this.relativeText = text;
    return text;
  }

  /** A range; one from a cell to itself is that cell, which is what Gnumeric makes of it. */
  private span(from: Reference, to: Reference): string {
    const [first, last] = [this.distance(from), this.distance(to)];
    const isCell = from.row !== 0 && from.column !== 0;
    return isCell && first === last ? first : `${first}:${last}`;
  }

  private distance(ref: Reference): string {
    const row = ref.rowFixed ? `R${ref.row}` : `R[${ref.row - this.home.row}]`;
    const column = ref.columnFixed ? `C${ref.column}` : `C[${ref.column - this.home.column}]`;
    return `${ref.row === 0 ? '' : row}${ref.column === 0 ? '' : column}`;
  }
}

type Piece = string | Reference | [Reference, Reference];

/** Text that has the form of a reference but lies outside the sheet is a name, such as `XYZ1` or `foo:bar`. */
function referencePiece(text: string): Piece {
  const ends = text.split(':').map(reference);
  if (!ends.every(inSheet)) return text;
  return ends.length === 1 ? (ends[0] as Reference) : [ends[0] as Reference, ends[1] as Reference];
}

function moved(ref: Reference, rows: number, columns: number): string {
  let text = '';
  if (ref.column !== 0) {
    const column = ref.columnFixed ? ref.column : ref.column + columns;
    if (column < 1 || column > LAST_COLUMN) return '#REF!';
    text = ref.columnFixed ? `$${columnName(column)}` : columnName(column);
  }
  if (ref.row !== 0) {
    const row = ref.rowFixed ? ref.row : ref.row + rows;
    if (row < 1 || row > LAST_ROW) return '#REF!';
    text += ref.rowFixed ? `$${row}` : row;
  }
  return text;
}
