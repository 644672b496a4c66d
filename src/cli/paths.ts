import { fileURLToPath } from 'node:url';

const root = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Files and folders of the project. */
export const PATHS = {
  startingInputs: root('workbook-template/starting-inputs.json'),
  template: root('workbook-template/home-tariff-workbook.xlsx'),
  out: root('out'),
  pictures: root('workbook-template/pictures'),
  sample: root('out/sample'),
  filled: root('out/home-tariff-workbook.xlsx'),
} as const;
