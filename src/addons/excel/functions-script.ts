import { describedFunctions } from '../../functions/index.js';
import { EXCEL_NAMESPACE } from '../examples/host-names.js';
import { ADDON_NAME, ADDON_VERSION } from '../shared/addon-names.js';
import { bundleScript } from '../shared/bundle-script.js';
import { functionDeclarations, LIBRARY_VARIABLE } from '../shared/function-declarations.js';
import { excelFunctionId } from './functions-metadata.js';

/**
 * The one script of the Excel add-in: the library, and each function declared and registered.
 *
 * @returns JavaScript that needs no global but Excel's `CustomFunctions`
 */
export async function excelFunctionsScript(): Promise<string> {
  const library = await bundleScript({
    entry: new URL('./call-from-excel.ts', import.meta.url),
    platform: 'neutral',
    globalName: LIBRARY_VARIABLE,
    banner: `// ${ADDON_NAME} ${ADDON_VERSION}`,
  });
  const declarations = functionDeclarations(describedFunctions, {
    tagSuffix: ({ cellName }) => ` ${excelFunctionId(cellName)} ${cellName}`,
    parameter: ({ name, shape, optional }) =>
      `{${shape === 'cell' ? 'any' : 'any[][]'}} ${optional ? `[${name}]` : name}`,
    resultType: ({ result }) => (result.shape === 'cell' ? 'any' : 'any[][]'),
    prefix: `${EXCEL_NAMESPACE}.`,
    afterwards: ({ cellName }) => `CustomFunctions.associate("${excelFunctionId(cellName)}", ${cellName});`,
  });
  return `${library}\n${declarations}`;
}
