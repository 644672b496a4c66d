import { readFileSync } from 'node:fs';
import { describedFunctions } from '../../functions/index.js';
import {
  ADDON_CAUTION,
  ADDON_NAME,
  ADDON_PROVIDER,
  ADDON_SUMMARY,
  ADDON_VERSION,
} from '../shared/addon-names.js';
import { bundleScript } from '../shared/bundle-script.js';
import { argumentHelp, functionHelp } from '../shared/help-text.js';
import type { AddonFiles } from '../shared/write-files.js';
import { functionsIdl, WHAT_IS_WRONG } from './functions-idl.js';

/** Never changes: LibreOffice knows the extension by it. */
const CALC_ADDON_IDENTIFIER = 'home.tariff.functions';

/**
 * Everything inside the LibreOffice extension.
 *
 * @returns files by their path in the package
 */
export async function calcAddonFiles(): Promise<AddonFiles> {
  const library = await bundleScript({
    entry: new URL('./answer-lines.ts', import.meta.url),
    platform: 'node',
    banner: `// ${ADDON_NAME} ${ADDON_VERSION}: the function library, run by Node.js for the Calc extension.`,
  });
  return new Map<string, string>([
    ['META-INF/manifest.xml', MANIFEST],
    ['description.xml', description()],
    ['description.txt', `${ADDON_SUMMARY}\n\nNeeds Node.js 20 or newer.\n\n${ADDON_CAUTION}\n`],
    ['functions.idl', functionsIdl(describedFunctions)],
    ['functions.json', `${JSON.stringify(functionsData(), null, 1)}\n`],
    ['library.cjs', library],
    ['component.py', source('component.py')],
    ['pythonpath/home_tariff_helper.py', source('pythonpath/home_tariff_helper.py')],
  ]);
}

/** What the component says about each function, and how to hand its value back. */
function functionsData() {
  return [
    ...describedFunctions.map((described) => ({
      name: described.cellName,
      category: described.category,
      help: functionHelp(described, ';'),
      isSeries: described.result.shape !== 'cell',
      arguments: described.arguments.map((argument) => ({
        name: argument.name,
        help: argumentHelp(argument),
      })),
    })),
    {
      name: WHAT_IS_WRONG.cellName,
      category: 'help',
      help: WHAT_IS_WRONG.summary,
      isSeries: false,
      arguments: WHAT_IS_WRONG.arguments,
    },
  ];
}

function source(path: string): string {
  return readFileSync(new URL(path, import.meta.url), 'utf8');
}

const MANIFEST = `<?xml version="1.0" encoding="UTF-8"?>
<manifest:manifest xmlns:manifest="http://openoffice.org/2001/manifest">
 <manifest:file-entry manifest:full-path="functions.idl" manifest:media-type="application/vnd.sun.star.uno-typelibrary;type=RDB"/>
 <manifest:file-entry manifest:full-path="component.py" manifest:media-type="application/vnd.sun.star.uno-component;type=Python"/>
</manifest:manifest>
`;

function description(): string {
  return `<?xml version="1.0" encoding="UTF-8"?>
<description xmlns="http://openoffice.org/extensions/description/2006" xmlns:xlink="http://www.w3.org/1999/xlink">
 <identifier value="${CALC_ADDON_IDENTIFIER}"/>
 <version value="${ADDON_VERSION}"/>
 <display-name><name lang="en">${ADDON_NAME}</name></display-name>
 <publisher><name lang="en" xlink:href="">${ADDON_PROVIDER}</name></publisher>
 <extension-description><src lang="en" xlink:href="description.txt"/></extension-description>
</description>
`;
}
