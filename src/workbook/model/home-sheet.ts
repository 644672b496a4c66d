import type { HomeCells } from '../inputs/workbook-inputs.js';
import { SHEETS } from '../layout.js';
import { input, label } from './cells.js';
import { sheetTop } from './column-headers.js';
import type { SheetModel } from './sheet-model.js';

/** Facts of the home that hold for every tariff. */
export function homeSheet(start: HomeCells): SheetModel {
  return {
    name: SHEETS.home,
    tab: 'input',
    widths: { A: 3, B: 44, C: 18, D: 14, E: 70 },
    freeze: { columns: 0, rows: 2 },
    protected: false,
    landscape: true,
    cells: [
      ...sheetTop('Home', 'Facts that hold for every tariff. Coloured cells are yours to change.'),
      label('B3', 'General', 'section'),
      label('B4', 'Time zone', 'label'),
      input(
        'C4',
        start.timeZone,
        'inputText',
        {
          kind: 'text',
          title: 'Time zone',
          message: 'An IANA name such as Europe/London. A fill writes its clock changes.',
        },
        {
          name: 'time_zone',
          comment:
            'After a change, run the fill with --time-zone on a workbook without readings: only it can write the clock changes of the new zone.',
        },
      ),
      label('D4', 'IANA name', 'unit'),
      label('E4', 'The fill writes the clock changes of this zone; by hand, keep it as it is.', 'hint'),
      label('B5', 'VAT on energy', 'label'),
      input(
        'C5',
        start.vatShare,
        'inputPercent',
        {
          kind: 'number',
          minimum: 0,
          maximum: 1,
          title: 'VAT',
          message: 'A percentage from 0 % to 100 %. Domestic fuel and power in the UK: 5 %.',
        },
        { name: 'vat_share' },
      ),
      label('D5', 'percent', 'unit'),
      label(
        'E5',
        'Added to rates that are typed without VAT. UK domestic fuel and power: 5 % (HMRC VAT Notice 701/19).',
        'hint',
      ),
      label('B6', 'Currency', 'label'),
      input(
        'C6',
        start.currency,
        'inputChoice',
        { kind: 'text', title: 'Currency', message: 'The symbol of your currency: £, €, $ …' },
        { name: 'currency_symbol' },
      ),
      label('D6', 'symbol', 'unit'),
      label('E6', 'Stands in every label and sentence.', 'hint'),
      label('B7', 'Hundredth of the currency', 'label'),
      input(
        'C7',
        start.minorUnit,
        'inputChoice',
        {
          kind: 'text',
          title: 'Hundredth',
          message: 'The word for a hundredth of it, in which rates are typed: p, ct, ¢ …',
        },
        { name: 'minor_unit' },
      ),
      label('D7', 'word', 'unit'),
      label('E7', 'Rates are typed in it: p, ct, ¢ …', 'hint'),
      label('B8', 'Largest plausible half-hour', 'label'),
      input(
        'C8',
        start.largestHalfHourKwh,
        'inputNumber',
        {
          kind: 'number',
          minimum: 0,
          maximum: 1000,
          title: 'Largest half-hour',
          message: 'kWh in one half-hour, above 0.',
        },
        { name: 'largest_half_hour_kwh' },
      ),
      label('D8', 'kWh', 'unit'),
      label(
        'E8',
        'Readings above it are counted in Checks as outliers; a 100 A single-phase supply carries about 11.5 kWh (230 V, arithmetic).',
        'hint',
      ),
      label('B9', 'A battery ran while this was metered', 'label'),
      input(
        'C9',
        start.batteryRan,
        'inputChoice',
        { kind: 'list', choices: ['yes', 'no'], title: 'Battery ran', message: 'yes or no' },
        { name: 'battery_ran' },
      ),
      label('D9', 'yes or no', 'unit'),
      label(
        'E9',
        'If yes, the battery in and battery out columns of Readings are needed to compare tariffs fairly.',
        'hint',
      ),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}
