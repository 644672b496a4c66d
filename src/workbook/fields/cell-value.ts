/** What an input cell holds: times and dates as serial numbers, null where it is blank. */
export type CellValue = number | string | boolean | null;

/** What an input accepts, with the help that a spreadsheet program shows. */
export interface InputRule {
  kind: 'list' | 'number' | 'date' | 'formula' | 'any';
  /** For `list`: the choices, or a reference to a range that holds them. */
  choices?: readonly string[] | string;
  /** For `number` and `date`: both count. */
  minimum?: number;
  maximum?: number;
  /** For `formula`: it holds where the cell may stay as it is. */
  formula?: string;
  title: string;
  message: string;
}
