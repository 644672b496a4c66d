import type { Node, Reference } from '../../formula/nodes.js';
import type { SheetBuilder } from '../book/sheet-builder.js';
import { all, call, f, type Line } from '../book/terms.js';
import type { TimersTerms, TimerTerms } from './input-terms.js';
import { type ReadingsSheet, WHERE_METERED } from './readings.js';

/** A load's timer as it is worked with: one that can't be used is counted, and left out. */
export interface TimerFigures {
  /** 1 where hours and power can be used, whether the timer is on or not. */
  isKnown: Line;
  isOn: Line;
  /** kWh that the load takes in a half-hour at most. */
  stepKwh: Line;
  /** Half-hour of the day, from 0, at which the hours begin, and how many they are. */
  firstSlot: Line;
  length: Line;
  /** Half-hours from noon to the beginning of the hours. */
  fromNoon: Line;
  /** The first and the last half-hour of the hours in a session’s rates, from the midnight before its noon, from 0. */
  firstRow: Line;
  lastRow: Line;
  /** 1 where the hours take in noon: then they are all of a session but one stretch. */
  spansNoon: Line;
  /** That stretch, or that of the hours: from and to, half-hours from noon. */
  stretchFrom: Line;
  stretchTo: Line;
}

/** What a tank takes as things are. */
export interface TankFigures {
  kwhPerDay: Line;
  heatedFirst: Line;
  heatedLength: Line;
}

/** Rows of the sheet of figures that a load takes. */
const ROWS = 11;
const FIRST_ROW = 34;
const number = (line: Line): Node => call('SUM', [line]);
const slot = (line: Line): Node => f`ROUND(${number(line)}*48,0)`;

/**
 * Declares the timer of a load as it is worked with.
 *
 * @param sheet the sheet of figures
 * @param place which load, from 0
 * @param key begins the defined names
 * @param what the load in words
 * @param inputs its input cells
 * @param flags how often they can't be used
 * @param needs a further cell that has to be above 0
 */
function timerFigures(
  sheet: SheetBuilder,
  place: number,
  key: string,
  what: string,
  inputs: TimerTerms,
  flags: Line | Reference,
  needs: readonly Line[] = [],
): TimerFigures {
  let row = FIRST_ROW + place * (ROWS + 1);
  const line = (label: string, unit: string, name: string, is: Node, style: 'integer' | 'rate' = 'integer') =>
    sheet.line(row++, 2, { label: `${label}, ${what}`, unit, style, is, name: `${key}_${name}` });
  const wholeInputs = call('COUNT', [inputs.from, inputs.to, inputs.powerKw, ...needs]);
  const isKnown = line(
    'Hours and power can be used',
    '1 or 0',
    'hours_known',
    f`IF(AND(${wholeInputs}=${3 + needs.length},SUM(${flags})=0),1,0)`,
  );
  const isOn = line('Timer on', '1 or 0', 'timer_on', f`IF(AND(${inputs.isOn}="yes",${isKnown}=1),1,0)`);
  const known = (is: Node): Node => f`IF(${isKnown}=0,0,${is})`;
  const stepKwh = line(
    'Takes in a half-hour',
    'kWh at most',
    'step_kWh',
    known(f`${number(inputs.powerKw)}/2`),
    'rate',
  );
  const firstSlot = line('Hours begin', 'half-hours after midnight', 'first_slot', known(slot(inputs.from)));
  const length = line(
    'Length of the hours',
    'half-hours',
    'hours_length',
    known(f`MOD(${slot(inputs.to)}-${firstSlot}-1,48)+1`),
  );
  const fromNoon = line('Hours begin', 'half-hours after noon', 'from_noon', f`MOD(${firstSlot}-24,48)`);
  const spansNoon = line('Hours take in noon', '1 or 0', 'spans_noon', f`IF(${fromNoon}+${length}>48,1,0)`);
  const stretchFrom = line(
    'Stretch of a session from',
    'half-hours after noon',
    'stretch_from',
    f`IF(${spansNoon}=1,${fromNoon}+${length}-48,${fromNoon})`,
  );
  const stretchTo = line(
    'Stretch of a session to',
    'half-hours after noon',
    'stretch_to',
    f`IF(${spansNoon}=1,${fromNoon},${fromNoon}+${length})`,
  );
  const firstRow = line(
    'First half-hour of the hours',
    'from the midnight before noon, from 0',
    'first_of_hours',
    f`24+${fromNoon}`,
  );
  const lastRow = line(
    'Last half-hour of the hours',
    'from the midnight before noon, from 0',
    'last_of_hours',
    f`23+${fromNoon}+${length}`,
  );
  return {
    isKnown,
    isOn,
    stepKwh,
    firstSlot,
    length,
    fromNoon,
    firstRow,
    lastRow,
    spansNoon,
    stretchFrom,
    stretchTo,
  };
}

/**
 * Declares the timers as they are worked with.
 *
 * @param inputs their input cells
 * @param readings where loads were metered
 * @param sheet the sheet of figures
 */
export function timersFigures(
  inputs: TimersTerms,
  readings: ReadingsSheet,
  sheet: SheetBuilder,
): { car: TimerFigures; water: TimerFigures; tank: TankFigures; rowsWithoutImport: Line } {
  const { kwhPerDay, from, to } = inputs.tank;
  const water = timerFigures(sheet, 1, 'water', 'hot water', inputs.hotWater, inputs.hotWaterFlags, [
    kwhPerDay,
    from,
    to,
  ]);
  let row = FIRST_ROW + 2 * (ROWS + 1);
  const line = (label: string, unit: string, name: string, is: Node, style: 'integer' | 'rate' = 'integer') =>
    sheet.line(row++, 2, { label, unit, style, is, name });
  const known = (is: Node): Node => f`IF(${water.isKnown}=0,0,${is})`;
  const heatedFirst = line(
    'Hot water is heated as things are from',
    'half-hours after midnight',
    'water_heated_first',
    known(slot(from)),
  );
  const tank = {
    kwhPerDay: line('Hot water takes', 'kWh a day', 'tank_kWh', known(number(kwhPerDay)), 'rate'),
    heatedFirst,
    heatedLength: line(
      'Length of these hours',
      'half-hours',
      'water_heated_length',
      known(f`MOD(${slot(to)}-${heatedFirst}-1,48)+1`),
    ),
  };
  const { start, channels } = readings;
  const rowsWithoutImport = line(
    'Rows of readings without import',
    'count',
    'rows_without_import',
    f`COUNT(${all(start)})-COUNTIFS(${all(start)},${WHERE_METERED},${all(channels.importKwh)},${WHERE_METERED})`,
  );
  return {
    car: timerFigures(sheet, 0, 'car', 'car', inputs.car, inputs.carFlags),
    water,
    tank,
    rowsWithoutImport,
  };
}
