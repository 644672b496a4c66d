import { describe, expect, it } from 'vitest';
import { clockChangeTable } from '../../src/time/clock-change-table.js';
import { halfHourCalendar } from '../../src/time/half-hour-calendar.js';
import { HALF_HOUR_MS, isoDateToSerial, serialToIsoDate } from '../../src/time/serial.js';

const starts = (fromUtcMs: number, count: number) =>
  Float64Array.from({ length: count }, (_, i) => fromUtcMs + i * HALF_HOUR_MS);

describe('the calendar of half-hours', () => {
  const year = halfHourCalendar(starts(Date.UTC(2026, 0, 1), 17_520), 'Europe/London');

  it('gives a clock-change day its 46 or 50 half-hours', () => {
    const halfHoursOn = (isoDate: string) => {
      const day = isoDateToSerial(isoDate) - year.daySerials[0]!;
      const counted = year.dayIndex.reduce((count, index) => count + (index === day ? 1 : 0), 0);
      return [counted, year.expectedHalfHoursOfDay[day]];
    };
    expect(halfHoursOn('2026-03-28')).toEqual([48, 48]);
    expect(halfHoursOn('2026-03-29')).toEqual([46, 46]);
    expect(halfHoursOn('2026-10-25')).toEqual([50, 50]);
  });

  it('knows weekday and half-hour by the wall clock and by UTC', () => {
    const i = year.startUtcMs.indexOf(Date.UTC(2026, 6, 5, 23, 30)); // Sunday in UTC, Monday 00:30 in London
    expect(year.weekSlotLocal[i]).toBe(1);
    expect(year.weekSlotUtc[i]).toBe(6 * 48 + 47);
    expect(year.utcOffsetMinutes[i]).toBe(60);
    expect(year.localSerial[i]).toBe(isoDateToSerial('2026-07-06') + 1 / 48);
  });

  it('spans the months, the first from its first day', () => {
    expect(Array.from(year.monthStartSerials, serialToIsoDate)).toEqual(
      Array.from({ length: 12 }, (_, month) => `2026-${String(month + 1).padStart(2, '0')}-01`),
    );
    const midMonth = halfHourCalendar(starts(Date.UTC(2026, 1, 10), 48 * 30), 'UTC');
    expect(Array.from(midMonth.monthStartSerials, serialToIsoDate)).toEqual(['2026-02-01', '2026-03-01']);
    expect(midMonth.monthIndex[0]).toBe(0);
    expect(midMonth.monthIndex[48 * 19]).toBe(1);
  });

  it('lists days without readings', () => {
    const gap = halfHourCalendar(Float64Array.of(Date.UTC(2026, 0, 1), Date.UTC(2026, 0, 4)), 'UTC');
    expect(gap.daySerials).toHaveLength(4);
    expect([...gap.dayIndex]).toEqual([0, 3]);
  });

  it('takes zones on a half-hour, and none at all', () => {
    const india = halfHourCalendar(starts(Date.UTC(2026, 0, 1, 18, 30), 2), 'Asia/Kolkata');
    expect([...india.weekSlotLocal]).toEqual([4 * 48, 4 * 48 + 1]);
    expect(halfHourCalendar(new Float64Array(0), 'UTC').daySerials).toHaveLength(0);
  });

  it('refuses half-hours off the local grid, out of order or of no known zone', () => {
    expect(() => halfHourCalendar(starts(Date.UTC(2026, 0, 1), 1), 'Asia/Kathmandu')).toThrow(
      'off the half-hour by the clock of Asia/Kathmandu',
    );
    expect(() => halfHourCalendar(Float64Array.of(1800000, 0), 'UTC')).toThrow(
      'half-hour 2 starts at 1970-01-01T00:00',
    );
    expect(() => halfHourCalendar(Float64Array.of(Number.NaN), 'UTC')).toThrow();
    expect(() => halfHourCalendar(new Float64Array(0), 'Europe/Nowhere')).toThrow('not a known time zone');
  });
});

describe('the table of clock changes', () => {
  it('lists the days that are longer or shorter', () => {
    expect(clockChangeTable('Europe/London', '2026-01-01', '2026-12-31')).toEqual([
      [isoDateToSerial('2026-03-29'), -60],
      [isoDateToSerial('2026-10-25'), 60],
    ]);
    expect(clockChangeTable('Asia/Kolkata', '2026-01-01', '2026-12-31')).toEqual([]);
  });
});
