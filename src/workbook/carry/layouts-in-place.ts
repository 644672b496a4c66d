import { cellAt, parseCell } from '../cell-address.js';
import { blankStart } from '../fill/blank-start.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import { declareBook } from '../model/book.js';
import { LAYOUT_CELL } from '../model/notes-sheet.js';
import type { SheetModel } from '../model/sheet-model.js';
import { sheetsAsDeclared, workbookModel } from '../model/workbook-model.js';
import type { EarlierLayout } from './earlier-layout.js';
import { projectNames } from './project-names.js';
import { todaysLayout } from './todays-layout.js';

/** What came and went with a layout in which every cell stood where it stood in the one before. */
interface ChangeInPlace {
  /** Names that the layout before had, and it has not. */
  readonly gone: readonly string[];
  /** Names that it has, and the one before had not: there they could be somebody's own. */
  readonly names: readonly string[];
  /** The same where what stands beside their cells was there. */
  readonly alone?: readonly string[];
  /** Names that it gave to cells which there were. */
  readonly given?: readonly string[];
  /** Cells that it has, and the one before had not; those with one of the names, and what stands beside them, need no mention. */
  readonly cells: Readonly<Record<string, readonly string[]>>;
  /** Columns of formulas that came, by their letters, with all that stands in them. */
  readonly columns?: Readonly<Record<string, readonly string[]>>;
}

/** Long columns stand under names since then. */
const FIRST_WITH_NAMED_COLUMNS = 7;

const ofTariffs = (name: string): string[] =>
  Array.from({ length: TARIFF_COUNT }, (_, t) => `${name}_${t + 1}`);

/** Cells of some columns and rows; the columns as one text where each is a letter. */
const block = (letters: string | readonly string[], first: number, last: number): string[] =>
  Array.from({ length: last - first + 1 }, (_, i) =>
    [...letters].map((column) => `${column}${first + i}`),
  ).flat();

/** By the number of the layout that they came with. */
const CHANGES: Readonly<Record<number, ChangeInPlace>> = {
  6: {
    gone: [
      'car_metered_kWh_in_hours',
      'car_readings_in_hours',
      'cheaper_later_by_the_losses',
      'dearer_later_by_the_losses',
      'half_hour_reading_of_month',
      'price_of_half_hours_there_are',
      'used_beside_car',
      'water_metered_kWh_in_hours',
      'water_readings_in_hours',
    ],
    names: [
      'car_kWh_in_its_hours',
      'car_readings_in_its_hours',
      'car_readings_of_session',
      'car_rows_in_its_hours',
      'cheaper_later_after_losses',
      'dearer_later_after_losses',
      'half_hours_without_battery',
      'import_is_metered',
      'price_within_day',
      'rows_without_import',
      ...ofTariffs('session_at'),
      'start_of_half_hour',
      'used_by_home',
      'used_kWh_of_month',
      'used_without_car',
      'water_kWh_in_its_hours',
      'water_readings_in_its_hours',
      'water_readings_of_session',
      'water_rows_in_its_hours',
    ],
    // Rows without import, and what lacks of a battery’s readings.
    cells: { [SHEETS.rates]: block('UVW', 61, 74) },
  },
  7: {
    gone: [],
    names: [
      'battery_fault_figures',
      'battery_fault_place',
      'battery_left_out_words',
      ...ofTariffs('has_total'),
      ...ofTariffs('level_goes_by'),
      'level_looked_at',
      'none_chosen_words',
      'period_days_words',
      'reading_found',
      'readings_begin_words',
      'readings_end_words',
      'sun_cost_words',
      'timer_nothing_yet_words',
    ],
    // What lacks of the readings of other channels.
    cells: { [SHEETS.rates]: block('UVW', 76, 94), [SHEETS.checks]: block('ABCDE', 85, 87) },
  },
  8: {
    gone: [],
    names: [
      'asked_for_lacks_words',
      'asked_for_unpriced',
      'battery_price_blank_words',
      'channel_gaps_words',
      'cheapest_by_utc_words',
      'currency_is_known',
      'days_found_in_another_way',
      'days_of_own_temperatures',
      'gas_days_by_max_min',
      'gas_days_from_table',
      'gas_days_in_table',
      'heating_ends_of_estimates',
      'heating_mean_from_to',
      'heating_mean_high',
      'heating_mean_low',
      'heating_moves_words',
      'monthly_heat_pump_priced_share',
      'months_wrong_way_round',
      'read_days_by_max_min',
      'read_days_from_table',
      'read_days_in_table',
      'year_least_words',
      'year_untold',
      'year_untold_today',
      ...ofTariffs('year_untold'),
    ],
    alone: ['base_range_is_approximate', 'lower_base_is_approximate', 'max_min_days_words'],
    given: ['lacking_car', 'lacking_export', 'lacking_heat_pump'],
    // Figures that may be mistyped, and the marks beside rates.
    cells: {
      // Days of a month without a clock change; labels two columns before what is told of tariffs without a year.
      [SHEETS.profile]: [
        ...block(['BE', 'BF', 'BG', 'BH', 'BI', 'BJ', 'BK', 'BL', 'BM', 'BN', 'BO', 'BP', 'BQ'], 57, 57),
        ...block(['GW', 'GX'], 91, 94),
      ],
      [SHEETS.checks]: [
        ...block('ABCDE', 88, 94),
        ...block('GHIJKLMNPQRST', 89, 91),
        ...block('U', 89, 94),
        ...block('PQRSTU', 5, 5),
        ...block('WXYZ', 5, 29),
      ],
      [SHEETS.tariffs]: [3, 4, 24, 43, 53, 63, 73, 83].flatMap((row) =>
        block(['U', 'V', 'W', 'X', 'Y', 'Z', 'AA', 'AB'], row, row < 43 ? row : row + 6),
      ),
    },
    // What of the heat pump is priced; cold beyond the coldest month metered.
    columns: { [SHEETS.heatingMonths]: ['SD'], [SHEETS.yearAhead]: ['IK', 'IL'] },
  },
};

/**
 * A layout from 5 on: every cell that there was stood where it stands today, some formulas were written otherwise. So its table is today’s,
 * without what came since; where cells move, those before it become tables of their own.
 *
 * @param version its number
 * @param days days that the workbook holds
 * @returns the table, and the sheets by whose headings and labels its inputs are found in place
 */
export function layoutInPlace(version: number, days: number): { table: EarlierLayout; sheets: SheetModel[] } {
  const since = Object.entries(CHANGES).flatMap(([number, change]) =>
    Number(number) > version ? [change] : [],
  );
  const book = declareBook(days);
  const sheetsOf = version < FIRST_WITH_NAMED_COLUMNS ? sheetsAsDeclared : workbookModel;
  const model = sheetsOf(blankStart(), book).map((sheet) => {
    const came = new Set(
      since.flatMap(({ names, alone = [], cells }) => [
        ...(cells[sheet.name] ?? []),
        ...placesOf(sheet, names, [-1, 0, 1]),
        ...placesOf(sheet, alone, [0]),
      ]),
    );
    const columns = new Set(since.flatMap((change) => change.columns?.[sheet.name] ?? []));
    return {
      ...sheet,
      cells: sheet.cells.filter(({ at }) => !came.has(at) && !columns.has(at.replace(/\d+$/, ''))),
      formulaColumns: sheet.formulaColumns.filter(({ letters }) => !columns.has(letters)),
    };
  });
  // Back from today, layout by layout: a name may have come with one and gone with the next.
  const names = since.reduceRight<string[]>(
    (held, { names: came, alone = [], given = [], gone }) => [
      ...held.filter((name) => ![...came, ...alone, ...given].includes(name)),
      ...gone,
    ],
    projectNames(model),
  );
  return {
    table: { ...todaysLayout(book, model, names, model), version },
    sheets: model.map((sheet) => ({
      ...sheet,
      // Which says that it is another today.
      cells: sheet.cells.filter(({ at }) => sheet.name !== SHEETS.notes || at !== LAYOUT_CELL),
    })),
  };
}

/** Where cells with some names stand on a sheet, or so many columns beside each. */
function placesOf({ cells }: SheetModel, names: readonly string[], beside: readonly number[]): string[] {
  return cells.flatMap((cell) => {
    if (!('name' in cell) || cell.name === undefined || !names.includes(cell.name)) return [];
    const { row, column } = parseCell(cell.at);
    return beside.map((columns) => cellAt(column + columns, row));
  });
}
