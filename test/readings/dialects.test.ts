import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { importFiles } from '../../src/readings/index.js';
import { DAY_MS, HALF_HOUR_MS } from '../../src/time/serial.js';
import { startOfLocalDay } from '../../src/time/start-of-local-day.js';
import { ZoneClock } from '../../src/time/zone-clock.js';
import { type Dialect, PLAIN, writeDialect } from './write-dialect.js';

/** Half-hours from one local midnight to another. */
function halfHours(timeZone: string, firstDay: string, days: number) {
  const first = Date.parse(`${firstDay}T00:00:00Z`);
  const clock = new ZoneClock(timeZone, first - 2 * DAY_MS, first + (days + 3) * DAY_MS);
  const starts: number[] = [];
  const end = startOfLocalDay(clock, first + days * DAY_MS);
  for (let utc = startOfLocalDay(clock, first); utc < end; utc += HALF_HOUR_MS) starts.push(utc);
  return { clock, starts };
}

const ZONES = [
  'Europe/London',
  'Australia/Sydney',
  'Australia/Lord_Howe',
  'Asia/Kolkata',
  'Asia/Kathmandu',
  'America/New_York',
];
// Ten days around a clock change of each zone that has one, with a day above 12 so that dates settle their order.
const SPANS = [
  ['Europe/London', '2026-03-22', 46],
  ['Europe/London', '2026-10-18', 50],
  ['Australia/Sydney', '2027-04-04', 50],
  ['Australia/Sydney', '2027-09-29', 46],
  ['Australia/Lord_Howe', '2027-04-04', 49],
  ['Australia/Lord_Howe', '2027-10-03', 47],
  ['Asia/Kolkata', '2026-05-10', 48],
  ['Asia/Kathmandu', '2026-05-10', 48],
  ['America/New_York', '2026-10-25', 50],
] as const;

const dialects: fc.Arbitrary<Dialect> = fc.record<Dialect>({
  stamp: fc.constantFrom(
    'isoOffset',
    'isoUtc',
    'isoLocal',
    'dmy',
    'mdy',
    'dmyDateTime',
    'mdyTwelveHour',
    'bare',
    'dayNumber',
  ),
  position: fc.constantFrom('start', 'end'),
  layout: fc.constantFrom('interval', 'interval', 'day'),
  unit: fc.constantFrom('kWh', 'Wh', 'kW', 'W'),
  delimiter: fc.constantFrom(',', ';', '\t', '|'),
  decimal: fc.constantFrom('.', ','),
  register: fc.boolean(),
  preamble: fc.boolean(),
  newestFirst: fc.boolean(),
  encoding: fc.constantFrom('utf8', 'utf8bom', 'utf16le', 'utf16be'),
  eol: fc.constantFrom('\n', '\r\n'),
});

/** Combinations that mean something: a register counts energy; the numbered half-hour has no end. */
function sensible(dialect: Dialect): Dialect {
  const d = { ...dialect };
  if (d.layout === 'day') d.register = false;
  if (d.register && (d.unit === 'kW' || d.unit === 'W')) d.unit = 'kWh';
  if (d.stamp === 'dayNumber') {
    d.register = false;
    d.position = 'start';
  }
  return d;
}

describe('readings written in any dialect come back the same', () => {
  test('round trip across zones, stamps, units, delimiters, decimal marks, layouts and encodings', () => {
    fc.assert(
      fc.property(
        dialects,
        fc.constantFrom(...SPANS),
        fc.integer({ min: 1, max: 1e6 }),
        (raw, [zone, day], seed) => {
          const dialect = sensible(raw);
          const { clock, starts } = halfHours(zone, day, 11);
          const wh = starts.map((_, i) => 37 + ((seed * (i + 1) * 7919) % 1713));
          const bytes = writeDialect(starts, wh, clock, dialect);
          const { readings } = importFiles([{ name: 'a.csv', bytes }], {
            timeZone: zone,
            ...(dialect.layout === 'day' ? { unit: dialect.unit } : {}),
          });
          expect(readings.startUtcMs.length).toBe(starts.length);
          const importKwh = readings.channels.importKwh!;
          // One comparison a half-hour, told only where it fails: thousands of expectations would take seconds.
          const wrong = starts.findIndex(
            (utc, i) => readings.startUtcMs[i] !== utc || Math.abs(importKwh[i]! - wh[i]! / 1000) > 1e-8,
          );
          expect(wrong).toBe(-1);
        },
      ),
      { seed: 20260329, numRuns: 100 },
    );
  });
});

describe('a local day has its own number of half-hours (IANA time zone database)', () => {
  // The first four pairs as in the check values of the project: written down from memory there.
  test.each([
    ['Europe/London', '2026-03-29', 46],
    ['Europe/London', '2026-10-25', 50],
    ['Australia/Sydney', '2027-04-04', 50],
    ['Australia/Sydney', '2027-10-03', 46],
    ['Australia/Lord_Howe', '2027-04-04', 49],
    ['Australia/Lord_Howe', '2027-10-03', 47],
    ['Asia/Kolkata', '2026-03-29', 48],
  ])('%s %s: %i, whatever the stamps', (zone, day, count) => {
    const before = new Date(Date.parse(`${day}T00:00:00Z`) - DAY_MS).toISOString().slice(0, 10);
    const { clock, starts } = halfHours(zone, before, 12);
    const wh = starts.map((_, i) => 100 + (i % 13));
    for (const stamp of ['isoLocal', 'isoUtc', 'isoOffset', 'dmy', 'dayNumber'] as const) {
      for (const layout of ['interval', 'day'] as const) {
        const bytes = writeDialect(starts, wh, clock, { ...PLAIN, stamp, layout });
        const { readings } = importFiles([{ name: 'a.csv', bytes }], { timeZone: zone, dateOrder: 'dmy' });
        const onDay = Array.from(readings.startUtcMs).filter(
          (utc) => new Date(clock.localMsAt(utc)).toISOString().slice(0, 10) === day,
        );
        expect(onDay.length).toBe(count);
        expect(readings.startUtcMs.length).toBe(starts.length);
      }
    }
  });
});

describe('the order and the splitting of files do not matter', () => {
  test('any cut of an export, in any order, gives the readings of the whole', () => {
    fc.assert(
      fc.property(
        dialects,
        fc.constantFrom(...SPANS),
        fc.array(fc.integer({ min: 4, max: 470 }), { maxLength: 4 }),
        fc.infiniteStream(fc.nat()),
        (raw, [zone, day], cuts, shuffle) => {
          const dialect = { ...sensible(raw), layout: 'interval' as const, encoding: 'utf8' as const };
          const { clock, starts } = halfHours(zone, day, 10);
          const wh = starts.map((_, i) => 37 + ((i * 7919) % 1713));
          const text = Buffer.from(writeDialect(starts, wh, clock, dialect)).toString('utf8');
          const lines = text.split(dialect.eol).filter((line) => line !== '');
          const headAt = lines.findIndex((line) => line.startsWith('Interval'));
          const head = lines.slice(0, headAt + 1);
          const body = lines.slice(headAt + 1);
          const at = [
            0,
            ...new Set(cuts.filter((c) => c < body.length - 4).sort((a, b) => a - b)),
            body.length,
          ];
          const pieces = at.slice(1).map((end, k) => body.slice(at[k], end));
          const files = pieces
            .filter((piece) => piece.length > 0)
            .map((piece, k) => ({ name: `${k}.csv`, bytes: Buffer.from([...head, ...piece].join('\n')) }));
          const shuffled = files
            .map((file) => ({ file, key: shuffle.next().value! }))
            .sort((a, b) => a.key - b.key)
            .map(({ file }) => file);
          const options = {
            timeZone: zone,
            dateOrder: dialect.stamp.startsWith('mdy') ? 'mdy' : 'dmy',
            intervalMinutes: 30,
          } as const;
          const whole = importFiles([{ name: 'whole.csv', bytes: Buffer.from(text) }], options);
          const parts = importFiles(shuffled, options);
          expect(Array.from(parts.readings.startUtcMs)).toEqual(Array.from(whole.readings.startUtcMs));
          expect(Array.from(parts.readings.channels.importKwh!)).toEqual(
            Array.from(whole.readings.channels.importKwh!),
          );
        },
      ),
      { seed: 20261025, numRuns: 60 },
    );
  });
});

describe('energy is conserved across interval lengths', () => {
  test.each([5, 10, 15, 30, 60])('%i minutes', (minutes) => {
    fc.assert(
      fc.property(
        fc.constantFrom(...ZONES.filter((z) => z !== 'Asia/Kathmandu')),
        fc.constantFrom('kWh', 'kW', 'Wh'),
        (zone, unit) => {
          const stepMs = minutes * 60_000;
          const first = Date.parse('2026-05-10T00:00:00Z');
          const n = (3 * DAY_MS) / stepMs;
          const values = Array.from({ length: n }, (_, i) => ((i * 7919) % 1713) / 1000);
          const lines = values.map((v, i) => `${new Date(first + i * stepMs).toISOString()},${v}`);
          const bytes = Buffer.from([`start,import ${unit}`, ...lines].join('\n'));
          const { readings } = importFiles([{ name: 'a.csv', bytes }], { timeZone: zone });
          const kwh =
            values.reduce((sum, v) => sum + v, 0) * (unit === 'kW' ? minutes / 60 : unit === 'Wh' ? 1e-3 : 1);
          const total = readings.channels.importKwh!.reduce((sum, v) => sum + v, 0);
          expect(readings.startUtcMs.length).toBe(144);
          expect(total).toBeCloseTo(kwh, 9);
        },
      ),
      { seed: 1, numRuns: 10 },
    );
  });
});
