import { InputError } from '../../errors.js';
import type { GasPeriod } from '../../readings/index.js';
import { firstOfMonth } from '../../time/serial.js';

/** Gas of a stretch of whole days, both ends counted. */
export interface GasStretch {
  firstDay: number;
  lastDay: number;
  value: number;
  unit: GasPeriod['unit'];
}

/** Periods up to this long are put together by calendar month. */
const SHORT_DAYS = 10;
/** A quarter of an hour, in days: periods closer than that follow each other. */
const TOUCHING = 1 / 96;

/**
 * Gas periods as rows of the gas sheet: meter readings some weeks apart as they are, shorter periods by calendar
 * month. A period belongs to the month in which it begins; where periods are missing, a new row begins.
 *
 * @param periods ascending, none over another
 * @param file name of the files, for messages
 * @returns stretches of whole days, ascending
 * @throws InputError when readings lie less than a day apart and nothing follows
 * @example gasStretches([{ fromSerial: 45566, toSerial: 45597, value: 86.8, unit: 'm3', estimated: false }], 'gas.csv')[0].lastDay // 45596
 */
export function gasStretches(periods: readonly GasPeriod[], file: string): GasStretch[] {
  const groups: GasPeriod[][] = [];
  for (const period of periods) {
    const group = groups.at(-1);
    if (group !== undefined && belongsTo(group, period)) group.push(period);
    else groups.push([period]);
  }
  const stretches = groups.map((group): GasStretch => {
    const value = group.reduce((sum, period) => sum + period.value, 0);
    return {
      firstDay: Math.floor(group[0]!.fromSerial + TOUCHING),
      lastDay: Math.floor(group.at(-1)!.toSerial + TOUCHING) - 1,
      value: Number(value.toFixed(6)),
      unit: group[0]!.unit,
    };
  });
  const whole = stretches.filter(({ firstDay, lastDay }) => lastDay >= firstDay);
  if (whole.length === 0) {
    throw new InputError('the gas covers less than a day', 'Give readings some weeks apart, or daily gas.', {
      file,
    });
  }
  return whole;
}

function belongsTo(group: readonly GasPeriod[], period: GasPeriod): boolean {
  const first = group[0]!;
  const last = group.at(-1)!;
  return (
    isShort(period) &&
    isShort(last) &&
    period.unit === first.unit &&
    Math.abs(period.fromSerial - last.toSerial) < TOUCHING &&
    firstOfMonth(period.fromSerial + TOUCHING) === firstOfMonth(first.fromSerial + TOUCHING)
  );
}

function isShort({ fromSerial, toSerial }: GasPeriod): boolean {
  return toSerial - fromSerial < SHORT_DAYS;
}
