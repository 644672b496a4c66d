import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { examplesWorkbook } from '../src/addons/examples/examples-workbook.js';
import { EXAMPLES_FILE, HOST_ADVICE, HOST_NAMES, type Host } from '../src/addons/examples/host-names.js';

for (const host of Object.keys(HOST_NAMES) as Host[]) {
  const folder = join('out', 'addons', 'examples', host);
  mkdirSync(folder, { recursive: true });
  const path = join(folder, EXAMPLES_FILE);
  writeFileSync(path, await examplesWorkbook(HOST_NAMES[host], HOST_ADVICE[host]));
  console.log(path);
}
