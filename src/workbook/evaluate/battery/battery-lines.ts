import type { WorkbookInputs } from '../../inputs/workbook-inputs.js';
import type { DayLines } from '../day-lines.js';
import type { HalfHourLines } from '../half-hour-lines.js';
import type { MonthLines } from '../month-lines.js';
import { todaysIndex } from '../tariff-totals.js';
import { type BatteryFigures, batteryFigures } from './battery-figures.js';
import { type BatteryHomeLines, batteryHomeLines } from './battery-home-lines.js';
import {
  type BatteryPeriod,
  type BatteryTotals,
  batteryPeriod,
  batteryTotals,
  homeFingerprint,
  tariffFingerprint,
} from './battery-period.js';
import { type RealCostLines, realCostLines } from './battery-real-cost.js';
import { type BatteryTariffLines, batteryTariffLines, type PricedTariff } from './battery-tariff-lines.js';
import { type ProfileLines, profileLines } from './profile-lines.js';

/** Every line of the battery's sheets. */
export interface BatteryLines {
  figures: BatteryFigures;
  home: BatteryHomeLines;
  period: BatteryPeriod;
  homeFingerprint: number;
  /** One entry a column of the tariffs sheet. */
  tariffs: (BatteryTariffLines & { totals: BatteryTotals; fingerprint: number })[];
  /** Place (from 0) of the tariff looked at; -1 where it is not found. */
  chosen: number;
  realCost: RealCostLines;
  profile: ProfileLines;
}

/** Works out the battery's lines on every tariff. */
export function batteryLines(
  inputs: WorkbookInputs,
  priced: readonly PricedTariff[],
  shared: { halfHours: HalfHourLines; days: DayLines; months: MonthLines },
): BatteryLines {
  const { halfHours, days, months } = shared;
  const { readings } = inputs;
  const figures = batteryFigures(inputs.battery);
  const { battery } = figures;
  const home = batteryHomeLines(halfHours, months, readings, battery);
  const period = batteryPeriod(days, months, home);
  const lines = priced.map((tariff) => batteryTariffLines(tariff, home, halfHours, days, readings, battery));
  const chosen = todaysIndex(inputs.tariffs, inputs.battery.tariff ?? inputs.todaysTariff);
  const chosenTariff = chosen < 0 ? undefined : { priced: priced[chosen]!, lines: lines[chosen]! };
  const realCost = realCostLines(chosenTariff, home, halfHours, readings, battery);
  const fingerprint = homeFingerprint(
    halfHours.weekSlotLocal,
    { ...halfHours, servableKwh: home.servableKwh, carKwh: realCost.carKwh },
    battery,
    period,
  );
  return {
    figures,
    home,
    period,
    homeFingerprint: fingerprint,
    tariffs: lines.map((tariff, t) => ({
      ...tariff,
      totals: batteryTotals(tariff, months, period, battery),
      fingerprint: tariffFingerprint(fingerprint, halfHours.weekSlotLocal, days, {
        ...priced[t]!.halfHours,
        exportRate: tariff.days.exportRate,
      }),
    })),
    chosen,
    realCost,
    profile: profileLines(halfHours, home, chosenTariff),
  };
}
