import { expect } from 'vitest';
import { carryWorkbook } from '../../../src/workbook/carry/carry-workbook.js';
import { cellAt, columnLetters, columnNumber, parseCell } from '../../../src/workbook/cell-address.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { formulaCell, withCells, withParts } from '../edit-package.js';
import { NOW } from '../template.js';

export const OLD = 'old.xlsx';

/** What the cells of a sheet hold, formulas as such. */
export function cellsOf(bytes: Uint8Array, sheet: string): Map<string, unknown> {
  const cells = new Map<string, unknown>();
  const reader = openWorkbookPackage(bytes, OLD).readSheet(sheet);
  while (reader.next()) {
    const value = reader.hasFormula ? `=${reader.formula}` : reader.value;
    if (value !== null) cells.set(reader.name, value);
  }
  return cells;
}

/** Holds a number to one that a workbook of layout 5 or before stored: to twelve digits, which is all that its long columns kept. */
export function expectAsStored(now: unknown, stored: number, at: string): void {
  const digits = Math.floor(Math.log10(Math.max(1, Math.abs(stored)))) + 1;
  expect(now, at).toBeCloseTo(stored, Math.min(9, 12 - digits));
}

/** Cells of some columns from a row on, by name. */
export function table(
  bytes: Uint8Array,
  sheet: string,
  columns: RegExp,
  fromRow: number,
): [string, unknown][] {
  return [...cellsOf(bytes, sheet)].filter(([at]) => {
    const [, letters = '', row] = /^([A-Z]+)(\d+)$/.exec(at) ?? [];
    return columns.test(letters) && Number(row) >= fromRow;
  });
}

/** The same without formulas. */
export const typedIn = (
  bytes: Uint8Array,
  sheet: string,
  columns: RegExp,
  fromRow: number,
): [string, unknown][] =>
  table(bytes, sheet, columns, fromRow).filter(([, value]) => !String(value).startsWith('='));

/** That a sheet holds what some cells held, so many columns further right. */
export function expectMoved(
  bytes: Uint8Array,
  sheet: string,
  columns: number,
  before: readonly [string, unknown][],
): void {
  const now = cellsOf(bytes, sheet);
  expect(before.length).toBeGreaterThan(5);
  const moved = before.map(([at, value]): [string, unknown] => {
    const { row, column } = parseCell(at);
    return [cellAt(column + columns, row), value];
  });
  expect(moved.map(([at]) => [at, now.get(at)])).toEqual(moved);
}

const tariffNumbers = [1, 2, 3, 4, 5, 6, 7, 8];

/** What cells say today that said it otherwise, or nothing, in earlier workbooks. */
export const REWORDED: ReadonlyMap<string, unknown> = new Map<string, unknown>([
  // A free place for a tariff has not all that a total needs.
  ['Tariffs!I98', 0],
  ['Tariffs!J98', 0],
  [
    'Battery!B32',
    'Above the best possible: what the rule costs more than the best schedule that anyone could find who knew every rate and all demand beforehand. Where the battery may export at more than some unit rate, that schedule may also buy in order to sell; suppliers may bar that (common practice, no source). No formula finds that, so the fill writes it; it says so when an input has changed since. The share reached is blank where no schedule saves anything. Cycles a year: kWh delivered ÷ usable capacity. Value left in store: what the level gained, each stored kWh at the mean of the days’ lowest unit rates ÷ charge efficiency.',
  ],
  ['Checks!D6', 'Paste half-hours into Readings, run the fill, or choose months on Answer that have some.'],
  ['Checks!A19', 'Half-hours of demand below zero that are no fault: noise, or sun that no channel meters'],
  [
    'Checks!D19',
    'If a meter counts your sun, add its channel; else nothing to do: use of your own sun is in no figure.',
  ],
  ['Checks!A53', 'A battery ran, half-hours lack its readings'],
  [
    'Checks!D53',
    'Their import already holds the battery’s shifting: tariffs look better or worse than they would be. Fill both channels from its first day on.',
  ],
  [
    'Checks!D54',
    'Battery says which: powers above 0 kW, efficiencies above 0 % and at most 100 %, nothing negative. Until then it counts as no battery.',
  ],
  [
    'When!A2',
    'The average day of each month as metered, days with a clock change left out, whatever a battery did: the last 12 months chosen on Answer. Deeper colours are more. Protected against slips, without a password.',
  ],
  ['Charts!BE1', 'Half-hours metered, clock changes left out'],
  [
    'Charts!AO3',
    'Tariff: the one looked at on Battery. Half-hours count from midnight, on days on which the clock changes too.',
  ],
  [
    'Timers!B41',
    'The cheapest hours of a usual day (a week’s mean at the rates of the last day): the longest stretch at the lowest rate; by a half-hourly price, that at the lowest mean of both.',
  ],
  [
    'Heating!A66',
    'One figure changed, all else as it is. Gas rate: in percent of each month’s own. Change the figures at the right, in column AD.',
  ],
  [
    'Heating!F71',
    'One varied at a time, on the mean of (a) and (b), months with less heat than hot water like the rest. How far: at the right, under How sure.',
  ],
  ...(['heat_pump_metered', 'car_with_timer'] as const).map((of, i): [string, string] => [
    `Grid!${'NO'[i]}4`,
    `IF(SUM($M8)<=0,0,${of}*$M8/MAX($M8,heat_pump_metered+car_with_timer))`,
  ]),
  // Days with maximum and minimum have a way of their own.
  [
    'Heating!Y30',
    'Daily mean: as days of which only the mean is known, so that both years are measured alike. Half-hours: more exact, for two years of half-hours or of maximum and minimum. Days with maximum and minimum go by these either way.',
  ],
  // Long columns have their formula under a name.
  [
    'Grid!A2',
    'Workings: every half-hour from the first day on, whatever order the readings are in. Nothing to fill in. Where cells show a name, row 4 says what it stands for in the first row; the program’s list of names has the names in that. Protected against slips, without a password.',
  ],
  [
    'Days!A2',
    'Workings: one row a calendar day. Nothing to fill in. Where cells show a name, row 4 says what it stands for in the first row; the program’s list of names has the names in that. Protected against slips, without a password.',
  ],
  [
    'Days!NQ2',
    'Workings: what the battery meets on the average day of each month. Nothing to fill in. Where cells show a name, row 4 says what it stands for in the first row; the program’s list of names has the names in that.',
  ],
  [
    'Months!A2',
    'Workings: one row a calendar month, with the bill lines of every tariff. Nothing to fill in. Where cells show a name, row 4 says what it stands for in the first row; the program’s list of names has the names in that. Protected against slips, without a password.',
  ],
  [
    'Months!TA2',
    'Workings: the level that the battery fills up to and the one that it keeps, by month and set of rates, for each run of half-hours at one rate. Nothing to fill in. Where cells show a name, row 4 says what it stands for in the first row; the program’s list of names has the names in that.',
  ],
  [
    'Rate grid!A2',
    'Workings: what each half-hour of a week costs on every tariff, set of rates by set. Nothing to fill in. Where cells show a name, row 4 says what it stands for in the first row; the program’s list of names has the names in that. Protected against slips, without a password.',
  ],
  ...tariffNumbers.map((t): [string, string] => [
    `Months!${columnLetters(columnNumber('TC') + 7 * (t - 1))}5`,
    `Runs of sets before, tariff ${t}`,
  ]),
]);

/** What sentences say today that said it otherwise in earlier workbooks. */
const REPHRASED: readonly (readonly [before: RegExp, today: string])[] = [
  [/^1 of (\d+) checks ask /, '1 of $1 checks asks '],
  // Six ask about figures that look mistyped.
  [/ of 65 checks /, ' of 72 checks '],
  [/(it takes 3 spans of four whole weeks one after another, and) there are /, '$1 the period has '],
  [/the 1 milder ones took/, 'the 1 milder one took'],
  [/On the 1 coldest days/, 'On the 1 coldest day'],
  [/1 of 1 months\)/, '1 of 1 month)'],
  [/(months?) (are|is) not a year/, '$1 compared $2 not a year'],
  [/(stored energy at the day’s average cost)(; its sun|, the roof)/, '$1 and wear (in no bill)$2'],
  // Notes.
  [
    /(A change of rates holds from local midnight \(common practice, no source\)\.)$/,
    '$1 When leaves days on which the clock changes out of its averages; Battery’s average day counts half-hours from midnight on them too.',
  ],
  [
    /(with that one by its rule\.) What was paid/,
    '$1 Without the battery that ran: import − export + battery out − battery in of each half-hour; what was both bought and exported in it counts both ways only where that battery did nothing in it. What was paid',
  ],
  [
    /(as a bill does on its line\.) Export/,
    '$1 A change of rates that ties is in the tariff’s own terms, to be typed: without VAT where its rates are. Export',
  ],
  [
    /(never filled in unless that was chosen\.)$/,
    '$1 What the heat pump costs through the battery holds the battery’s wear, which no bill has.',
  ],
  [
    /(2012 to 2015, NOAA\))\. Part of/,
    '$1, and 30 % of what cold beyond the coldest month metered costs: of heated homes begun in spring it holds in seven cases of ten. Part of',
  ],
  [/(count as metered); five at least/, '$1, one with gaps scaled to its days; five at least'],
  [
    /of nights with a change of the clock or of rates/,
    'of both nights that touch a day with a change of the clock, of nights with a change of rates',
  ],
  [/^Change of rates that ties, /, 'Change of typed rates that ties, '],
  [/^(They tie where every unit rate of the first) rises/, '$1, as typed, rises'],
  [/; ([\d.]+ %) of half-hours metered\./, '; import metered in $1 of half-hours.'],
  [/Not enough for a year: it takes 5/, 'Not enough for a year’s cost: it takes 5'],
];

/** VAT of the kept workbooks, and where they tell what makes a tariff tie whose rates are typed without it: today to be typed. */
const VAT_FACTOR = 1.05;
const TIES_WITHOUT_VAT: ReadonlySet<string> = new Set(['Answer!G23', 'Tariffs!G15']);

/**
 * Whether a cell tells an average of *When*: today without the day on which the clock changed, which the kept workbooks
 * counted; that they agree with the readings is for verify.
 */
export function isAverageOfWhen(sheet: string, at: string, before: unknown): boolean {
  return sheet === 'When' && (typeof before === 'number' || at === 'A3');
}

/** What a cell says today, from what it held in an earlier workbook. */
export function saidToday(sheet: string, at: string, before: unknown): unknown {
  if (typeof before === 'number' && TIES_WITHOUT_VAT.has(`${sheet}!${at}`)) return before / VAT_FACTOR;
  const other = REWORDED.get(`${sheet}!${at}`);
  if (other !== undefined || typeof before !== 'string') return other ?? before;
  return REPHRASED.reduce((text, [old, today]) => text.replace(old, today), before);
}

/** The same workbook with the formulas of a sheet taken out, so that their stored values are seen. */
export function openedValues(bytes: Uint8Array, sheet = 'Tariffs'): Uint8Array {
  const workbook = openWorkbookPackage(bytes, OLD);
  return withParts(bytes, {
    [workbook.sheetPart(sheet)]: (xml) => xml.replace(/<f [^>]*\/>|<f[\s>][\s\S]*?<\/f>/g, ''),
  });
}

/** Defined names that a workbook has more than once, for which a spreadsheet program calls it damaged. */
export function namesHeldTwice(bytes: Uint8Array): string[] {
  const names = openWorkbookPackage(bytes, OLD)
    .definedNames()
    .filter(({ sheet }) => sheet === undefined)
    .map(({ name }) => name.toLowerCase());
  return names.filter((name, i) => names.indexOf(name) < i);
}

/** Holds the totals of all tariffs to those that the old workbook stored, to the penny. */
export function expectSameTotals(old: Uint8Array, carried: Uint8Array): void {
  const [before, now] = [old, carried].map((bytes) => cellsOf(openedValues(bytes), 'Tariffs'));
  for (const letters of 'CDEFGH') {
    expect(now?.get(`${letters}6`), letters).toBeGreaterThan(10);
    expect(now?.get(`${letters}6`), letters).toBe(before?.get(`${letters}6`));
  }
}

/** What is not carried of a workbook whose owner wrote formulas on *Answer*, and gave a number a name. */
export async function notCarriedOf(
  old: Uint8Array,
  formulas: Readonly<Record<string, string>>,
  name: string,
): Promise<string[]> {
  const cells = Object.entries(formulas).map(([at, formula]) => [at, formulaCell(at, formula, 7)]);
  const own = withParts(withCells(old, { Answer: Object.fromEntries(cells) }), {
    'xl/workbook.xml': (xml) =>
      xml.replace('</definedNames>', `<definedName name="${name}">7</definedName></definedNames>`),
  });
  const { notCarried } = await carryWorkbook(own, OLD, { now: NOW });
  return notCarried.map(({ at }) => at);
}
