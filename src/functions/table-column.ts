/**
 * The reference of one column of a table.
 *
 * @param table reference of the whole table, such as `Rates!$A$2:$F$9`
 * @param column from 1
 * @returns `Rates!$A$2:$A$9` for column 1; `INDEX(table,0,1)` where the reference is a name
 * @example tableColumn('A2:F9', 4) // 'D2:D9'
 */
export function tableColumn(table: string, column: number): string {
  const [, sheet = '', first, firstRow, lastRow] =
    /^(.*!)?\$?([A-Z]{1,3})(\$?\d+):\$?[A-Z]{1,3}(\$?\d+)$/.exec(table) ?? [];
  if (first === undefined) return `INDEX(${table},0,${column})`;
  const letters = columnLetters(columnNumber(first) + column - 1);
  const dollar = table.slice(sheet.length).startsWith('$') ? '$' : '';
  return `${sheet}${dollar}${letters}${firstRow}:${dollar}${letters}${lastRow}`;
}

function columnNumber(letters: string): number {
  return [...letters].reduce((number, letter) => number * 26 + letter.charCodeAt(0) - 64, 0);
}

function columnLetters(number: number): string {
  return number === 0
    ? ''
    : columnLetters(Math.floor((number - 1) / 26)) + String.fromCharCode(65 + ((number - 1) % 26));
}
