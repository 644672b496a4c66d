/** Rows of an input table after files were merged into it. */
export interface MergedRows<Row> {
  /** As many as the table has. */
  rows: Row[];
  /** Rows that are new in the workbook. */
  added: number;
  /** Rows given that the workbook held already. */
  duplicates: number;
  /** Rows that were replaced. */
  replaced: number;
}
