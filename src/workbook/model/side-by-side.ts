import { columnLetters, columnNumber, parseCell } from '../cell-address.js';
import type { SheetModel } from './sheet-model.js';

/**
 * Sheets of which some are parts of one: those of one name become one sheet, part beside part. What holds for a whole
 * sheet, such as its tab and what is frozen, the first part says.
 *
 * @param parts sheets and parts of sheets
 * @returns a sheet a name, in the order of their first parts
 * @throws RangeError when two parts of a sheet use the same column, or one is protected and another is not
 */
export function sideBySide(parts: readonly SheetModel[]): SheetModel[] {
  const names = [...new Set(parts.map(({ name }) => name))];
  return names.map((name) => parts.filter((part) => part.name === name).reduce(joined));
}

function joined(left: SheetModel, right: SheetModel): SheetModel {
  const taken = columnsOf(left);
  const twice = [...columnsOf(right)].find((column) => taken.has(column));
  if (twice !== undefined) {
    throw new RangeError(`two parts of ${left.name} use column ${columnLetters(twice)}`);
  }
  if (left.protected !== right.protected) throw new RangeError(`only a part of ${left.name} is protected`);
  return {
    ...left,
    widths: { ...left.widths, ...right.widths },
    heights: higher(left.heights, right.heights),
    ...printed(left.printArea, right.printArea),
    cells: [...left.cells, ...right.cells],
    formulaColumns: [...left.formulaColumns, ...right.formulaColumns],
    inputColumns: [...left.inputColumns, ...right.inputColumns],
    valueColumns: [...(left.valueColumns ?? []), ...(right.valueColumns ?? [])],
    conditional: [...left.conditional, ...right.conditional],
    colourScales: [...(left.colourScales ?? []), ...(right.colourScales ?? [])],
    selections: { ...left.selections, ...right.selections },
  };
}

function columnsOf({ cells, formulaColumns, inputColumns, valueColumns = [] }: SheetModel): Set<number> {
  return new Set([
    ...cells.flatMap((cell) => {
      const last = 'mergeTo' in cell && cell.mergeTo !== undefined ? cell.mergeTo : cell.at;
      const [from, to] = [parseCell(cell.at).column, parseCell(last).column];
      return Array.from({ length: to - from + 1 }, (_, i) => from + i);
    }),
    ...[...formulaColumns, ...inputColumns, ...valueColumns].map(({ letters }) => columnNumber(letters)),
  ]);
}

/** Areas that are printed, each on pages of its own. */
function printed(...areas: SheetModel['printArea'][]): Pick<SheetModel, 'printArea'> {
  const given = areas.filter((area) => area !== undefined);
  return given.length === 0 ? {} : { printArea: given.join(AND) };
}
/** Stands between print areas of one sheet. */
const AND = '&&';

type Heights = SheetModel['heights'];

/** For each row the greater of its heights. */
function higher(one: Heights = {}, other: Heights = {}): Record<number, number> {
  const heights: Record<number, number> = { ...one };
  for (const [row, height] of Object.entries(other)) {
    heights[Number(row)] = Math.max(height, heights[Number(row)] ?? 0);
  }
  return heights;
}
