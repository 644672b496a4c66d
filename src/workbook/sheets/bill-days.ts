import type { Node } from '../../formula/nodes.js';
import { MAX_RATE_PERIODS } from '../../tariffs/tariff.js';
import { across, all, type Column, f, named } from '../book/terms.js';
import type { AsMeteredDays } from './as-metered.js';
import { dayBlocks } from './day-blocks.js';
import type { Calendar } from './days.js';
import type { HalfHours } from './half-hours.js';
import type { BillTerms } from './input-terms.js';
import { BANDS, ofAllTariffs, type RatesSheets, SET_ROWS } from './rates.js';
import { BLOCK_ROWS, type Shape, WEEK_ROWS } from './shape.js';

/** A day by the bill that charges it: as metered, at the rates of its tariff as they were. */
export interface BillDays {
  /** Number of the bill, 0 where no bill charges the day. */
  bill: Column;
  /** Set of rates in force, from 1. */
  set: Column;
  /** Rates that a bill prints: the base rate, and that of the first window; p/kWh with VAT. */
  ratePence: readonly [base: Column, window: Column];
  kwh: readonly [base: Column, window: Column];
  /** The same by the other clock: UTC where the windows run by the home's, the home's where they run by UTC. */
  otherClockKwh: readonly [base: Column, window: Column];
  pence: readonly [base: Column, window: Column];
  /** Energy of the day at whatever rates, with VAT. */
  energyPence: Column;
  standingPence: Column;
  exportPence: Column;
}

type Style = 'integer' | 'rateFine' | 'kwhFine' | 'pence';

/**
 * Declares what the days of bills come to. Every day has one bill at most, so that a sum over a bill is a sum of days.
 *
 * @param bills where the bills stand
 */
export function billDays(
  bills: BillTerms,
  calendar: Calendar,
  grid: HalfHours,
  rates: RatesSheets,
  metered: AsMeteredDays,
  shape: Shape,
): BillDays {
  const { sheet, date, change, slotLocal, slotUtc } = calendar;
  const column = (
    label: string,
    unit: string,
    description: string,
    style: Style,
    name: string,
    is: Node,
  ): Column =>
    sheet.column({ label, unit, description, style, rows: shape.days, name: `day_bill_${name}`, is });
  const bill = column(
    'Bill of the day',
    'no., 0: none',
    'The bill that charges the day',
    'integer',
    'number',
    f`IF(${date}="","",SUMPRODUCT((${bills.from}<=${date})*(${bills.to}>=${date})*${bills.number}))`,
  );
  const place = column(
    'Tariff of the bill',
    'column, 0: none',
    'That the bill names',
    'integer',
    'place',
    f`IF(SUM(${bill})=0,0,INDEX(${bills.place},${bill}))`,
  );
  const billed = (is: Node, otherwise = f`""`): Node => f`IF(${place}=0,${otherwise},${is})`;
  const ofTariff = (of: Parameters<typeof ofAllTariffs>[1], row: Node): Node =>
    f`INDEX(${ofAllTariffs(rates, of)},${row},${place})`;
  const one = f`1`;
  const dates = ofAllTariffs(rates, 'validFrom');
  const later = named(
    'later_rates_of_bill_from',
    f`INDEX(${dates},2,${place}):INDEX(${dates},${MAX_RATE_PERIODS},${place})`,
  );
  const set = column(
    'Rates in force, bill',
    'set, from 1',
    'As they were on the day, whatever rates price the period',
    'integer',
    'set',
    billed(f`1+COUNTIFS(${later},">0",${later},"<="&${date})`, one),
  );
  const byUtc = f`(${ofTariff('byUtc', one)}=1)`;
  const localAt = f`IF(${change}>0,${SET_ROWS + 1}+(MIN(${change},${shape.changes})-1)*${BLOCK_ROWS},(${set}-1)*${WEEK_ROWS}+${slotLocal})`;
  const utcAt = f`(${set}-1)*${WEEK_ROWS}+${slotUtc}`;
  const byClock = (label: string, description: string, name: string, is: Node) => {
    const at = column(label, 'row of Rate grid', description, 'integer', `${name}_at`, billed(is, one));
    // A day with a clock change has a stretch of its own, at the rates of the day.
    const across = f`IF(${at}>${SET_ROWS},${shape.tariffs + 1},${place})`;
    const first = f`INDEX(${rates.billedBlock},${at},${across})`;
    return named(
      `bill_${name}_of_day`,
      f`${first}:INDEX(${rates.billedBlock},${at}+${BLOCK_ROWS - 1},${across})`,
    );
  };
  const slice = byClock(
    'Begins in the grid, bill',
    'By the clock of the tariff',
    'rates',
    f`IF(${byUtc},${utcAt},${localAt})`,
  );
  const otherSlice = byClock(
    'Begins in the grid, bill, other clock',
    'By UTC where the windows run by the home’s clock, by that where they run by UTC',
    'other',
    f`IF(${byUtc},${localAt},${utcAt})`,
  );
  const rate = (label: string, band: number): Column =>
    column(
      `Rate ${band + 1}, bill`,
      '{minor}/kWh',
      label,
      'rateFine',
      `rate_${band + 1}`,
      billed(ofTariff('usedRates', f`(${set}-1)*${BANDS}+${band + 1}`)),
    );
  const ratePence = [rate('Base rate with VAT', 0), rate('That of window 1, else the base rate', 1)] as const;
  const [base, window] = ratePence;
  const ofDay = dayBlocks(calendar).whole;
  const imported = ofDay(grid.meteredImportKwh);
  const factor = ofTariff('priceFactor', one);
  // By a half-hourly price a bill has no rates to tell apart: all that was bought is one line.
  const atBase = (where: Node): Node =>
    billed(f`IF(${factor}<>0,${metered.importKwh},SUMPRODUCT(${imported},(${where}=${base})*1))`);
  const atWindow = (where: Node): Node =>
    billed(f`IF(OR(${factor}<>0,${window}=${base}),0,SUMPRODUCT(${imported},(${where}=${window})*1))`);
  const kwh = [
    column('kWh at rate 1, bill', 'kWh', 'As metered, at the base rate', 'kwhFine', 'kwh_1', atBase(slice)),
    column('kWh at rate 2, bill', 'kWh', 'At that of window 1', 'kwhFine', 'kwh_2', atWindow(slice)),
  ] as const;
  const otherClockKwh = [
    column('kWh at rate 1, other clock', 'kWh', 'As metered', 'kwhFine', 'other_kwh_1', atBase(otherSlice)),
    column('kWh at rate 2, other clock', 'kWh', 'As metered', 'kwhFine', 'other_kwh_2', atWindow(otherSlice)),
  ] as const;
  const energyPence = column(
    'Energy, bill',
    '{minor}',
    'Unit rates of the bill’s tariff × import as metered, with VAT',
    'pence',
    'energy_pence',
    billed(
      f`SUMPRODUCT(${imported},${slice})+IF(${factor}=0,0,${factor}*SUMPRODUCT(${imported},${ofDay(grid.pricePence)}))`,
    ),
  );
  const pence = [
    column(
      'Energy at rate 1, bill',
      '{minor}',
      'With VAT',
      'pence',
      'pence_1',
      billed(f`IF(${factor}<>0,${energyPence},${kwh[0]}*${base})`),
    ),
    column(
      'Energy at rate 2, bill',
      '{minor}',
      'With VAT',
      'pence',
      'pence_2',
      billed(f`${kwh[1]}*${window}`),
    ),
  ] as const;
  const standingPence = column(
    'Standing charge, bill',
    '{minor}',
    'Of the day, with VAT',
    'pence',
    'standing_pence',
    billed(ofTariff('standing', f`${set}`)),
  );
  const exportPence = column(
    'Export credit, bill',
    '{minor}',
    'Export as metered × export rate; carries no VAT',
    'pence',
    'export_pence',
    billed(f`${metered.exportKwh}*${ofTariff('exportRate', f`${set}`)}`),
  );
  fillBilledRates(rates, { place, set }, shape);
  return { bill, set, ratePence, kwh, otherClockKwh, pence, energyPence, standingPence, exportPence };
}

/** The rates of days with a clock change: the stretch of the grid that they share with the comparison may have later ones. */
function fillBilledRates(
  { grid, tariffs, billed, day, slot }: RatesSheets,
  { place, set }: { place: Column; set: Column },
  shape: Shape,
): void {
  const ofDayOfRow = (column: Column): Node => f`INDEX(${all(column)},${day})`;
  const bands = across(tariffs.map(({ band }) => band));
  const rates = ofAllTariffs({ tariffs }, 'bandRates');
  const [tariff, inForce] = [ofDayOfRow(place), ofDayOfRow(set)];
  const band = f`INDEX(${bands},${slot},${tariff})`;
  grid.continued(
    billed,
    shape.changes * BLOCK_ROWS,
    f`IF(${tariff}=0,0,INDEX(${rates},(${inForce}-1)*${BANDS}+1+${band},${tariff}))`,
  );
}
