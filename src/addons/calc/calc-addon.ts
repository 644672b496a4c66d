import { strToU8, type Zippable, zipSync } from 'fflate';
import { ZIP_DATE } from '../../workbook/package/zip-date.js';
import { calcAddonFiles } from './calc-addon-files.js';

/** File name of the LibreOffice extension. */
export const CALC_ADDON_FILE = 'home-tariff-functions.oxt';

/**
 * Builds the LibreOffice extension.
 *
 * @returns bytes of the `.oxt`, the same for the same sources
 */
export async function calcAddon(): Promise<Uint8Array> {
  const entries: Zippable = {};
  for (const [path, content] of await calcAddonFiles()) {
    entries[path] = [typeof content === 'string' ? strToU8(content) : content, { mtime: ZIP_DATE, level: 9 }];
  }
  return zipSync(entries);
}
