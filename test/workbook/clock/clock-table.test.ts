import { describe, expect, it } from 'vitest';
import { isoDateToSerial, serialToIsoDate } from '../../../src/time/serial.js';
import { assertRoomForDays, clockTable, coversDays } from '../../../src/workbook/model/clock-table.js';

const DAY_MS = 86_400_000;
const HALF_HOUR_MS = 1_800_000;

/** Local date and offset as `Intl` says them, which shares no code with the table. */
function intlClock(timeZone: string): { date: (ms: number) => string; offset: (ms: number) => string } {
  const dates = new Intl.DateTimeFormat('en-CA', { timeZone, dateStyle: 'short' });
  const offsets = new Intl.DateTimeFormat('en', { timeZone, timeZoneName: 'longOffset', hour: 'numeric' });
  return {
    date: (ms) => dates.format(ms),
    offset: (ms) => offsets.formatToParts(ms).find(({ type }) => type === 'timeZoneName')?.value ?? '',
  };
}

/** Days of a year that do not have 48 half-hours, counted half-hour by half-hour where the offset changes. */
function oddDaysByIntl(timeZone: string, year: number): Record<string, number> {
  const { date, offset } = intlClock(timeZone);
  const days = Array.from({ length: 368 }, (_, day) => Date.UTC(year, 0, day));
  const odd: Record<string, number> = {};
  days.slice(1).forEach((day, i) => {
    if (offset(day) === offset(days[i] as number)) return;
    const counts: Record<string, number> = {};
    const first = day - 3 * DAY_MS;
    for (let at = first; at < day + 2 * DAY_MS; at += HALF_HOUR_MS) {
      counts[date(at)] = (counts[date(at)] ?? 0) + 1;
    }
    // The first and the last date are cut.
    for (const [name, count] of Object.entries(counts).slice(1, -1)) {
      if (count !== 48 && name.startsWith(String(year))) odd[name] = count;
    }
  });
  return odd;
}

function oddDaysByTable(timeZone: string, year: number): Record<string, number> {
  const { daySerial, minutesGained } = clockTable(timeZone, {
    firstDay: isoDateToSerial(`${year}-01-01`),
    lastDay: isoDateToSerial(`${year}-12-31`),
  });
  return Object.fromEntries(
    [...daySerial]
      .map((day, i) => [serialToIsoDate(day), 48 + (minutesGained[i] ?? 0) / 30] as const)
      .filter(([day, count]) => day.startsWith(String(year)) && count !== 48),
  );
}

describe('the table of clock changes', () => {
  const zones = Intl.supportedValuesOf('timeZone');

  it.each([2013, 2026])('has the odd days of %i of every zone as Intl counts them', (year) => {
    expect(zones.length).toBeGreaterThan(400);
    for (const zone of zones) {
      expect({ zone, days: oddDaysByTable(zone, year) }).toEqual({ zone, days: oddDaysByIntl(zone, year) });
    }
  });

  it.each([
    ['a spring change at midnight to the day that begins an hour late', 'America/Santiago', '2026-09-06', 46],
    ['an autumn change at midnight to the day that ends an hour late', 'America/Santiago', '2026-04-04', 50],
    ['Beirut’s spring change', 'Asia/Beirut', '2026-03-29', 46],
    ['Casablanca’s month of fasting', 'Africa/Casablanca', '2026-02-15', 50],
  ])('gives %s', (_, zone, day, count) => {
    expect(oddDaysByTable(zone, 2026)[day]).toBe(count);
  });

  it('covers whole years, and those of the readings where the usual ones do not', () => {
    const usual = clockTable('Europe/London');
    expect([usual.coversFrom, usual.coversUntil].map(serialToIsoDate)).toEqual(['2019-01-01', '2037-12-31']);
    const early = { firstDay: isoDateToSerial('2012-10-13'), lastDay: isoDateToSerial('2014-02-27') };
    expect(coversDays(usual, early)).toBe(false);
    expect(coversDays(clockTable('Europe/London', early), early)).toBe(true);
  });

  it('refuses readings of a day that is longer than the grid has rows for, and of no other', () => {
    const zone = 'Antarctica/Troll';
    const table = clockTable(zone);
    const span = (firstDay: string, lastDay: string) => ({
      firstDay: isoDateToSerial(firstDay),
      lastDay: isoDateToSerial(lastDay),
    });
    expect(() => assertRoomForDays(table, zone, span('2026-10-01', '2026-10-31'))).toThrow(
      '2026-10-25 has 26 hours in Antarctica/Troll, the workbook has room for 25. Leave the readings of that day out.',
    );
    expect(() => assertRoomForDays(table, zone, span('2026-01-01', '2026-09-30'))).not.toThrow();
  });
});
