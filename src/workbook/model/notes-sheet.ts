import { describedFunctions } from '../../functions/index.js';
import { HEATING_CAUTIONS } from '../../heating/cautions.js';
import { TIMER_CAUTIONS } from '../../timers/cautions.js';
import { SHEETS } from '../layout.js';
import type { Book } from './book.js';
import { label } from './cells.js';
import { sheetTop } from './column-headers.js';
import type { Cell, SheetModel } from './sheet-model.js';
import { TOLD_WIDTHS, toldCells } from './told-cells.js';

/** Number of the workbook's layout: a fill or a verify knows by it whether a workbook is one of ours, and which. */
export const LAYOUT_VERSION = 8;
export const LAYOUT_NAME = 'home_tariff_workbook_layout';
export const LAYOUT_CELL = 'B4';
/** Cell with the calendar days that the workbook holds: a fill and a verify make everything else by it. */
export const DAYS_CELL = 'B5';

const ASSUMPTIONS: readonly [string, string][] = [
  [
    'Time',
    'Windows are wall-clock times of the home’s zone unless a tariff says UTC. A window past midnight belongs to the day on which it starts. A change of rates holds from local midnight (common practice, no source). When leaves days on which the clock changes out of its averages; Battery’s average day counts half-hours from midnight on them too.',
  ],
  [
    'Comparison',
    'All tariffs are compared on the same half-hours, on the flows as they would be without the battery that ran, and, where one is entered on Battery, with that one by its rule. Without the battery that ran: import − export + battery out − battery in of each half-hour; what was both bought and exported in it counts both ways only where that battery did nothing in it. What was paid is the channels as metered, on today’s tariff. Half-hours that were not metered count in no tariff; coverage says how many.',
  ],
  [
    'Money',
    'Rates are in hundredths of the currency per kWh, or per day. A tariff says whether its rates, and the half-hourly price where it follows one, hold VAT. Every bill line (energy, standing charge, export credit) is rounded half up to the hundredth once a month, as a bill does on its line. A change of rates that ties is in the tariff’s own terms, to be typed: without VAT where its rates are. Export carries no VAT.',
  ],
  ['Standing charge', 'Runs on every calendar day from the first reading to the last, whatever was metered.'],
  [
    'Off-peak',
    'Import in half-hours at the lowest of a tariff’s rates; a single rate or a half-hourly price has none.',
  ],
  [
    'Heating',
    'The boiler that is no longer there is estimated twice: (a) last year’s gas, its weather part scaled by degree days, at this period’s gas rates; (b) heat delivered ÷ boiler efficiency at the same rates. Hot water is on both sides or on neither. A month counts where its meters cover enough half-hours; degree days are never filled in unless that was chosen. What the heat pump costs through the battery holds the battery’s wear, which no bill has.',
  ],
  [
    'How sure, electricity',
    'Use in whole weeks, taken by fours; their spread is that of each four against the next (mean square successive difference, von Neumann and others 1941), the range that of the mean of days to come by Student’s t (Hahn and Meeker 1991); both from memory. Under three such spans there is none, under twelve none of a year. What is left of the seasons makes it wider; weeks that resemble the week before by more than half make it too narrow.',
  ],
  [
    'A year',
    'Calendar months of the period with nine tenths of their half-hours count as metered, one with gaps scaled to its days; five at least. The others are fitted: daily cost by least squares to degree days and to a cosine about the shortest day, or, where degree days are not known, to their usual shape. The range is a prediction interval of multiple regression (textbook, from memory), four times in five, of a year to come: doubt in the fit, scatter, other habits, other weather (2 °C a day by month, from Seattle and New York 2012 to 2015, NOAA), and 30 % of what cold beyond the coldest month metered costs: of heated homes begun in spring it holds in seven cases of ten. Part of the scatter is common to all months: how much was set on invented homes in that weather. Half-hourly prices are those of the months metered; other prices, a car or another heating to come are not in the range. With a battery and rates that changed, the year is within about 1 % (measured on the sample): the battery is taken as it ran at the rates of the day. What the battery saves has no range.',
  ],
  [
    'How sure, heating',
    'Boiler efficiency, hot water and base temperature are varied one at a time, as far as the inputs of Heating say; together by the root of the sum of squares (JCGM 100:2008, 5.1.2, from memory), and no narrower than the two estimates.',
  ],
  [
    'Bills',
    'A bill is held against its days as metered, on its tariff at the rates of those days, whatever rates the answer is priced at. Rate 1 is the base rate, rate 2 that of window 1 and of windows at the same rate, rate 3 every other; by a half-hourly price all is rate 1. A difference of kWh is weighed at the tariff’s rate, one of rates at the billed kWh, with VAT (common practice, no source).',
  ],
  [
    'Timers',
    'A load’s kWh from noon to noon are moved into its hours, from their start on, up to its power (common practice, no source); what does not fit stays at the hours at which it was metered. What was counted both as bought and exported in a half-hour stays so. Hot water is so many kWh a day at stated hours, never more than was metered in them beside the car: an assumption. Nights with a gap in the hours stay as metered. Water heated earlier loses heat until it is used, so that a tank may take more kWh than it did: they count as the same.',
  ],
  [
    'Timers, not told',
    'The least that a load can cost is told at the unit rates: sun and battery are left out. Of hours that take in noon, of both nights that touch a day with a change of the clock, of nights with a change of rates, of those in which windows add to a half-hourly price, and of what does not fit, it is not told, and the load counts as it is. What the timers save with the battery is of the last fill, of the timers that were on or, while none was, of those whose hours were typed; it says when it is out of date.',
  ],
  [
    'Exit fee',
    'Part of what a switch saves in its first year, in the sentence and beside the difference; never inside a total.',
  ],
];

const CAUTIONS: readonly string[] = [
  'Figures are estimates from the readings and rates given, not a bill, a quote or advice. Check a tariff’s terms, its exit fee and your meter with the supplier before you switch.',
  ...HEATING_CAUTIONS.slice(1),
  ...TIMER_CAUTIONS.slice(1),
  'Batteries, inverters, wiring and the grid connection are work for qualified installers under the local codes and the network operator’s rules; the maker’s limits on cycles and temperature stand above any schedule shown here.',
];
const FUNCTIONS = `What is worked out here is also a library of ${describedFunctions.length} functions. Each is described with its arguments, units, source and formula on one page, src/functions/FUNCTIONS.md of the project.`;
/** Last column of the text. */
const LAST = 'C';
const section = (row: number, text: string): Cell =>
  label(`A${row}`, text, 'section', { mergeTo: `${LAST}${row}` });

/** What the figures mean: assumptions, cautions, where the functions are described. */
export function notesSheet({ shape }: Book): SheetModel {
  const cells: Cell[] = [
    ...sheetTop('Notes', 'What the figures mean, how they are worked out, and where the methods come from.'),
    label('A4', 'Layout', 'label'),
    label(LAYOUT_CELL, LAYOUT_VERSION, 'integer'),
    label('A5', 'Days that it holds', 'label'),
    label(DAYS_CELL, shape.days, 'integer'),
    section(6, 'Assumptions'),
  ];
  let row = 7;
  for (const [topic, text] of ASSUMPTIONS) {
    cells.push(
      label(`A${row}`, topic, 'labelStrong'),
      label(`B${row}`, text, 'paragraph', { mergeTo: `${LAST}${row}` }),
    );
    row++;
  }
  row++;
  cells.push(section(row, 'Cautions'));
  row++;
  for (const text of CAUTIONS) {
    cells.push(label(`A${row}`, text, 'paragraph', { mergeTo: `${LAST}${row}` }));
    row++;
  }
  row++;
  cells.push(section(row, 'Functions of the library'));
  row++;
  cells.push(label(`A${row}`, FUNCTIONS, 'paragraph', { mergeTo: `${LAST}${row}` }));
  return {
    name: SHEETS.notes,
    tab: 'notes',
    widths: { A: 20, B: 12, [LAST]: 130, ...TOLD_WIDTHS },
    protected: true,
    landscape: true,
    printArea: `A1:${LAST}${row}`,
    cells: [...cells, ...toldCells()],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
