import { localMsToSerial, serialToLocalMs } from '../../time/serial.js';

/** Calendar months from one serial day to another: 0 within a month. */
export function monthsApart(fromSerial: number, toSerial: number): number {
  const from = new Date(serialToLocalMs(fromSerial));
  const to = new Date(serialToLocalMs(toSerial));
  return (to.getUTCFullYear() - from.getUTCFullYear()) * 12 + to.getUTCMonth() - from.getUTCMonth();
}

/** Serial of the first day of the month that lies a count of months after a serial day. */
export function firstOfMonth(serial: number, monthsLater = 0): number {
  const date = new Date(serialToLocalMs(Math.floor(serial)));
  return localMsToSerial(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + monthsLater, 1));
}

export const MONTH_NAMES = [
  'Jan',
  'Feb',
  'Mar',
  'Apr',
  'May',
  'Jun',
  'Jul',
  'Aug',
  'Sep',
  'Oct',
  'Nov',
  'Dec',
] as const;

/** `Oct 2025` for a serial day of that month. */
export function monthText(serial: number): string {
  const date = new Date(serialToLocalMs(Math.floor(serial)));
  return `${MONTH_NAMES[date.getUTCMonth()]!} ${date.getUTCFullYear()}`;
}
