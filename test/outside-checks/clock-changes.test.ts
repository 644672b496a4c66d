import { describe, expect, it } from 'vitest';
import { clockChangeTable } from '../../src/time/clock-change-table.js';
import { halfHourCalendar } from '../../src/time/half-hour-calendar.js';
import { halfHoursInDay } from '../../src/time/half-hours-in-day.js';
import { halfHoursInLocalDay } from '../../src/time/half-hours-in-local-day.js';
import { DAY_MS, HALF_HOUR_MS, isoDateToSerial } from '../../src/time/serial.js';

// Source: IANA time zone database, written down from memory.
const DAYS: [string, string, number][] = [
  ['Europe/London', '2026-03-29', 46],
  ['Europe/London', '2026-10-25', 50],
  ['Australia/Sydney', '2027-04-04', 50],
  ['Australia/Sydney', '2027-10-03', 46],
  ['Australia/Lord_Howe', '2027-04-04', 49],
  ['Australia/Lord_Howe', '2027-10-03', 47],
  ['Asia/Kolkata', '2026-03-29', 48],
];

describe.each(DAYS)('half-hours of the local day: %s, %s', (timeZone, isoDate, halfHours) => {
  it(`are ${halfHours} by the zone`, () => {
    expect(halfHoursInLocalDay(isoDate, timeZone)).toBe(halfHours);
  });

  it('are as many by the table of clock changes', () => {
    const year = isoDate.slice(0, 4);
    const table = clockChangeTable(timeZone, `${year}-01-01`, `${year}-12-31`);
    expect(halfHoursInDay(isoDateToSerial(isoDate), table)).toBe(halfHours);
  });

  it('are as many by the calendar of half-hours', () => {
    const from = Date.parse(`${isoDate}T00:00Z`) - DAY_MS;
    const starts = Float64Array.from({ length: 150 }, (_, i) => from + i * HALF_HOUR_MS);
    const { dayIndex, daySerials, expectedHalfHoursOfDay } = halfHourCalendar(starts, timeZone);
    const day = daySerials.indexOf(isoDateToSerial(isoDate));
    expect(expectedHalfHoursOfDay[day]).toBe(halfHours);
    expect(dayIndex.filter((index) => index === day)).toHaveLength(halfHours);
  });
});

it('an ordinary year in Kolkata has no clock change', () => {
  expect(clockChangeTable('Asia/Kolkata', '2026-01-01', '2026-12-31')).toEqual([]);
});
