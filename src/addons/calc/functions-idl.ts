import type { DescribedFunction } from '../../functions/described-function.js';

/** The function that only Calc needs: the message of an error, which Calc itself does not show. */
export const WHAT_IS_WRONG = {
  cellName: 'WHAT_IS_WRONG',
  summary: 'Says why a function of this add-on gives an error. Empty text: nothing is wrong.',
  arguments: [
    { name: 'functionName', help: 'Name of the function, in quotes.' },
    { name: 'arguments', help: 'The same arguments as in that function.' },
  ],
} as const;

/**
 * The interface of the add-in, in UNO's interface definition language: a method a function, a value or a range an
 * argument. Calc reads the text as it is.
 *
 * @returns text of an `.idl` file
 */
export function functionsIdl(functions: readonly DescribedFunction[]): string {
  const raises = 'raises (com::sun::star::lang::IllegalArgumentException)';
  const methods = functions.map(({ cellName, arguments: described, result }) => {
    const type = result.shape === 'cell' ? 'any' : 'sequence< sequence< any > >';
    const parameters = described.map(({ name }) => `[in] any ${name}`).join(', ');
    return `    ${type} ${cellName}(${parameters}) ${raises};`;
  });
  return [
    'module home { module tariff {',
    'interface XFunctions : com::sun::star::uno::XInterface {',
    ...methods,
    `    string ${WHAT_IS_WRONG.cellName}([in] any functionName, [in] sequence< any > arguments) ${raises};`,
    '};',
    '}; };',
    '',
  ].join('\n');
}
