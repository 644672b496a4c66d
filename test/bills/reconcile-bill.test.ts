import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BILL_PARTS,
  type BillFigures,
  type BillPart,
  type PrintedBill,
  reconcileBill,
} from '../../src/bills/index.js';
import { roundMoney } from '../../src/charges/round-money.js';
import { InputError } from '../../src/errors.js';

const VAT = 0.05;
const kwhArbitrary = fc.double({ min: 20, max: 900, noNaN: true });
const rateArbitrary = fc.double({ min: 5, max: 45, noNaN: true });

/** What the days of a bill come to, at rates that differ. */
const ownArbitrary = fc
  .record({
    kwh: fc.tuple(kwhArbitrary, kwhArbitrary, kwhArbitrary),
    ratePence: fc.tuple(rateArbitrary, rateArbitrary, rateArbitrary),
    days: fc.integer({ min: 7, max: 92 }),
    standing: fc.double({ min: 20, max: 80, noNaN: true }),
    exportKwh: fc.double({ min: 5, max: 200, noNaN: true }),
    exportRatePence: fc.double({ min: 3, max: 20, noNaN: true }),
  })
  .map(
    ({ kwh, ratePence, days, standing, exportKwh, exportRatePence }): BillFigures => ({
      kwh,
      otherClockKwh: kwh,
      ratePence,
      energyPence: [kwh[0] * ratePence[0], kwh[1] * ratePence[1], kwh[2] * ratePence[2]],
      days,
      standingChargePencePerDay: standing,
      exportKwh,
      exportRatePence,
      missingHalfHours: 0,
      largestHalfHourKwh: 5,
    }),
  );

/** The bill that a supplier without fault would send: every line as the readings have it. */
function ownBill(own: BillFigures, separateVat: boolean, rounding: 'each line' | 'total only'): PrintedBill {
  const factor = separateVat ? 1 + VAT : 1;
  const line = (pounds: number): number => (rounding === 'each line' ? roundMoney(pounds) : pounds);
  const net =
    own.energyPence.reduce((sum, pence) => sum + line(pence / factor / 100), 0) +
    line((own.days * own.standingChargePencePerDay) / factor / 100);
  const vat = separateVat ? line(net * VAT) : 0;
  const rate = (k: 0 | 1 | 2) => ({ kwh: own.kwh[k], ratePence: (own.ratePence[k] ?? 0) / factor });
  return {
    rates: [rate(0), rate(1), rate(2)],
    days: own.days,
    standingChargePencePerDay: own.standingChargePencePerDay / factor,
    ...(separateVat ? { vatPounds: vat } : {}),
    export: { kwh: own.exportKwh, ratePence: own.exportRatePence },
    totalPounds: roundMoney(net + vat - line((own.exportKwh * own.exportRatePence) / 100)),
    isEstimated: false,
  };
}

/** A bill of ours that was sent on with its lines summed up anew. */
function summed(bill: PrintedBill): PrintedBill {
  const net =
    bill.rates.reduce((sum, { kwh, ratePence }) => sum + (kwh * ratePence) / 100, 0) +
    (bill.days * bill.standingChargePencePerDay) / 100;
  const isSeparate = bill.vatPounds !== undefined;
  const { kwh = 0, ratePence = 0 } = bill.export ?? {};
  return {
    ...bill,
    ...(isSeparate ? { vatPounds: net * VAT } : {}),
    totalPounds: roundMoney(net * (isSeparate ? 1 + VAT : 1) - (kwh * ratePence) / 100),
  };
}

const caseArbitrary = fc.record({
  own: ownArbitrary,
  separateVat: fc.boolean(),
  rounding: fc.constantFrom('each line' as const, 'total only' as const),
});

describe('a bill held against the readings', () => {
  it('made by our own pricing differs by nothing, in every line', () => {
    fc.assert(
      fc.property(caseArbitrary, ({ own, separateVat, rounding }) => {
        const found = reconcileBill(ownBill(own, separateVat, rounding), own, { vatShare: VAT, rounding });
        expect(found.differencePounds).toBe(0);
        expect(found.agrees).toBe(true);
        for (const part of BILL_PARTS) expect(Math.abs(found.partsPounds[part])).toBeLessThan(0.0051);
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  it('differs by the sum of its parts, but for the rounding of its lines', () => {
    const typed = fc.record({
      kwh: fc.tuple(kwhArbitrary, kwhArbitrary, kwhArbitrary),
      rates: fc.tuple(rateArbitrary, rateArbitrary, rateArbitrary),
      days: fc.integer({ min: 1, max: 100 }),
      standing: rateArbitrary,
      vat: fc.double({ min: 0, max: 60, noNaN: true }),
      total: fc.double({ min: -50, max: 900, noNaN: true }),
      exportKwh: kwhArbitrary,
    });
    fc.assert(
      fc.property(caseArbitrary, typed, ({ own, separateVat, rounding }, random) => {
        const bill: PrintedBill = {
          rates: [0, 1, 2].map((k) => ({
            kwh: random.kwh[k] ?? 0,
            ratePence: random.rates[k] ?? 0,
          })) as unknown as PrintedBill['rates'],
          days: random.days,
          standingChargePencePerDay: random.standing,
          ...(separateVat ? { vatPounds: roundMoney(random.vat) } : {}),
          export: { kwh: random.exportKwh, ratePence: 12 },
          totalPounds: roundMoney(random.total),
          isEstimated: false,
        };
        const { partsPounds, differencePounds } = reconcileBill(bill, own, { vatShare: VAT, rounding });
        const parts = BILL_PARTS.reduce((sum, part) => sum + partsPounds[part], 0);
        // Six lines on either side, and VAT of what is rounded.
        expect(Math.abs(parts - differencePounds)).toBeLessThan(0.08);
      }),
      { seed: 2, numRuns: 300 },
    );
  });

  const FAULTS: readonly { name: string; main: BillPart; plant: (bill: PrintedBill) => PrintedBill }[] = [
    { name: 'six days more', main: 'days', plant: (bill) => summed({ ...bill, days: bill.days + 6 }) },
    {
      name: 'a standing charge of another tariff',
      main: 'standingCharge',
      plant: (bill) => summed({ ...bill, standingChargePencePerDay: bill.standingChargePencePerDay + 30 }),
    },
    {
      name: 'a unit rate of another tariff',
      main: 'rates',
      plant: (bill) =>
        summed({
          ...bill,
          rates: [{ ...bill.rates[0], ratePence: bill.rates[0].ratePence + 9 }, bill.rates[1], bill.rates[2]],
        }),
    },
    {
      name: 'more kWh than were metered',
      main: 'kwh',
      plant: (bill) =>
        summed({
          ...bill,
          rates: [bill.rates[0], { ...bill.rates[1], kwh: bill.rates[1].kwh + 90 }, bill.rates[2]],
        }),
    },
    {
      name: 'export left out',
      main: 'export',
      plant: (bill) => summed({ ...bill, export: { kwh: 0, ratePence: bill.export?.ratePence ?? 0 } }),
    },
    {
      name: 'a total that is not that of its lines',
      main: 'sum',
      plant: (bill) => ({ ...bill, totalPounds: roundMoney(bill.totalPounds + 25) }),
    },
  ];
  it.each(FAULTS)('names the line of a planted fault: $name', ({ main, plant }) => {
    fc.assert(
      fc.property(caseArbitrary, ({ own, separateVat, rounding }) => {
        const found = reconcileBill(plant(ownBill(own, separateVat, rounding)), own, {
          vatShare: VAT,
          rounding,
        });
        expect(found.main).toBe(main);
        expect(found.agrees).toBe(false);
      }),
      { seed: 3, numRuns: 100 },
    );
  });

  it('names the VAT where it is taken at another share', () => {
    fc.assert(
      fc.property(ownArbitrary, (own) => {
        const bill = ownBill(own, true, 'each line');
        const more = (bill.vatPounds ?? 0) * 3;
        const found = reconcileBill(
          {
            ...bill,
            vatPounds: (bill.vatPounds ?? 0) + more,
            totalPounds: roundMoney(bill.totalPounds + more),
          },
          own,
          { vatShare: VAT },
        );
        expect(found.main).toBe('vat');
        expect(found.partsPounds.vat).toBeCloseTo(more, 1);
      }),
      { seed: 4, numRuns: 100 },
    );
  });

  describe('says why the kWh are others', () => {
    const own: BillFigures = {
      kwh: [300, 200, 0],
      otherClockKwh: [380, 120, 0],
      energyPence: [300 * 28, 200 * 8, 0],
      ratePence: [28, 8, undefined],
      days: 30,
      standingChargePencePerDay: 50,
      exportKwh: 0,
      exportRatePence: 0,
      missingHalfHours: 0,
      largestHalfHourKwh: 4,
    };
    const bill = (base: number, night: number, more: Partial<PrintedBill> = {}): PrintedBill =>
      summed({
        rates: [
          { kwh: base, ratePence: 28 },
          { kwh: night, ratePence: 8 },
          { kwh: 0, ratePence: 0 },
        ],
        days: 30,
        standingChargePencePerDay: 50,
        totalPounds: 0,
        isEstimated: false,
        ...more,
      });
    const cause = (printed: PrintedBill, figures = own) =>
      reconcileBill(printed, figures, { vatShare: VAT, agreesWithinPounds: 1 });

    it('the other clock, where kWh by rate are those of its hours', () => {
      expect(cause(bill(381, 119))).toMatchObject({ main: 'kwh', kwhCause: 'other clock', agrees: false });
      expect(cause(bill(381, 199)).kwhCause).toBe('other');
    });
    it('its own registers, where they advanced by others', () => {
      expect(cause(bill(390, 200, { registersKwh: 500 })).kwhCause).toBe('registers');
      expect(cause(bill(390, 200, { registersKwh: 590 })).kwhCause).toBe('other');
    });
    it('estimated reads', () => {
      expect(cause(bill(390, 200, { isEstimated: true })).kwhCause).toBe('estimated');
    });
    it('half-hours missing from the readings, at most at the highest rate and no more than is billed', () => {
      const missing = { ...own, missingHalfHours: 38 };
      expect(cause(bill(310, 200), missing)).toMatchObject({
        kwhCause: 'missing half-hours',
        missingAtMostPounds: 2.8,
      });
      // Thirty-eight half-hours at 4 kWh are 152 kWh.
      expect(cause(bill(500, 200), missing).missingAtMostPounds).toBeCloseTo(152 * 0.28, 9);
      expect(cause(bill(900, 200), missing).kwhCause).toBe('other');
    });
  });

  it('refuses a figure that is none', () => {
    const [own] = fc.sample(ownArbitrary, { seed: 5, numRuns: 1 });
    if (own === undefined) throw new Error('no figures');
    const bill = { ...ownBill(own, false, 'each line'), totalPounds: Number.NaN };
    expect(() => reconcileBill(bill, own, { vatShare: VAT })).toThrow(InputError);
    expect(() => reconcileBill(bill, own, { vatShare: VAT })).toThrow('totalPounds of the bill is NaN');
  });
});
