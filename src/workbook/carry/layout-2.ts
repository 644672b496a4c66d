import type { TariffFields } from '../fields/tariff-fields.js';
import { type EarlierLayout, type LaidSheet, type PlacesOf, rangesOf } from './earlier-layout.js';

/** Ranges of a sheet as a table of a layout writes them; `stays` says where today's workbook of as many days has the same. */
export interface Ranges {
  nowCalled?: string;
  ours: string;
  formulas: string;
  stays: string;
  comments?: string;
  charts?: number;
}

/** A sheet of a layout from the text of its ranges. */
export const laidSheet = (
  name: string,
  { nowCalled, ours, formulas, stays, comments = '', charts = 0 }: Ranges,
): LaidSheet => ({
  name,
  ...(nowCalled === undefined ? {} : { nowCalled }),
  ours: rangesOf(ours),
  formulas: rangesOf(formulas),
  stays: rangesOf(stays),
  comments: rangesOf(comments),
  charts,
});

const SHEETS: readonly LaidSheet[] = [
  laidSheet('Start', {
    ours: 'A1:A2 A4:C8 A10 B11:C11 A13:A15 B14:C15',
    formulas: '',
    stays: 'A1:Z100',
  }),
  laidSheet('Answer', {
    ours: 'A1:A3 B2:F13 G2:H3 I2:I6 J2:P3 A5:A13 G5:H13 J5:O6 P6 R7:R13 A15:H22',
    formulas: 'A2:A3 A5:A6 C7:E13 G7:H13 A8:B13 F8:F13 R8:R13 C16:E22 G16:H22 A17:B22 F17:F22',
    // Beside the total stands what it is without the battery: it was what it is with it.
    stays: 'A1:H4 A7:F13 H7:H13 R7:R13',
    charts: 2,
  }),
  laidSheet('Tariffs', {
    ours: 'A1:A3 B3:C3 A5:H19 A21:A25 B22:H25 A27:A39 B28:H39 A41 A43:H49 A51:A59 B52:H59 A61:A69 B62:H69 A71:A79 B72:H79 A81:A89 B82:H89',
    formulas: 'A2 B6:B7 C6:H19 B9:B12 B15:B16 B18:B19 B25 B43:B49 B53:B59 B63:B69 B73:B79 B83:B89',
    stays: 'A1:H17 A19:H109',
    comments: 'C23:H24 C29:H29 C43:H43 C49:H49',
  }),
  laidSheet('Home', {
    ours: 'A1:A2 B3:B9 C4:E9',
    formulas: '',
    stays: 'A1:E30',
    comments: 'C4',
  }),
  laidSheet('Battery', {
    ours: 'A1:A3 B2:M2 B5:D20 F5:L15 F17:L20 B22:B30 C22:Q29 B32:B50 C32:J32 C34:J50 B53:B77 C53:E54 F53 G53:I54 C56:I77',
    formulas:
      'A2 D14 D18:D19 C23:H29 M23:M29 O23 B24:B29 I24:L29 N24:N29 B33 D34:D50 F34:F50 H34:H50 J34:J50 B35:B49 C35:C50 E35:E50 G35:G50 I35:I50 C54 I54 C56:D56 F56:H77 I57:I77',
    stays: 'A1:Q29',
    charts: 2,
  }),
  laidSheet('Heating', {
    ours: 'A1:A12 L1:L2 N1:N2 B2:K2 M2 B7:B12 C7:C10 C12 A14:B24 C16:C22 C24 A27:O45 P27:Q44 A48:C52 A54:C60 A65:B73 C65 C67 C69:D69 C71:D71 C73:D73 A77:A95 B77:D77 B79:D95 A99:A102 B100:N102',
    formulas:
      'A2:A5 A8:A11 B8:B12 C8:C10 C12 B14:B24 C21:C22 G29:L45 N29:N45 A30:A44 B30:E45 F30:F44 M30:M45 O30:O45 P30:Q44 A49:C52 B54:B60 C58:C59 B66:B73 C69:D69 C71:D71 C73:D73 C77:D77 B79:D95',
    stays: 'A1:Q102',
    charts: 2,
  }),
  laidSheet('Heating inputs', {
    ours: 'A1:A2 B4:E7 G4:J14 B9:E17 G16:H33 I16:J35 B19:E26 B28:E33 B35:E40 B42:E45',
    formulas: 'H6:J6 D7 D11:D12 D23 D26 D45',
    stays: 'A1:K45',
    comments: 'C10 C12 C21 C26 C29',
  }),
  laidSheet('Gas', {
    nowCalled: 'Old boiler',
    ours: 'A1:A3 A5:M6 A8:M31',
    formulas: 'H8:M31',
    stays: 'A5:M31',
  }),
  laidSheet('Temperatures', {
    ours: 'A1:A3 A5:F6 A8:F1107',
    formulas: 'E8:F1107',
    stays: 'A1:F1107',
  }),
  laidSheet('Readings', {
    ours: 'A1:A4 A6:M19207',
    formulas: 'L7',
    stays: 'A1:M1048576',
  }),
  laidSheet('Checks', {
    ours: 'A1:A3 B3:D3 A5:D62',
    formulas: 'A3 B6:C62',
    stays: 'A1:D3',
  }),
  laidSheet('Months', {
    ours: 'A1:A6 B3:B6 C5:AR6 A8:AR22 A24:AR24',
    formulas: 'B3:B4 I6:AF6 AM6:AR6 A8:AR22 B24:AR24',
    stays: '',
  }),
  laidSheet('Days', {
    ours: 'A1:A6 B3:B6 C5:Y6 A8:Y407',
    formulas: 'B3:B4 N6:Y6 A8:Y407',
    stays: '',
  }),
  laidSheet('Half-hours', {
    ours: 'A1:A2 A5:A19207 B5:D6 E5:E19207 F5:AB6 B8:D19207 F8:AB19207',
    formulas: 'Q6:V6 A8:AB19207',
    stays: '',
  }),
  laidSheet('Battery months', {
    ours: 'A1:A2 A5:AR6 A8:AQ22 AR8:AR23 A24:AQ24 A26:A37 H27:H37 I27:M32 I34:M37',
    formulas: 'E6:AK6 A8:AR22 B24:AQ24 H27:H37 I27:M32 A29:A31 I34:M37',
    stays: '',
  }),
  laidSheet('Battery days', {
    ours: 'A1:A6 B3:Q6 R5:BA6 BB5:BG407 BH5:BS6 A8:E407 F8:K408 L8:BA407 BH8:BM407 BN8:BS408',
    formulas: 'I3:I4 A4:H4 J4:Q4 F6:BA6 BB7:BG407 A8:BA407 BH8:BS407',
    stays: '',
  }),
  laidSheet('Battery half-hours', {
    ours: 'A1:A2 A5:A19207 B5:I6 J5:J19207 K5:W6 X5:AC19207 AD5:AI6 B8:I19207 K8:W19207 AD8:AI19207',
    formulas: 'I6 J6:J19207 K6 X7:AC19207 A8:I19207 K8:W19207 AD8:AI19207',
    stays: '',
  }),
  laidSheet('Profile', {
    ours: 'A1:A3 A5:F6 H5:I6 K5:K6 L5:L55 M5:N6 A8:F55 H8:I103 K8:K55 M8:M56 N8:N55',
    formulas: 'F6 I6 L7:L55 A8:F55 H8:I103 K8:K55 M8:N55',
    stays: '',
  }),
  // Settings and lines of today's stand between those of this layout: only what is before them stays.
  laidSheet('Heating figures', {
    ours: 'A1:A2 B4:C35 D4 E4:E35 D6:D10 D12:D15 D17 D19:D20 D22:D23 D25:D35 B37:E46 B48:C86 D48:D78 E48:E86 D81:D86 B88:C110 D88:D109 E88:E110 B112:E120',
    formulas:
      'C5:C35 D7 D9:D10 D19 D22 D35 C38:C46 C49:C86 D58:D63 D65:D68 D70:D74 D81:D86 C89:C110 D95:D98 D101:D107 C113:C120',
    stays: 'A1:E35',
  }),
  laidSheet('Heating months', {
    ours: 'A1:A2 A5:BK6 A8:BK22',
    formulas: 'M6:T6 Y6:AA6 AC6 AF6:AJ6 AL6:AN6 AQ6 AS6:AU6 AW6:AZ6 A8:BK22',
    stays: 'A1:Q22',
  }),
  laidSheet('Heating days', {
    ours: 'A1:A3 B3 A5:K6 A8:K407',
    formulas: 'B3 A8:K407',
    stays: 'A1:K407',
  }),
  laidSheet('Chart data', {
    ours: 'A1:A2 A5:A22 B6:G22 A24:G25 A28:A41 B29:D41',
    formulas: 'B6:G22 A8:A22 B24:G25 A30:D41',
    stays: '',
  }),
  laidSheet('Windows', {
    ours: 'A1:A2 A4:H4 A6:H41 A44:AL381',
    formulas: 'C4:H4 C6:H41 C46:AL381',
    stays: '',
  }),
  laidSheet('Rates', {
    ours: 'A1:A2 A4:H6 A8:H32 A34:H38 A40:H44 A46:H50 A52:H56 A58:A67 B59:H67',
    formulas: 'C4:H6 B8:H32 C34:H38 B40:H44 B46:H50 B52:H56 C59:H67',
    stays: '',
  }),
  laidSheet('Clock', {
    ours: 'A1:A4 B3:B4 A6:E47',
    formulas: 'B4',
    stays: 'A1:E47',
  }),
  laidSheet('Notes', {
    ours: 'A1:A2 A4:B4 A6:A13 B7:F13 A15:A73 B16:F73',
    formulas: '',
    stays: 'A1:F4',
  }),
];

/** A column of the tariffs sheet, as layouts 2 and 3 have it. */
export function tariffPlaces(letters: string): PlacesOf<TariffFields> {
  const at = (row: number): string => `${letters}${row}`;
  return {
    name: at(5),
    clock: at(22),
    includesVat: at(23),
    halfHourlyPriced: at(24),
    // One choice said it of both.
    priceIncludesVat: at(23),
    exitFee: at(25),
    windows: [28, 31, 34, 37].map((row) => ({ from: at(row), to: at(row + 1), days: at(row + 2) })),
    periods: [41, 51, 61, 71, 81].map((heading) => ({
      validFrom: heading === 41 ? null : at(heading + 1),
      standing: at(heading + 2),
      base: at(heading + 3),
      windowRates: [4, 5, 6, 7].map((below) => at(heading + below)),
      exportRate: at(heading + 8),
    })),
  };
}

export const rows = <Place>(first: number, count: number, place: (row: number) => Place): Place[] =>
  Array.from({ length: count }, (_, i) => place(first + i));

/**
 * Layout 2: 400 days, six tariffs. Its half-hours, battery half-hours and windows are sheets that today's has not, and its
 * months, days and rates stand in other columns.
 */
export const LAYOUT_2: EarlierLayout = {
  version: 2,
  days: 400,
  sheets: SHEETS,
  names: new Set([
    'answer_sentence',
    'from_month',
    'to_month',
    'todays_tariff',
    'total_of_tariff_1',
    'total_with_battery_of_tariff_1',
    'total_of_tariff_2',
    'total_with_battery_of_tariff_2',
    'total_of_tariff_3',
    'total_with_battery_of_tariff_3',
    'total_of_tariff_4',
    'total_with_battery_of_tariff_4',
    'total_of_tariff_5',
    'total_with_battery_of_tariff_5',
    'total_of_tariff_6',
    'total_with_battery_of_tariff_6',
    'time_zone',
    'vat_share',
    'currency_symbol',
    'minor_unit',
    'largest_half_hour_kwh',
    'battery_ran',
    'battery_sentence',
    'battery_usable_kwh',
    'battery_charge_kw',
    'battery_discharge_kw',
    'battery_charge_efficiency',
    'battery_discharge_efficiency',
    'battery_round_trip_efficiency',
    'battery_reserve_kwh',
    'battery_start_kwh',
    'battery_wear',
    'battery_charges_from_grid',
    'battery_may_feed_car',
    'battery_may_export',
    'battery_price_fixed',
    'battery_price_per_kwh',
    'battery_tariff',
    'battery_sizing_is',
    'heating_verdict',
    'heating_estimates_verdict',
    'heating_year_verdict',
    'heat_pump_cost_basis',
    'heating_tariff',
    'single_rate',
    'boiler_efficiency',
    'gas_unit_rate',
    'gas_standing_charge',
    'gas_supply',
    'hot_water_on',
    'hot_water_kwh_per_day',
    'degree_day_base',
    'degree_days_of_a_year',
    'heat_pump_extra_cost',
    'checks_verdict',
    'clock_time_zone',
    'home_tariff_workbook_layout',
  ]),
  inputs: {
    home: [
      {
        sheet: 'Home',
        cells: {
          timeZone: 'C4',
          vatShare: 'C5',
          currency: 'C6',
          minorUnit: 'C7',
          largestHalfHourKwh: 'C8',
          batteryRan: 'C9',
        },
      },
    ],
    period: { sheet: 'Answer', cells: { fromMonth: 'C4', toMonth: 'E4' } },
    tariffs: { sheet: 'Tariffs', todays: 'C3', columns: [...'CDEFGH'].map(tariffPlaces) },
    battery: {
      sheet: 'Battery',
      cells: {
        usableKwh: 'C6',
        chargeKw: 'C7',
        dischargeKw: 'C8',
        chargeEfficiency: 'C9',
        dischargeEfficiency: 'C10',
        roundTripEfficiency: 'C11',
        reserveKwh: 'C12',
        startKwh: 'C13',
        wearPencePerKwh: 'C14',
        chargeFromGrid: 'C15',
        mayFeedCar: 'C16',
        mayExport: 'C17',
        priceFixed: 'C18',
        pricePerKwh: 'C19',
        tariff: 'C20',
      },
    },
    heating: {
      sheet: 'Heating inputs',
      settings: {
        costBasis: 'C5',
        tariff: 'C6',
        singleRatePence: 'C7',
        boilerEfficiency: 'C10',
        gasRatePence: 'C11',
        gasStandingPencePerDay: 'C12',
        gasSupply: 'C13',
        otherGasKwhPerDay: 'C14',
        enteredBaseGasKwhPerDay: 'C15',
        calorificValueMjPerM3: 'C16',
        volumeCorrection: 'C17',
        hotWaterSide: 'C20',
        hotWaterKwhPerDay: 'C21',
        heatPumpSideHotWater: 'C22',
        heatPumpSideHotWaterPence: 'C23',
        hotWaterCop: 'C24',
        boilerSideHotWater: 'C25',
        boilerSideHotWaterPence: 'C26',
        degreeDayBaseC: 'C29',
        degreeDayMethod: 'C30',
        scaleDegreeDays: 'C31',
        yearDegreeDays: 'C32',
        yearDays: 'C33',
        leastCoverageShare: 'C36',
        confidence: 'C37',
        agreeWithinShare: 'C38',
        disagreeBeyondShare: 'C39',
        sameWithinShare: 'C40',
        electricityCarbonKgPerKwh: 'C43',
        gasCarbonKgPerKwh: 'C44',
        extraCostPounds: 'C45',
      },
      tables: {
        rates: rows(7, 8, (row) => ({
          from: `G${row}`,
          gasRate: `H${row}`,
          gasStanding: `I${row}`,
          singleRate: `J${row}`,
        })),
        monthDegreeDays: rows(19, 15, (row) => ({ month: `G${row}`, degreeDays: `H${row}` })),
        sensitivity: rows(19, 17, (row) => `J${row}`),
      },
    },
    gas: {
      sheet: 'Gas',
      firstRow: 8,
      lastRow: 31,
      letters: {
        firstDay: 'A',
        lastDay: 'B',
        kwh: 'C',
        volume: 'D',
        volumeUnit: 'E',
        calorificValue: 'F',
        degreeDays: 'G',
      },
    },
    temperatures: {
      sheet: 'Temperatures',
      firstRow: 8,
      lastRow: 1107,
      letters: { date: 'A', meanC: 'B', maxC: 'C', minC: 'D' },
    },
    readings: {
      sheet: 'Readings',
      firstRow: 8,
      // Those below its last row counted nowhere; a workbook with more room counts them.
      lastRow: 1_048_576,
      letters: {
        start: 'A',
        offset: 'B',
        importKwh: 'C',
        exportKwh: 'D',
        solarKwh: 'E',
        batteryInKwh: 'F',
        batteryOutKwh: 'G',
        heatPumpKwh: 'H',
        heatOutputKwh: 'I',
        carKwh: 'J',
        outdoorC: 'K',
        pricePence: 'L',
        mark: 'M',
      },
    },
  },
};
