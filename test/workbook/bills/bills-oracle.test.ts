import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BILL_PARTS, billFigures, type PrintedBill, reconcileBill } from '../../../src/bills/index.js';
import type { Tariff } from '../../../src/tariffs/tariff.js';
import { halfHourCalendar } from '../../../src/time/half-hour-calendar.js';
import { RATES_USED } from '../../../src/workbook/layout.js';
import { KWH_CAUSE } from '../../../src/workbook/model/bills/bill-columns.js';
import { tariffInPlay } from '../../tariffs/arbitraries.js';
import { randomRows } from '../workings/workings-case.js';
import { billCase, type TypedBill } from './bill-case.js';

/** Where the clock changes within the days, in spring, in autumn and at midnight. */
const PLACES = [
  { zone: 'Europe/London', first: Date.UTC(2026, 2, 20) },
  { zone: 'Europe/London', first: Date.UTC(2026, 9, 15, 23) },
  { zone: 'America/Santiago', first: Date.UTC(2027, 2, 25, 3) },
] as const;
const DAYS = 20;
const VAT = 0.05;
const PART_LABELS = [
  'Of kWh',
  'Of unit rates',
  'Of days',
  'Of the standing charge',
  'Of export',
  'Of VAT',
  'Of its own sum',
] as const;
const CAUSES = {
  'other clock': KWH_CAUSE.clock,
  registers: KWH_CAUSE.registers,
  estimated: KWH_CAUSE.estimated,
  'missing half-hours': KWH_CAUSE.missing,
  other: KWH_CAUSE.other,
} as const;

const figure = (min: number, max: number) =>
  fc.integer({ min: min * 100, max: max * 100 }).map((n) => n / 100);
const billArbitrary = fc.record({
  first: fc.integer({ min: 0, max: 8 }),
  length: fc.integer({ min: 1, max: 12 }),
  kwh: fc.tuple(figure(0, 200), figure(0, 200), figure(0, 200)),
  rates: fc.tuple(figure(5, 40), figure(5, 40), figure(5, 40)),
  days: fc.option(fc.integer({ min: 1, max: 40 }), { nil: null }),
  standing: figure(20, 70),
  vat: fc.option(figure(0, 20), { nil: null }),
  exported: fc.option(fc.tuple(figure(0, 60), figure(3, 20)), { nil: null }),
  registers: fc.option(fc.tuple(figure(0, 300), figure(0, 300), figure(0, 300)), { nil: null }),
  total: figure(0, 200),
  isEstimated: fc.boolean(),
});

const caseArbitrary = fc.constantFrom(...PLACES).chain((place) =>
  fc.record({
    place: fc.constant(place),
    tariff: tariffInPlay(place.first, 4),
    other: tariffInPlay(place.first, 4),
    seed: fc.integer({ min: 1, max: 1_000_000 }),
    gaps: fc.constantFrom(0, 0.05),
    billed: fc.constantFrom(0, 1),
    bill: billArbitrary,
    rounding: fc.constantFrom('each line' as const, 'total only' as const),
    ratesUsed: fc.constantFrom(...Object.values(RATES_USED)),
  }),
);

describe('what stands beside a bill is what the library finds', () => {
  it('line by line, across changes of clock and of rates, whatever rates price the period', () => {
    fc.assert(
      fc.property(
        caseArbitrary,
        ({ place, tariff, other, seed, gaps, billed, bill, rounding, ratesUsed }) => {
          const rows = randomRows(seed, place.zone, place.first, DAYS, gaps);
          const calendar = halfHourCalendar(rows.startUtcMs, place.zone);
          const tariffs: Tariff[] = [tariff, { ...other, name: 'Other' }];
          const on = tariffs[billed];
          if (on === undefined) throw new Error('no tariff');
          const from = (calendar.daySerials[0] ?? 0) + bill.first;
          const to = from + bill.length - 1;
          const typed: TypedBill = {
            from,
            to,
            tariff: on.name,
            total: bill.total,
            lines: bill.kwh.map((kwh, k) => ({
              kwh,
              rate: bill.rates[k] ?? null,
              opening: bill.registers === null ? null : 100,
              closing: bill.registers === null ? null : 100 + (bill.registers[k] ?? 0),
            })),
            standing: bill.standing,
            days: bill.days,
            vat: bill.vat,
            exportKwh: bill.exported?.[0] ?? null,
            exportRate: bill.exported?.[1] ?? null,
            reads: bill.isEstimated ? 'estimated' : null,
          };
          const { at, calculated, columns } = billCase(rows, tariffs, [typed], {
            vatShare: VAT,
            rounding,
            ratesUsed,
          });

          const {
            importKwh = new Float64Array(0),
            exportKwh = new Float64Array(0),
            pricePence,
          } = rows.channels;
          const series = { importKwh, exportKwh, ...(pricePence === undefined ? {} : { pricePence }) };
          const own = billFigures(on, calendar, series, from, to, VAT);
          const printed: PrintedBill = {
            rates: bill.kwh.map((kwh, k) => ({
              kwh,
              ratePence: bill.rates[k] ?? 0,
            })) as unknown as PrintedBill['rates'],
            days: bill.days ?? bill.length,
            standingChargePencePerDay: bill.standing,
            ...(bill.vat === null ? {} : { vatPounds: bill.vat }),
            ...(bill.exported === null
              ? {}
              : { export: { kwh: bill.exported[0], ratePence: bill.exported[1] } }),
            totalPounds: bill.total,
            ...(bill.registers === null
              ? {}
              : { registersKwh: bill.registers.reduce((sum, kwh) => sum + kwh, 0) }),
            isEstimated: bill.isEstimated,
          };
          const found = reconcileBill(printed, own, { vatShare: VAT, rounding, agreesWithinPounds: 1 });

          [0, 1, 2].forEach((k) => {
            expect(at(`As metered at rate ${k + 1}`, 0)).toBeCloseTo(own.kwh[k] ?? 0, 8);
            expect(at(`By the other clock at rate ${k + 1}`, 0)).toBeCloseTo(own.otherClockKwh[k] ?? 0, 8);
            const withVat = own.ratePence[k];
            const rate = at(`Rate ${k + 1} of the tariff`, 0);
            if (withVat === undefined) expect(rate).toBe('');
            else expect(rate).toBeCloseTo(withVat / (bill.vat === null ? 1 : 1 + VAT), 7);
          });
          expect(at('Half-hours missing', 0)).toBe(own.missingHalfHours);
          expect(at('By the readings', 0)).toBeCloseTo(found.ownTotalPounds, 6);
          expect(at('Difference', 0)).toBeCloseTo(found.differencePounds, 6);
          PART_LABELS.forEach((label, i) => {
            expect(at(label, 0), label).toBeCloseTo(found.partsPounds[BILL_PARTS[i] ?? 'sum'], 5);
          });
          expect(at('Explains most', 0)).toBe(1 + BILL_PARTS.indexOf(found.main));
          expect(at('Why the kWh differ', 0)).toBe(CAUSES[found.kwhCause]);
          expect(at('Missing half-hours, at most', 0)).toBeCloseTo(found.missingAtMostPounds, 6);
          expect(calculated.value(columns.differs.cell(0))).toBe(found.agrees ? 0 : 1);
        },
      ),
      { seed: 31, numRuns: 25 },
    );
  }, 120_000);

  it('bill by bill where several follow one another, each on its own tariff', () => {
    const [place] = PLACES;
    fc.assert(
      fc.property(
        tariffInPlay(place.first, 4),
        tariffInPlay(place.first, 4),
        fc.integer({ min: 1, max: 1_000_000 }),
        (tariff, other, seed) => {
          const rows = randomRows(seed, place.zone, place.first, DAYS);
          const calendar = halfHourCalendar(rows.startUtcMs, place.zone);
          const tariffs = [tariff, { ...other, name: 'Other' }];
          const first = calendar.daySerials[0] ?? 0;
          // Out of order: rows may stand as they come.
          const spans = [
            { from: first + 12, to: first + 19, on: 1 },
            { from: first, to: first + 4, on: 0 },
            { from: first + 5, to: first + 11, on: 1 },
          ];
          const { at } = billCase(
            rows,
            tariffs,
            spans.map(({ from, to, on }) => ({
              from,
              to,
              tariff: tariffs[on]?.name ?? '',
              total: 10,
              lines: [{ kwh: 1, rate: 1 }],
              standing: 0,
              exportKwh: 0,
              exportRate: 1,
            })),
            { vatShare: VAT },
          );
          const {
            importKwh = new Float64Array(0),
            exportKwh = new Float64Array(0),
            pricePence,
          } = rows.channels;
          const series = { importKwh, exportKwh, ...(pricePence === undefined ? {} : { pricePence }) };
          let metered = 0;
          spans.forEach(({ from, to, on }, i) => {
            const own = billFigures(tariffs[on] ?? tariff, calendar, series, from, to, VAT);
            for (const k of [0, 1, 2] as const) {
              expect(at(`As metered at rate ${k + 1}`, i)).toBeCloseTo(own.kwh[k], 8);
              metered += own.kwh[k];
            }
            expect(at('Export as metered', i)).toBeCloseTo(own.exportKwh, 8);
            expect(at('Days to the next bill that none charges', i)).toBe(0);
          });
          // The parts are the whole: every half-hour is in one bill, at one rate.
          expect(metered).toBeCloseTo(
            importKwh.reduce((sum, kwh) => sum + kwh, 0),
            6,
          );
        },
      ),
      { seed: 32, numRuns: 6 },
    );
  }, 120_000);
});
