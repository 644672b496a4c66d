/**
 * How a workbook is carried over into a new one, for messages; a copy of the project and the installed program call
 * their commands differently.
 *
 * @param file name of the workbook; in quotes where it has more than letters, digits, dots and dashes
 * @param more further options, for example `--days 500`
 */
export function carryCall(file: string, more = ''): string {
  const options = `${/^[\w./-]+$/.test(file) ? file : `"${file}"`} --out NEW.xlsx${more === '' ? '' : ` ${more}`}`;
  return `npm run carry -- ${options} (installed: home-tariff carry ${options})`;
}
