import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { CALC_ADDON_FILE, calcAddon } from '../src/addons/calc/calc-addon.js';

const folder = join('out', 'addons', 'calc');
mkdirSync(folder, { recursive: true });
const path = join(folder, CALC_ADDON_FILE);
writeFileSync(path, await calcAddon());
console.log(`${path}: open it with LibreOffice, or: unopkg add ${path}`);
