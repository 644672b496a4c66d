import { describedFunctions } from '../../functions/index.js';
import type { AddonFiles } from '../shared/write-files.js';
import { excelMetadata } from './functions-metadata.js';
import { excelFunctionsPage } from './functions-page.js';
import { excelFunctionsScript } from './functions-script.js';
import { iconPng } from './icon-png.js';
import { excelManifest, ICON_SIZES } from './manifest.js';

/** Name of the file that people give to Excel. */
export const MANIFEST_FILE = 'manifest.xml';

/**
 * The Excel add-in as a folder ready to be hosted.
 *
 * @param baseUrl as for {@link excelManifest}
 * @returns files by name
 */
export async function excelAddonFiles(baseUrl: string): Promise<AddonFiles> {
  return new Map<string, string | Uint8Array>([
    [MANIFEST_FILE, excelManifest(baseUrl)],
    ['functions.json', `${JSON.stringify(excelMetadata(describedFunctions), null, 2)}\n`],
    ['functions.js', await excelFunctionsScript()],
    ['functions.html', excelFunctionsPage()],
    ...ICON_SIZES.map((size): [string, Uint8Array] => [`icon-${size}.png`, iconPng(size)]),
  ]);
}
