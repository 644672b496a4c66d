import type { DescribedFunction } from '../../functions/described-function.js';
import { EXCEL_NAMESPACE } from '../examples/host-names.js';
import { argumentHelp, functionHelp } from '../shared/help-text.js';

interface ExcelParameter {
  name: string;
  description: string;
  /** `any`: text and blanks reach the library, which says what is wrong. */
  type: 'any';
  dimensionality?: 'matrix';
  optional?: true;
}

interface ExcelFunction {
  id: string;
  name: string;
  description: string;
  parameters: ExcelParameter[];
  result: { dimensionality?: 'matrix' };
}

/** What Excel is told about the custom functions. */
interface ExcelMetadata {
  /** Errors in arguments reach the library too. */
  allowErrorForDataTypeAny: true;
  functions: ExcelFunction[];
}

/**
 * The name under which Excel knows a function for good: letters and digits only.
 *
 * @example excelFunctionId('ADD_VAT') // 'ADDVAT'
 */
export function excelFunctionId(cellName: string): string {
  return cellName.replaceAll('_', '');
}

/** The custom functions' metadata, content of `functions.json`. */
export function excelMetadata(functions: readonly DescribedFunction[]): ExcelMetadata {
  return {
    allowErrorForDataTypeAny: true,
    functions: functions.map((described) => ({
      description: functionHelp(described, ',', `${EXCEL_NAMESPACE}.`),
      id: excelFunctionId(described.cellName),
      name: described.cellName,
      parameters: described.arguments.map((argument) => ({
        description: argumentHelp(argument),
        ...(argument.shape === 'cell' ? {} : { dimensionality: 'matrix' as const }),
        name: argument.name,
        ...(argument.optional ? { optional: true as const } : {}),
        type: 'any' as const,
      })),
      result: described.result.shape === 'cell' ? {} : { dimensionality: 'matrix' as const },
    })),
  };
}
