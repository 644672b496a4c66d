import type { ArgumentDescription, DescribedFunction } from '../../../src/functions/described-function.js';

const TITLES: Readonly<Record<DescribedFunction['category'], string>> = {
  time: 'Time',
  rates: 'Rates',
  charges: 'Charges',
  shares: 'Shares',
  'break-even': 'Break-even',
  heating: 'Heating',
  battery: 'Battery',
  timers: 'Timers',
};

const SHAPES: Readonly<Record<ArgumentDescription['shape'], string>> = {
  cell: 'one value',
  column: 'a column',
  table: 'a table',
};

/**
 * The page of all public functions, made from their descriptions.
 *
 * @param functions the descriptions, in the order in which people meet them
 * @param caution what every reader must be told
 * @param cautions what a reader of each kind of function must be told beside it, paragraph by paragraph
 * @returns Markdown
 */
export function functionsMarkdown(
  functions: readonly DescribedFunction[],
  caution: string,
  cautions: Partial<Record<DescribedFunction['category'], readonly string[]>>,
): string {
  const categories = [...new Set(functions.map(({ category }) => category))];
  const inCategory = (category: DescribedFunction['category']): readonly DescribedFunction[] =>
    functions.filter((described) => described.category === category);
  return `${[
    '# Functions',
    `${functions.length} functions, each under its name in the library and its name in a cell. A cell holds a value; times and dates are` +
      ' serial days, a column is a range one cell wide. In the formulas the arguments stand by their names. This page is made from' +
      ' the descriptions beside the functions: `npm run docs:functions` writes it.',
    `**${markdownText(caution)}**`,
    ...categories.flatMap((category) => [
      `## ${TITLES[category]}`,
      ...(cautions[category] ?? []).map(markdownText),
      overview(inCategory(category)),
      ...inCategory(category).map(entry),
    ]),
  ].join('\n\n')}\n`;
}

function overview(functions: readonly DescribedFunction[]): string {
  return table(
    ['in the library', 'in a cell', 'what it does'],
    functions.map(({ name, cellName, summary }) => [
      `[${name}](#${name.toLowerCase()})`,
      `\`${cellName}\``,
      markdownText(summary),
    ]),
  );
}

function entry(described: DescribedFunction): string {
  const { name, cellName, summary, result, source, arguments: all } = described;
  const names = all.map((argument) => argument.name);
  const written = all.map((argument) => (argument.optional === true ? `[${argument.name}]` : argument.name));
  const formula = described.formula?.(names);
  return [
    `### ${name}`,
    markdownText(summary),
    `\`${cellName}(${written.join(', ')})\` gives ${SHAPES[result.shape]}${unitText(result.unit)}: ${markdownText(result.description)}`,
    table(
      ['argument', 'unit', 'shape', 'what it is'],
      all.map((argument) => [
        `\`${argument.name}\``,
        argument.unit === 'none' ? '' : markdownText(argument.unit),
        SHAPES[argument.shape],
        argumentText(argument),
      ]),
    ),
    `Source: ${markdownText(source)}.`,
    formula === undefined
      ? 'No native formula says it: it is in the library only.'
      : `\`\`\`text\n=${formula}\n\`\`\``,
  ].join('\n\n');
}

function argumentText({ description, columns, optional }: ArgumentDescription): string {
  const columnTexts = (columns ?? []).map(
    (column) =>
      `\`${column.name}\`${unitText(column.unit)}${column.optional === true ? ', may be blank' : ''}`,
  );
  return [
    markdownText(description),
    ...(columnTexts.length === 0 ? [] : [`Columns: ${columnTexts.join('; ')}.`]),
    ...(optional === true ? ['May be left out.'] : []),
  ].join(' ');
}

function unitText(unit: string): string {
  return unit === 'none' ? '' : ` (${markdownText(unit)})`;
}

function table(headers: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(headers), line(headers.map(() => '---')), ...rows.map(line)].join('\n');
}

/** Text in which nothing is taken for Markdown. */
function markdownText(text: string): string {
  return text.replace(/[\\`*_|<>[\]]/g, (character) => `\\${character}`);
}
