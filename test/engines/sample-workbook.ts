import ExcelJS from 'exceljs';

/** A small workbook with every kind of formula result, each with the right stored value. */
export async function sampleWorkbook(
  change: (workbook: ExcelJS.Workbook) => unknown = () => {},
): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const inputs = workbook.addWorksheet('Inputs & rates');
  inputs.getCell('A1').value = 24.5;
  inputs.getCell('A2').value = 'peak <rate>';
  inputs.getCell('A3').value = true;
  inputs.getCell('A4').value = new Date(Date.UTC(2024, 0, 15));
  workbook.definedNames.add("'Inputs & rates'!$A$1", 'UnitRate');
  const results = workbook.addWorksheet('Results');
  const formula = (cell: string, text: string, result: unknown) => {
    results.getCell(cell).value = { formula: text, result } as ExcelJS.CellFormulaValue;
  };
  formula('A1', 'UnitRate/3', 24.5 / 3);
  formula('A2', '\'Inputs & rates\'!A2&"s"', 'peak <rate>s');
  formula('A3', "NOT('Inputs & rates'!A3)", false);
  formula('A4', "'Inputs & rates'!A4+1", 45307);
  formula('A5', '1/0', { error: '#DIV/0!' });
  formula('A6', 'IF(UnitRate>0,"","none")', '');
  for (let row = 1; row <= 50; row++) results.getCell(row, 3).value = row / 7;
  results.fillFormula('D1:D50', 'C1*UnitRate+$C$1', (row: number) => (row / 7) * 24.5 + 1 / 7);
  formula('A7', 'SUM(D1:D50)', ((50 * 51) / 2 / 7) * 24.5 + 50 / 7);
  await change(workbook);
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}
