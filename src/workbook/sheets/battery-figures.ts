import type { Node, Reference } from '../../formula/nodes.js';
import { FIRST_ROW, SheetBuilder } from '../book/sheet-builder.js';
import { call, f, type Line } from '../book/terms.js';
import type { BatteryTerms } from './input-terms.js';
import { FIRST_COLUMN, WORKING_SHEETS } from './sheet-names.js';

/** The battery as it is worked with: a wrong figure is counted, and the battery left out. */
export interface BatteryFigures {
  sheet: SheetBuilder;
  faults: Line;
  usableKwh: Line;
  chargeKw: Line;
  dischargeKw: Line;
  chargeEfficiency: Line;
  dischargeEfficiency: Line;
  reserveKwh: Line;
  startKwh: Line;
  wearPencePerKwh: Line;
  chargesFromGrid: Line;
  carBarred: Line;
  mayExport: Line;
  roundTrip: Line;
  /** Stored kWh that a half-hour of charging at full power adds. */
  chargeStepKwh: Line;
  /** Stored kWh that a half-hour of giving at full power takes. */
  giveStepKwh: Line;
  /** Wear of the AC energy that a stored kWh gives. */
  wearPerStoredKwh: Line;
  startLevelKwh: Line;
}

/** A number in a cell, 0 where there is none. */
const number = (line: Line): Node => call('SUM', [line]);

/**
 * Declares the battery as it is worked with.
 *
 * @param inputs its input cells
 * @param flags beside its figures: how often each can't be used
 */
export function batteryFigures(inputs: BatteryTerms, flags: Line | Reference): BatteryFigures {
  const sheet = new SheetBuilder(
    WORKING_SHEETS.batteryFigures,
    FIRST_ROW,
    FIRST_COLUMN.batteryFigures,
    'Battery figures',
  );
  let row = 4;
  const figure = (
    label: string,
    unit: string,
    name: string,
    is: Node,
    style: 'rate' | 'integer' | 'rateFine' = 'rate',
  ): Line => sheet.line(row++, 2, { label, unit, style, is, name });

  const faults = figure('Figures that can’t be used', 'count', 'battery_faults', f`SUM(${flags})`, 'integer');
  const usable = (label: string, unit: string, name: string, input: Line): Line =>
    figure(label, unit, name, f`IF(${faults}=0,${number(input)},0)`);
  const usableKwh = usable('Usable capacity', 'kWh', 'usable_kWh', inputs.usableKwh);
  const efficiency = (label: string, name: string, input: Line): Line =>
    figure(
      label,
      'share',
      name,
      f`IF(${usableKwh}=0,1,IF(ISBLANK(${inputs.roundTripEfficiency}),${number(input)},SQRT(${number(inputs.roundTripEfficiency)})))`,
      'rateFine',
    );
  const flag = (label: string, name: string, input: Line, yes: number): Line =>
    figure(label, '1 or 0', name, f`IF(${input}="yes",${yes},${1 - yes})`, 'integer');

  const chargeKw = usable('Charge power', 'kW', 'charge_kW', inputs.chargeKw);
  const dischargeKw = usable('Discharge power', 'kW', 'discharge_kW', inputs.dischargeKw);
  const chargeEfficiency = efficiency('Charge efficiency', 'charge_efficiency', inputs.chargeEfficiency);
  const dischargeEfficiency = efficiency(
    'Discharge efficiency',
    'discharge_efficiency',
    inputs.dischargeEfficiency,
  );
  const reserveKwh = usable('Reserve', 'kWh', 'reserve_kWh', inputs.reserveKwh);
  const startKwh = usable('Level before the first reading', 'kWh', 'start_kWh', inputs.startKwh);
  const wearPencePerKwh = usable('Wear', '{minor}/kWh given', 'wear', inputs.wearPencePerKwh);
  const chargesFromGrid = flag('Charges from the grid', 'charges_from_grid', inputs.chargeFromGrid, 1);
  const carBarred = flag('May not feed the car', 'car_barred', inputs.mayFeedCar, 0);
  const mayExport = flag('May export', 'may_export', inputs.mayExport, 1);
  return {
    sheet,
    faults,
    usableKwh,
    chargeKw,
    dischargeKw,
    chargeEfficiency,
    dischargeEfficiency,
    reserveKwh,
    startKwh,
    wearPencePerKwh,
    chargesFromGrid,
    carBarred,
    mayExport,
    roundTrip: figure(
      'Round trip',
      'share',
      'round_trip',
      f`${chargeEfficiency}*${dischargeEfficiency}`,
      'rateFine',
    ),
    chargeStepKwh: figure(
      'Charging adds in a half-hour',
      'kWh stored',
      'charge_step_kWh',
      f`${chargeKw}/2*${chargeEfficiency}`,
    ),
    giveStepKwh: figure(
      'Giving takes in a half-hour',
      'kWh stored',
      'give_step_kWh',
      f`${dischargeKw}/2/${dischargeEfficiency}`,
    ),
    wearPerStoredKwh: figure(
      'Wear of a stored kWh',
      '{minor}',
      'stored_wear',
      f`${wearPencePerKwh}*${dischargeEfficiency}`,
    ),
    startLevelKwh: figure(
      'Level at the start',
      'kWh stored',
      'start_level_kWh',
      f`MIN(${startKwh},${usableKwh})`,
    ),
  };
}
