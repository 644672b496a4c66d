import type { Measured } from './measure.js';

const OPEN_AIMS = 'not held: give the filled year of an earlier shape, --against OLD.xlsx';

/**
 * The benchmark as a table of at most 80 columns, and below it why something was skipped.
 *
 * @param lines what was measured
 * @returns text that ends with a newline
 */
export function formatMeasured(lines: readonly Measured[]): string {
  const rows = lines.map(({ what, figure, baseline, ratio, aim, met }) => [
    what,
    figure,
    baseline,
    ratio === undefined ? '' : `${ratio < 0.1 ? ratio.toFixed(3) : ratio.toFixed(2)}×`,
    aim,
    typeof met === 'boolean' ? (met ? 'met' : 'NOT MET') : (met ?? ''),
  ]);
  const table = [['', 'Figure', 'Baseline', 'Ratio', 'Aim', ''], ...rows];
  const widths = table[0]!.map((_, column) => Math.max(...table.map((row) => row[column]!.length)));
  const open = lines.some(({ met }) => met === 'not held');
  return table
    .map((row) =>
      row
        .map((cell, column) => {
          const isNumber = column >= 1 && column <= 3;
          return isNumber ? cell.padStart(widths[column]!) : cell.padEnd(widths[column]!);
        })
        .join(' ')
        .trimEnd(),
    )
    .concat(lines.flatMap(({ what, why }) => (why === undefined ? [] : [`${what}: skipped: ${why}`])))
    .concat(open ? [OPEN_AIMS, ''] : [''])
    .join('\n');
}
