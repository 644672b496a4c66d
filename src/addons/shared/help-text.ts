import type {
  ArgumentDescription,
  CellArgument,
  CellScalar,
  DescribedFunction,
} from '../../functions/described-function.js';

/**
 * Help for one argument: what it is, its columns and its unit.
 *
 * @example argumentHelp(kwh) // 'Energy of each interval, as many rows. Unit: kWh.'
 */
export function argumentHelp({ description, unit, columns, optional }: ArgumentDescription): string {
  const parts = [sentence(description)];
  if (columns !== undefined) {
    parts.push(`Columns: ${columns.map((column) => withUnit(column.name, column.unit)).join(', ')}.`);
  }
  if (unit !== 'none') parts.push(`Unit: ${unit}.`);
  if (optional) parts.push('May be left out.');
  return parts.join(' ');
}

/**
 * Help for a function: what it does, what comes out, an example.
 *
 * @param prefix what the host writes before a function's name
 * @example functionHelp(addVat) // 'Adds VAT to an amount. Gives: … (as the amount). Example: ADD_VAT(100; 0.05) = 105.'
 */
export function functionHelp(described: DescribedFunction, separator: ',' | ';', prefix = ''): string {
  const { summary, result } = described;
  const example = exampleText(described, separator, prefix);
  return [
    sentence(summary),
    `Gives${result.unit === 'none' ? '' : ` ${result.unit}`}: ${sentence(result.description)}`,
    ...(example === undefined ? [] : [`Example: ${example}.`]),
  ].join(' ');
}

/**
 * The worked example as text, where its arguments are single values.
 *
 * @returns for example `ADD_VAT(100, 0.05) = 105`; undefined where an argument is a range
 */
function exampleText(
  { cellName, example }: DescribedFunction,
  separator: ',' | ';',
  prefix = '',
): string | undefined {
  if (example.arguments.some(isRange) || isRange(example.result)) return undefined;
  const written = example.arguments.map((value) => literal(value as CellScalar)).join(`${separator} `);
  return `${prefix}${cellName}(${written}) = ${literal(example.result as CellScalar)}`;
}

/**
 * A name with its unit, as a label.
 *
 * @example withUnit('kwh', 'kWh') // 'kwh (kWh)'
 */
function withUnit(name: string, unit: string): string {
  return unit === 'none' ? name : `${name} (${unit})`;
}

function isRange(value: CellArgument): boolean {
  return Array.isArray(value);
}

function literal(value: CellScalar): string {
  if (value === null) return '';
  if (typeof value === 'string') return `"${value.replaceAll('"', '""')}"`;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  return String(Number(value.toPrecision(10)));
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
