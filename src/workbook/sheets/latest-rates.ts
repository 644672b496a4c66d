import type { Node, Reference } from '../../formula/nodes.js';
import { all, Column, cellOf, f, type Line, stretch } from '../book/terms.js';
import type { BatteryFigures } from './battery-figures.js';
import type { Calendar, TariffDays } from './days.js';
import type { Shape } from './shape.js';
import type { BatteryDays, EnergyDays } from './tariff-days.js';

/** What turns pence at earlier rates into pence at the latest, set by set. */
export interface LatestRates {
  /** The last set that is typed, from 1. */
  sets: Line;
  /** Times this, a text where it can't be told. */
  factor: Column;
  /** 1 where the factors of this set and of all up to the latest are known. */
  isKnownFrom: Column;
  /** And for each kWh so much more, pence. */
  perKwhPence: Column;
  /** What a kWh exported earns more, pence. */
  exportMorePence: Column;
}

/** Places lines and blocks of a tariff on the rates sheet. */
interface Layout {
  line(
    tariff: number,
    label: string,
    unit: string,
    is: Node,
    style: 'rateFine' | 'integer',
    name?: string,
  ): Line;
  block(
    tariff: number,
    label: string,
    unit: string,
    parts: readonly { label: string; is: Node }[],
    style: 'rateFine' | 'integer',
    name: string,
  ): Column;
}

/** How far a rate may be off the line of the others, squared, pence: what rounding of a computer leaves. */
const ON_THE_LINE = 1e-18;

/**
 * Declares them. Rates move as a line does: from lowest and highest of a set to those of the latest. That is exact where
 * every rate of the set moved so, be they one, two or more; where one moved by itself or two changed places, nothing is
 * told, as what is known of a day is its pence and kWh in all, not its kWh by rate.
 * Source: common practice, no source.
 *
 * @param tariff place of the tariff, from 0
 * @param layout places the lines on the rates sheet
 * @param rates of the tariff: `priceFactor` on the half-hourly price, 0 where it follows none; `usedRates`, pence a kWh
 *   with VAT, set after set; `validFrom`, serial day of each set, 0 where none is typed; `exportRate`, pence a kWh, a set a row
 * @param bands rates of a set, count
 * @returns lines and blocks with a row a set
 * @throws RangeError when the layout does not place one block right below the other
 * @example latestRates(0, layout, { priceFactor, usedRates, validFrom, exportRate }, BANDS).factor
 */
export function latestRates(
  tariff: number,
  layout: Layout,
  rates: { priceFactor: Line; usedRates: Column; validFrom: Column; exportRate: Column },
  bands: number,
): LatestRates {
  const { priceFactor, usedRates, validFrom, exportRate } = rates;
  const places = Array.from({ length: validFrom.rows }, (_, p) => p);
  const label = (p: number): string => (p === 0 ? 'first rates' : `change ${p}`);
  const later = stretch(validFrom, 1, validFrom.rows - 1);
  const sets = layout.line(
    tariff,
    'Latest rates',
    'set, from 1',
    f`1+COUNTIFS(${later},">0")`,
    'integer',
    'latest_set',
  );
  const ofSet = (p: number): Reference => stretch(usedRates, p * bands, (p + 1) * bands - 1);
  const block = (text: string, unit: string, name: string, is: (p: number) => Node): Column =>
    layout.block(
      tariff,
      text,
      unit,
      places.map((p) => ({ label: label(p), is: is(p) })),
      'rateFine',
      name,
    );
  const lows = block('Lowest rate', '{minor}/kWh', 'lowest_rates', (p) => f`MIN(${ofSet(p)})`);
  const highs = block('Highest rate', '{minor}/kWh', 'highest_rates', (p) => f`MAX(${ofSet(p)})`);
  const ofLatest = (text: string, of: Column): Line =>
    layout.line(
      tariff,
      `${text} of the latest rates`,
      '{minor}/kWh',
      f`INDEX(${all(of)},${sets})`,
      'rateFine',
    );
  const low = ofLatest('Lowest', lows);
  const high = ofLatest('Highest', highs);
  const alikes = block(
    'Lowest and highest as of the latest',
    '1; none: another',
    'ends_alike',
    (p) => f`IF(AND(${cellOf(lows, p)}=${low},${cellOf(highs, p)}=${high}),1,"none")`,
  );
  const alike = (p: number): Reference => cellOf(alikes, p);
  // One rate that has become two, or none that has become one, says nothing of the use at either.
  const single = (p: number): Node =>
    f`IF(${high}>${low},"none",IF(${cellOf(highs, p)}>0,${high}/${cellOf(highs, p)},${alike(p)}))`;
  const ofEnds = block('Latest ÷ these, by lowest and highest', 'factor', 'to_latest_by_ends', (p) => {
    const apart = f`(${cellOf(highs, p)}-${cellOf(lows, p)})`;
    return f`IF(${priceFactor}<>0,${alike(p)},IF(${apart}>0,(${high}-${low})/${apart},${single(p)}))`;
  });
  const latestUsed = layout.block(
    tariff,
    'Latest rate',
    '{minor}/kWh',
    Array.from({ length: bands }, (_, band) => ({
      label: band === 0 ? 'base' : `window ${band}`,
      is: f`INDEX(${all(usedRates)},(${sets}-1)*${bands}+${band + 1})`,
    })),
    'rateFine',
    'latest_used_rates',
  );
  const offLine = block('Off the line of lowest and highest', 'squared', 'to_latest_off', (p) => {
    const moved = f`${low}+${cellOf(ofEnds, p)}*(${ofSet(p)}-${cellOf(lows, p)})`;
    const off = f`(${all(latestUsed)}-(${moved}))`;
    return f`IF(ISNUMBER(${cellOf(ofEnds, p)}),SUMPRODUCT(${off}*${off}),0)`;
  });
  const factor = block(
    'Latest rates ÷ these',
    'factor; a text: can’t be told',
    'to_latest_factor',
    (p) => f`IF(${cellOf(offLine, p)}>${ON_THE_LINE},"none",${cellOf(ofEnds, p)})`,
  );
  const known = new Column(
    factor.sheet,
    factor.column,
    factor.lastRow + 1,
    places.length,
    'integer',
    { label: '', unit: '', description: '' },
    undefined,
  );
  const isKnownFrom = layout.block(
    tariff,
    'Known from here to the latest',
    '1 or 0',
    places.map((p) => ({
      label: label(p),
      is:
        p + 1 === places.length
          ? f`1`
          : f`IF(${p + 1}>=${sets},1,IF(ISNUMBER(${cellOf(factor, p)}),${cellOf(known, p + 1)},0))`,
    })),
    'integer',
    'to_latest_known',
  );
  if (isKnownFrom.firstRow !== known.firstRow) throw new RangeError('the blocks of a tariff do not follow');
  const perKwhPence = block(
    'And more for each kWh',
    '{minor}/kWh',
    'to_latest_a_kWh',
    (p) => f`IF(ISNUMBER(${cellOf(factor, p)}),${low}-${cellOf(lows, p)}*${cellOf(factor, p)},0)`,
  );
  const exportMorePence = block(
    'Latest export rate less this',
    '{minor}/kWh',
    'to_latest_export',
    (p) => f`INDEX(${all(exportRate)},${sets})-${cellOf(exportRate, p)}`,
  );
  return { sets, factor, isKnownFrom, perKwhPence, exportMorePence };
}

/**
 * What each day's use would cost more at the latest rates: 0 where these hold on the day. The battery as its rule
 * ran it at the rates of the day; of its losses, those of what it took.
 * Source: common practice, no source.
 *
 * @param of place of the `tariff`, from 0; the `calendar`'s dates; the tariff's `days` with the set of each; figures of the
 *   `battery`, kWh and shares; `shape` with its days
 * @param latest what turns pence at earlier rates into pence at the latest
 * @param shared import and export without a battery, kWh, a row a day
 * @param energy pence of that import, a row a day
 * @param ofBattery what the battery changes of both, kWh and pence, a row a day
 * @returns pence, a row a day; 0 where there is no day
 * @example latestDays({ tariff: 0, calendar, days, battery, shape }, latest, shared, energy, ofBattery).letters
 */
export function latestDays(
  {
    tariff,
    calendar,
    days,
    battery,
    shape,
  }: { tariff: number; calendar: Calendar; days: TariffDays; battery: BatteryFigures; shape: Shape },
  latest: LatestRates,
  shared: { importKwh: Column; exportKwh: Column },
  energy: EnergyDays,
  ofBattery: BatteryDays,
): Column {
  const { boughtKwh, soldKwh, chargedKwh, boughtPence, givenPence, soldPence } = ofBattery;
  const ofSet = (column: Column): Node => f`SUM(INDEX(${all(column)},${days.set}))`;
  const given = f`${battery.chargeEfficiency}*${battery.dischargeEfficiency}*${chargedKwh}`;
  const kwh = f`(${shared.importKwh}+${boughtKwh}+${soldKwh}-${given})`;
  const pence = f`(${energy.energyPence}+${boughtPence}-${givenPence}+${soldPence})`;
  const exported = f`(${shared.exportKwh}-${chargedKwh}+${boughtKwh}+${soldKwh})`;
  return calendar.sheet.column({
    label: `At the latest rates more, tariff ${tariff + 1}`,
    unit: '{minor}',
    description:
      'What the day’s use less its export would cost more; 0 where the latest rates hold on the day',
    style: 'pence',
    rows: shape.days,
    name: `to_latest_pence_${tariff + 1}`,
    is: f`IF(${calendar.date}="",0,IF(${days.set}>=${latest.sets},0,${ofSet(latest.perKwhPence)}*${kwh}+(${ofSet(latest.factor)}-1)*${pence}-${ofSet(latest.exportMorePence)}*${exported}))`,
  });
}
