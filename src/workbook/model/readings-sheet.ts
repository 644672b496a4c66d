import type { StyleName } from '../build/styles.js';
import { FIRST_ROW, LAST_READING_ROW, READING_ROWS, SEED_ROW, SHEETS } from '../layout.js';
import { label } from './cells.js';
import { sheetTop } from './column-headers.js';
import { READING as R } from './columns.js';
import type { Cell, InputColumn, SheetModel } from './sheet-model.js';

const COLUMNS: readonly { letters: string; text: string; unit: string; style: StyleName }[] = [
  { letters: R.start, text: 'Start of half-hour', unit: 'local date and time', style: 'inputDateTime' },
  { letters: R.offset, text: 'Clock offset', unit: 'h from UTC, may stay blank', style: 'inputOffset' },
  { letters: R.importKwh, text: 'Import', unit: 'kWh', style: 'inputKwh' },
  { letters: R.exportKwh, text: 'Export', unit: 'kWh', style: 'inputKwh' },
  { letters: R.solarKwh, text: 'Solar', unit: 'kWh', style: 'inputKwh' },
  { letters: R.batteryInKwh, text: 'Battery in', unit: 'kWh', style: 'inputKwh' },
  { letters: R.batteryOutKwh, text: 'Battery out', unit: 'kWh', style: 'inputKwh' },
  { letters: R.heatPumpKwh, text: 'Heat pump', unit: 'kWh', style: 'inputKwh' },
  { letters: R.heatOutputKwh, text: 'Heat output', unit: 'kWh', style: 'inputKwh' },
  { letters: R.carKwh, text: 'Car', unit: 'kWh', style: 'inputKwh' },
  { letters: R.outdoorC, text: 'Outdoor', unit: '°C', style: 'inputNumber' },
  { letters: R.pricePence, text: 'Half-hourly price', unit: '{minor}/kWh', style: 'inputRate' },
  { letters: R.mark, text: 'Mark', unit: 'E estimated', style: 'inputChoice' },
];

/** Where the half-hours are pasted or filled in. */
export function readingsSheet(): SheetModel {
  const headers: Cell[] = COLUMNS.flatMap(({ letters, text, unit }) => [
    label(`${letters}${SEED_ROW - 1}`, text, 'header'),
    label(`${letters}${SEED_ROW}`, unit, 'headerUnit'),
  ]);
  const inputColumns: InputColumn[] = COLUMNS.map(({ letters, style }) => ({
    letters,
    firstRow: FIRST_ROW,
    rows: READING_ROWS,
    style,
  }));
  return {
    name: SHEETS.readings,
    tab: 'input',
    widths: Object.fromEntries(COLUMNS.map(({ letters }) => [letters, letters === R.start ? 18 : 12])),
    heights: { [SEED_ROW]: 30 },
    freeze: { columns: 1, rows: SEED_ROW },
    protected: false,
    landscape: true,
    printTitleRows: `${SEED_ROW - 1}:${SEED_ROW}`,
    cells: [
      ...sheetTop(
        'Readings',
        `One row a half-hour, oldest first, up to row ${LAST_READING_ROW.toLocaleString('en')}. Paste below the last row, or let the fill do it.`,
      ),
      label(
        'A3',
        'Times are starts of half-hours by the home’s clock. Leave a value blank where nothing was metered.',
        'hint',
      ),
      label(
        'A4',
        `After a paste, look at ${SHEETS.checks}: dates that arrived as text are counted there.`,
        'hint',
      ),
      ...headers,
    ],
    formulaColumns: [],
    inputColumns,
    conditional: [
      {
        range: `${R.start}${FIRST_ROW}:${R.start}${LAST_READING_ROW}`,
        formula: `ISTEXT($${R.start}${FIRST_ROW})`,
        style: 'bad',
      },
    ],
  };
}
