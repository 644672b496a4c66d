import type { Verification } from '../workbook/verify/verify-workbook.js';

/**
 * A verification for a terminal: every cell that differs, by name.
 *
 * @param verification what was found
 * @returns text that ends with a newline
 */
export function formatVerification(verification: Verification): string {
  const lines: string[] = [];
  for (const { altered, differing } of verification.sheets) {
    for (const { sheet, cell, found } of altered) {
      lines.push(`${sheet}!${cell}: the formula was overwritten; it holds ${found}`);
    }
    for (const { sheet, cell, stored, expected } of differing) {
      lines.push(`${sheet}!${cell}: holds ${stored}, the library works out ${expected}`);
    }
  }
  const compared = `${verification.compared.toLocaleString('en-GB')} formula cells compared`;
  const others = verification.sheets.reduce((sum, sheet) => sum + sheet.others, 0);
  const own =
    others === 0
      ? ''
      : ` (${others.toLocaleString('en-GB')} formulas of your own on these sheets were left alone)`;
  lines.push(
    verification.agrees
      ? `${compared}${own}: all agree.`
      : `${compared}${own}: ${(lines.length).toLocaleString('en-GB')} differ.`,
    '',
  );
  return lines.join('\n');
}
