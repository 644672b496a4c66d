import { SHEETS } from '../layout.js';
import type { StyleName } from '../look/styles.js';
import type { Book } from './book.js';
import { formula, label } from './cells.js';
import { periodRef } from './period-line.js';
import { ref } from './references.js';
import type { Cell } from './sheet-model.js';
import { TODAYS_IS_PRICED_NAME } from './tariff-rows.js';

/** Defined name of the cell that says whether the bill as metered is another than today's tariff has in the comparison. */
export const STANDS_APART_NAME = 'as_metered_stands_apart';
/** Defined name of the cell that has it in a sentence. */
export const AS_METERED_WORDS_NAME = 'as_metered_words';

/** What the bill as metered is called, on the sheet and in a chart. */
export const AS_METERED = 'As metered';
const HEADING = `${AS_METERED}, on today’s tariff`;

/** The heading; with the latest rates in it, the bill is not one that was ever sent. */
function headingFormula({ workings }: Book): string {
  return `"${HEADING}"&IF(${ref(workings.calendar.ratesAsOf)}>0,", latest rates","")`;
}

/** Whether a battery took or gave something in the readings of the period, or one is entered, and the bill can be told. */
export function standsApartFormula(book: Book): string {
  const { months, battery, asMetered } = book.workings;
  const readings = periodRef(book, asMetered.months.batteryReadings);
  return (
    `IF(OR(${TODAYS_IS_PRICED_NAME}=0,${periodRef(book, months.metered)}=0),0,` +
    `IF(OR(${readings}>0,${ref(battery.usableKwh)}>0),1,0))`
  );
}

/** The bill as metered in a sentence; blank where the comparison says it already. */
export function asMeteredWordsFormula(book: Book): string {
  const { total, importKwh, exportKwh } = book.workings.asMetered.months;
  return (
    `IF(${STANDS_APART_NAME}=0,"","${HEADING} "&todays_name&IF(${ref(book.workings.calendar.ratesAsOf)}>0,", at its latest rates","")&": "&currency_symbol&FIXED(${periodRef(book, total)},2)` +
    `&" for "&FIXED(${periodRef(book, importKwh)},0)&" kWh bought and "&FIXED(${periodRef(book, exportKwh)},0)&" kWh exported.")`
  );
}

/** What the meter had in the period, in words that stand within a text. */
export function meteredKwhWords(book: Book): string {
  const { importKwh, exportKwh } = book.workings.asMetered.months;
  return `metered: "&FIXED(${periodRef(book, importKwh)},0)&" kWh bought, "&FIXED(${periodRef(book, exportKwh)},0)&" kWh exported`;
}

/**
 * The bill as the meter had it, on today's tariff, whatever a battery did: to be held against what was paid.
 *
 * @param header row of the headings; the figures stand below
 */
export function asMeteredCells(book: Book, header: number): Cell[] {
  const row = header + 1;
  const { importKwh, energy, standing, exportCredit, total } = book.workings.asMetered.months;
  const of = (column: typeof total): string => periodRef(book, column);
  const columns: readonly [letters: string, text: string, style: StyleName, formula: string][] = [
    ['C', 'Total, {major}', 'moneyStrong', of(total)],
    ['D', 'Energy, {major}', 'money', of(energy)],
    ['E', 'Standing charge, {major}', 'money', of(standing)],
    ['F', 'Less export credit, {major}', 'money', of(exportCredit)],
    [
      'G',
      'All-in before export, {minor}/kWh',
      'rate',
      `IF(${of(importKwh)}>0,(${of(energy)}+${of(standing)})*100/${of(importKwh)},"")`,
    ],
    ['H', 'Bought, kWh', 'kwh', of(importKwh)],
  ];
  const name =
    `IF(OR(to_do_words<>"",${periodRef(book, book.workings.months.metered)}=0),"",IF(${TODAYS_IS_PRICED_NAME}=0,"no total: see ${SHEETS.tariffs}",` +
    `IF(${STANDS_APART_NAME}=0,"as today’s tariff below",todays_name)))`;
  return [
    label(`A${header}`, '', 'header'),
    formula(`B${header}`, headingFormula(book), 'headerLeft'),
    formula(`B${row}`, name, 'tariffName'),
    ...columns.flatMap(([letters, text, style, is]) => [
      label(`${letters}${header}`, text, 'header'),
      formula(`${letters}${row}`, `IF(${STANDS_APART_NAME}=0,"",${is})`, style),
    ]),
  ];
}
