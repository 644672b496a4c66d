/**
 * How a workbook is carried over into a new one, for messages; a copy of the project and the installed program call
 * their commands differently.
 *
 * @param file name of the workbook
 * @param more further options, for example `--days 500`
 */
export function carryCall(file: string, more = ''): string {
  const options = `${file} --out NEW.xlsx${more === '' ? '' : ` ${more}`}`;
  return `npm run carry -- ${options} (installed: home-tariff carry ${options})`;
}
