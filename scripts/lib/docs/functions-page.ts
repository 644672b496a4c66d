import { fileURLToPath } from 'node:url';
import { ADDON_CAUTION } from '../../../src/addons/shared/addon-names.js';
import { describedFunctions } from '../../../src/functions/index.js';
import { HEATING_CAUTIONS } from '../../../src/heating/cautions.js';
import { TIMER_CAUTIONS } from '../../../src/timers/cautions.js';
import { functionsMarkdown } from './functions-markdown.js';

/** Where the page of all public functions is kept. */
export const FUNCTIONS_PAGE_PATH = fileURLToPath(
  new URL('../../../src/functions/FUNCTIONS.md', import.meta.url),
);

/** The page as the descriptions say it now, Markdown. */
export const functionsPage = (): string =>
  functionsMarkdown(describedFunctions, ADDON_CAUTION, { heating: HEATING_CAUTIONS, timers: TIMER_CAUTIONS });
