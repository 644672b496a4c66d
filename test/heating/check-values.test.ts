import { describe, expect, it } from 'vitest';
import { boilerEfficiencyAtEqualCost } from '../../src/heating/boiler-efficiency-at-equal-cost.js';
import { breakEvenCop } from '../../src/heating/break-even-cop.js';
import { breakEvenElectricityRate } from '../../src/heating/break-even-electricity-rate.js';
import { coefficientOfPerformance } from '../../src/heating/coefficient-of-performance.js';
import { compareHeating } from '../../src/heating/compare-heating.js';
import { energyForMoney } from '../../src/heating/energy-for-money.js';
import { gasCostOfHeat } from '../../src/heating/gas-cost-of-heat.js';
import { type GasDialUnit, gasVolumeToEnergy } from '../../src/heating/gas-volume-to-energy.js';
import { heatForGasMoney } from '../../src/heating/heat-for-gas-money.js';
import { heatingCostDifference } from '../../src/heating/heating-cost-difference.js';
import { hotWaterCost } from '../../src/heating/hot-water-cost.js';
import { simplePayback } from '../../src/heating/simple-payback.js';
import { KNOWN_RATES } from './known-rates.js';

describe('Gas (Calculation of Thermal Energy) Regulations 1996 (from memory)', () => {
  it.each([
    ['m3', 100, 39.5, (100 * 1.02264 * 39.5) / 3.6],
    ['ft3', 1000, 39.5, (28.3168 * 1.02264 * 39.5) / 3.6],
    ['100ft3', 10, 39.5, (28.3168 * 1.02264 * 39.5) / 3.6],
  ] as const)('a dial in %s: %d units at %d MJ/m³', (unit, volume, calorific, kWh) => {
    expect(gasVolumeToEnergy(volume, unit, calorific)).toBeCloseTo(kWh, 9);
  });

  it('a cubic metre of gas is about 11.2 kWh (common practice, no source)', () => {
    expect(gasVolumeToEnergy(1, 'm3', 39.5)).toBeCloseTo(11.2, 1);
  });

  it('refuses a unit that it does not know', () => {
    expect(() => gasVolumeToEnergy(1, 'litres' as GasDialUnit, 39.5)).toThrow(
      'dialUnit is "litres", which is not a gas dial unit. Give m3, ft3 or 100ft3.',
    );
    expect(() => gasVolumeToEnergy(1, 'toString' as GasDialUnit, 39.5)).toThrow('not a gas dial unit');
    expect(() => gasVolumeToEnergy(-1, 'm3', 39.5)).toThrow('volume is -1');
  });
});

describe('common practice, no source: electricity at 28.71 p, gas at 7.57 p, a boiler of 90%', () => {
  it('break even at a COP of 3.41', () => {
    expect(breakEvenCop(28.71, 7.57, 0.9)).toBeCloseTo(3.41, 2);
  });

  it('£157 of that gas is 1,867 kWh of heat', () => {
    expect(Math.round(heatForGasMoney(157, 7.57, 0.9))).toBe(1867);
  });

  it('£144 of that electricity is 502 kWh', () => {
    expect(Math.round(energyForMoney(144, 28.71))).toBe(502);
  });

  it('so a COP of 3.7 in the same month is about 8% cheaper', () => {
    const heatKwh = heatForGasMoney(157, 7.57, 0.9);
    const difference = heatingCostDifference({
      heatKwh,
      cop: 3.7,
      electricityRatePence: 28.71,
      boilerEfficiency: 0.9,
      gasRatePence: 7.57,
      boilerFixedPounds: 0,
    });
    expect(difference / 157).toBeCloseTo(-0.08, 2);
    expect(144 / 157 - 1).toBeCloseTo(-0.08, 2);
    expect(coefficientOfPerformance(heatKwh, energyForMoney(144, 28.71))).toBeCloseTo(3.72, 2);
  });

  it('hot water of 4 kWh a day for 31 days is £11.16 at 9 p, and £35.60 at the day rate', () => {
    const hotWater = { heatKwhPerDay: 4, days: 31, heatPerKwhPaid: 1 };
    expect(hotWaterCost({ ...hotWater, ratePence: 9 })).toBeCloseTo(11.16, 10);
    expect(hotWaterCost({ ...hotWater, ratePence: 28.71 })).toBeCloseTo(35.6, 2);
  });

  it('and the comparison of that month says so, and at which rate it paid for hot water', () => {
    const month = compareHeating({
      settings: {
        ...KNOWN_RATES,
        boilerEfficiency: 0.9,
        heatPumpSideHotWater: 'immersion heater',
        boilerSideHotWater: 'immersion heater',
        gasStandingPencePerDay: 0,
      },
      gasMonths: [],
      months: [
        { days: 31, electricityKwh: energyForMoney(144, 28.71), heatKwh: heatForGasMoney(157, 7.57, 0.9) },
      ],
    }).months[0]!;
    expect(month.breakEvenCop).toBeCloseTo(3.41, 2);
    expect(month.costSingleRatePounds).toBeCloseTo(144, 9);
    expect(month.heatPumpSideHotWaterPounds).toBeCloseTo(11.16, 10);
    expect(month.heatPumpSideHotWaterPaidPence).toBeCloseTo(9, 10);
    expect(month.boilerSideHotWaterPounds).toBeCloseTo(35.6, 2);
    expect(month.boilerSideHotWaterPaidPence).toBeCloseTo(28.71, 10);
    expect(month.boilerFromHeatPounds).toBeCloseTo(157 + 35.6004, 9);
    expect(month.monthVerdict).toBe('The heat pump cost about £37 less than the boiler would have.');
    expect(month.monthNote).toBe('Heat meter only: degree days are missing or have gaps.');
  });
});

describe('figures that answer each other', () => {
  it('at the break-even rate the break-even COP is the COP', () => {
    expect(breakEvenCop(breakEvenElectricityRate(7.57, 0.9, 3.7), 7.57, 0.9)).toBeCloseTo(3.7, 12);
  });

  it('at the efficiency of equal cost the costs are equal', () => {
    const efficiency = boilerEfficiencyAtEqualCost(1867, 7.57, 144, 9.3)!;
    const heat = { heatKwh: 1867, boilerEfficiency: efficiency, gasRatePence: 7.57 };
    expect(gasCostOfHeat({ ...heat, standingChargePencePerDay: 30, days: 31 })).toBeCloseTo(144, 10);
    expect(boilerEfficiencyAtEqualCost(1867, 7.57, 9, 9.3)).toBeNull();
  });

  it('nothing saved never pays back', () => {
    expect(simplePayback(3000, 250)).toBe(12);
    expect(simplePayback(3000, 0)).toBeNull();
    expect(simplePayback(3000, -10)).toBeNull();
  });

  it('refuse an efficiency typed as a percentage, and electricity of nothing', () => {
    expect(() => breakEvenCop(28.71, 7.57, 90)).toThrow('Give a share such as 0.9 (or 90%), not 90.');
    expect(() => coefficientOfPerformance(100, 0)).toThrow('electricityKwh is 0');
  });
});
