import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addVat } from '../../src/charges/add-vat.js';
import { allInUnitCost } from '../../src/charges/all-in-unit-cost.js';
import { energyCost } from '../../src/charges/energy-cost.js';
import { energyCostOnTariff } from '../../src/charges/energy-cost-on-tariff.js';
import { exportCredit } from '../../src/charges/export-credit.js';
import { monthBill } from '../../src/charges/month-bill.js';
import { removeVat } from '../../src/charges/remove-vat.js';
import { roundMoney } from '../../src/charges/round-money.js';
import { standingCharge } from '../../src/charges/standing-charge.js';
import { parseTariffTable } from '../../src/tariffs/tariff-table.js';

describe('money', () => {
  it.each([
    [1.005, 1.01],
    [1.00499999, 1],
    [2.675, 2.68],
    [0.285, 0.29],
    [1.1 * 1.15, 1.27],
    [-1.005, -1],
    [-1.006, -1.01],
    [-0.001, 0],
  ])('%d rounds half up to %d', (pounds, rounded) => {
    expect(roundMoney(pounds)).toBe(rounded);
  });

  it('is rounded on each line: two lines of 0.4 p come to nothing', () => {
    expect(monthBill(0.004, 0.004, 0, 0).totalPounds).toBe(0);
  });
});

describe('VAT', () => {
  it('in and out is where one started', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1e5, noNaN: true }),
        fc.double({ min: 0, max: 0.99, noNaN: true }),
        (amount, share) => {
          expect(removeVat(addVat(amount, share), share) / amount).toBeCloseTo(1, 12);
        },
      ),
      { seed: 7 },
    );
  });

  it('is a share, not a percentage', () => {
    expect(() => addVat(100, 5)).toThrow(
      'vatShare: the VAT rate 5 is not a share from 0 to 1. Write 5 % as 5% or 0.05.',
    );
  });
});

describe('charges', () => {
  it('energy of parts sums to the whole', () => {
    const reading = fc.tuple(
      fc.double({ min: 0, max: 5, noNaN: true }),
      fc.double({ min: -10, max: 90, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(reading), fc.array(reading), (first, second) => {
        const cost = (part: [number, number][]) =>
          energyCost(
            part.map(([kwh]) => kwh),
            part.map(([, rate]) => rate),
          );
        expect(cost(first) + cost(second)).toBeCloseTo(cost([...first, ...second]), 9);
      }),
      { seed: 8 },
    );
  });

  it('energy on a tariff takes each interval at its rate', () => {
    const tariff = parseTariffTable([
      [null, null, null, 30],
      [0, 7 / 24, null, 10],
    ]);
    expect(energyCostOnTariff(tariff, [46_023, 46_023.5], [2, 1])).toBe(0.5);
    expect(() => energyCostOnTariff(tariff, [46_023], [2, 1])).toThrow('localTimes has 1 rows and kwh has 2');
  });

  it('standing charge counts both days and ignores the time of day', () => {
    expect(standingCharge(46_023.9, 46_023.1, 50)).toBe(0.5);
    expect(() => standingCharge(46_024, 46_023, 50)).toThrow('lastDay is before firstDay');
  });

  it('export credit and all-in cost', () => {
    expect(exportCredit([1.5, 0.5], 15)).toBe(0.3);
    expect(allInUnitCost(80, 20, 400)).toBe(25);
    expect(() => allInUnitCost(80, 20, 0)).toThrow('kwh is 0. Give a number above 0.');
  });

  it('a bill is the sum of its lines', () => {
    const { energyPounds, standingPounds, vatPounds, exportCreditPounds, totalPounds } = monthBill(
      80.124,
      15.5,
      3.005,
      0.05,
    );
    expect([energyPounds, standingPounds, vatPounds, exportCreditPounds]).toEqual([80.12, 15.5, 4.78, 3.01]);
    expect(totalPounds).toBe(97.39);
  });
});
