import type { ArgumentDescription } from '../../functions/described-function.js';
import { describedFunctions } from '../../functions/index.js';
import { ADDON_CAUTION, ADDON_NAME, ADDON_VERSION } from '../shared/addon-names.js';
import { bundleScript } from '../shared/bundle-script.js';
import { functionDeclarations, LIBRARY_VARIABLE } from '../shared/function-declarations.js';
import type { AddonFiles } from '../shared/write-files.js';

/** The one script of the Apps Script project. */
export const SHEETS_SCRIPT = 'Code.gs';

/**
 * The Apps Script project for Google Sheets.
 *
 * @param timeZone IANA name, the same as the spreadsheet's
 * @returns files by name
 * @throws RangeError when no time zone has that name
 */
export async function sheetsAddonFiles(timeZone: string): Promise<AddonFiles> {
  new Intl.DateTimeFormat('en-GB', { timeZone });
  const manifest = { timeZone, dependencies: {}, exceptionLogging: 'STACKDRIVER', runtimeVersion: 'V8' };
  return new Map([
    ['appsscript.json', `${JSON.stringify(manifest, null, 2)}\n`],
    [SHEETS_SCRIPT, await script()],
  ]);
}

async function script(): Promise<string> {
  const library = await bundleScript({
    entry: new URL('./call-from-sheets.ts', import.meta.url),
    platform: 'neutral',
    globalName: LIBRARY_VARIABLE,
    // The tag keeps the script from asking for more than the one spreadsheet.
    banner: `/**\n * ${ADDON_NAME} ${ADDON_VERSION}. ${ADDON_CAUTION}\n * @OnlyCurrentDoc\n */`,
  });
  const declarations = functionDeclarations(describedFunctions, {
    tagSuffix: () => '',
    parameter: (argument) =>
      `{${parameterType(argument)}} ${argument.optional ? `[${argument.name}]` : argument.name}`,
    resultType: ({ result }) => (result.shape === 'cell' ? 'any' : 'any[][]'),
    prefix: '',
  });
  return `${library}\n${declarations}`;
}

function parameterType({ shape, kind }: ArgumentDescription): string {
  if (shape !== 'cell') return 'range';
  if (kind === 'text') return 'string';
  return kind === 'yesNo' ? 'boolean' : kind === 'number' ? 'number' : 'date';
}
