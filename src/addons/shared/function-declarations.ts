import type { ArgumentDescription, DescribedFunction } from '../../functions/described-function.js';
import { argumentHelp, functionHelp } from './help-text.js';

/** Variable of the bundled library in a script of declared functions. */
export const LIBRARY_VARIABLE = 'homeTariffFunctions';

interface DeclarationOptions {
  /** The rest of the `@customfunction` line. */
  tagSuffix: (described: DescribedFunction) => string;
  /** Argument as it stands in an `@param` line, for example `{any} [days]`. */
  parameter: (argument: ArgumentDescription) => string;
  /** Type of the result, for example `any[][]`. */
  resultType: (described: DescribedFunction) => string;
  /** Before a function's name in its examples. */
  prefix: string;
  /** A line after the function; none by default. */
  afterwards?: (described: DescribedFunction) => string;
}

/**
 * Declares each function for hosts that find custom functions by their doc comments: help, parameters, and a call
 * into the bundled library.
 *
 * @returns JavaScript text
 */
export function functionDeclarations(
  functions: readonly DescribedFunction[],
  { tagSuffix, parameter, resultType, prefix, afterwards }: DeclarationOptions,
): string {
  return functions
    .map((described) => {
      const { cellName, arguments: all, result } = described;
      const names = all.map(({ name }) => name).join(', ');
      return [
        '/**',
        ` * ${functionHelp(described, ',', prefix)}`,
        ` * @customfunction${tagSuffix(described)}`,
        ...all.map((argument) => ` * @param ${parameter(argument)} ${argumentHelp(argument)}`),
        ` * @return {${resultType(described)}} ${result.description}`,
        ' */',
        `function ${cellName}(${names}) {`,
        `  return ${LIBRARY_VARIABLE}.call("${cellName}", [${names}]);`,
        '}',
        ...(afterwards === undefined ? [] : [afterwards(described)]),
        '',
      ].join('\n');
    })
    .join('\n');
}
