import { GAS_FIELDS } from '../../fields/gas-fields.js';
import { FIRST_ROW, SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { formula, quoted } from '../cells.js';
import { ref } from '../references.js';
import type { Cell } from '../sheet-model.js';
import { DEGREE_DAYS_SOURCE } from './gas-columns.js';
import { heatingDays } from './heating-days.js';
import { figureName } from './heating-figures-rows.js';
import { GAS, GAS_HELP, heatingMonthName, temperatureName } from './heating-rows.js';

/** Where the parts stand on the heating sheet: right of everything that is printed, below the parts of the sentences. */
const [PARTS, FIRST] = ['S', 28];

/** Days in use whose degree days are found in another way than those of the readings' own temperatures. */
export const OTHER_WAY_NAME = 'days_found_in_another_way';

/**
 * Counts the days of the temperatures by day that are in use beside temperatures of the readings, and of another kind: by
 * maximum and minimum where the readings count by daily means, by the mean where they count by half-hours.
 *
 * @param book inputs and workings
 * @returns cells of the heating sheet, counts of days; the last has the name {@link OTHER_WAY_NAME}
 * @example otherWayCells(book).at(-1)?.at // 'S34'
 */
export function otherWayCells(book: Book): Cell[] {
  const { degreeDays, tableDegreeDays } = heatingDays(book);
  const gas = (letters: string): string =>
    `'${SHEETS.gas}'!$${letters}$${FIRST_ROW}:$${letters}$${FIRST_ROW + GAS_FIELDS.length - 1}`;
  const fromTable = [DEGREE_DAYS_SOURCE.temperatures, DEGREE_DAYS_SOURCE.scaled]
    .map((source) => `SUMIFS(${gas(GAS_HELP.tableDays)},${gas(GAS.source)},${quoted(source)})`)
    .join('+');
  const dates = temperatureName('date');
  /** Days of the table within a stretch for which a figure is known. */
  const known = (first: string, last: string, figure: 'degreeDays' | 'fromMaxMin'): string =>
    `COUNTIFS(${dates},">="&MIN(${first}),${dates},"<="&MAX(${last}),${temperatureName(figure)},">=0")`;
  const ofGas = [gas(GAS.firstDay), gas(GAS.lastDay)] as const;
  const ofReadings = [ref(book.workings.calendar.date), ref(book.workings.calendar.date)] as const;
  // No more than are in use: on days of the readings' own temperatures the table's are not.
  const other = (used: string, all: string, maxMin: string): string =>
    `MIN(${used},IF(${figureName('degreeDayMethod')}="half-hours",${all}-${maxMin},${maxMin}))`;
  const lines: readonly (readonly [name: string, text: string])[] = [
    [
      'days_of_own_temperatures',
      `IF(SUM(${heatingMonthName('daysWithTemperature')})=0,0,COUNT(${ref(degreeDays)})-COUNT(${ref(tableDegreeDays)}))`,
    ],
    ['gas_days_from_table', fromTable],
    ['gas_days_in_table', known(...ofGas, 'degreeDays')],
    ['gas_days_by_max_min', known(...ofGas, 'fromMaxMin')],
    ['read_days_from_table', `COUNT(${ref(tableDegreeDays)})`],
    ['read_days_in_table', known(...ofReadings, 'degreeDays')],
    ['read_days_by_max_min', known(...ofReadings, 'fromMaxMin')],
    [
      OTHER_WAY_NAME,
      `IF(days_of_own_temperatures=0,0,${other('gas_days_from_table', 'gas_days_in_table', 'gas_days_by_max_min')}` +
        `+${other('read_days_from_table', 'read_days_in_table', 'read_days_by_max_min')})`,
    ],
  ];
  return lines.map(([name, text], i) => formula(`${PARTS}${FIRST + i}`, text, 'hint', { name }));
}
