import { strToU8, type Zippable, zipSync } from 'fflate';
import { calcAddonFiles } from './calc-addon-files.js';

/** File name of the LibreOffice extension. */
export const CALC_ADDON_FILE = 'home-tariff-functions.oxt';
// The earliest time that a zip can say: the same sources give the same bytes.
const UNDATED = '1980-01-01T00:00:00';

/**
 * Builds the LibreOffice extension.
 *
 * @returns bytes of the `.oxt`, the same for the same sources
 */
export async function calcAddon(): Promise<Uint8Array> {
  const entries: Zippable = {};
  for (const [path, content] of await calcAddonFiles()) {
    entries[path] = [typeof content === 'string' ? strToU8(content) : content, { mtime: UNDATED, level: 9 }];
  }
  return zipSync(entries);
}
