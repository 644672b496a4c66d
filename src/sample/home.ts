/**
 * The facts of the sample home. It is invented: no such house, meter or family exists.
 * Powers in kW, energies in kWh, temperatures in °C.
 */
export const SAMPLE_HOME = {
  timeZone: 'Europe/London',
  /** For the path of the sun only: the middle of England. */
  latitudeDegrees: 52.4,
  /** First local day of the year of readings. */
  firstDay: '2025-10-01',
  /** Local day after the last one of the year. */
  dayAfterLast: '2026-10-01',
  /** Local day after the last one of the extra month. */
  dayAfterExtraMonth: '2026-11-01',
  /** First local day of the last year on gas, which ends where the readings begin. */
  firstDayOnGas: '2024-10-01',
  /** Away from home: first local day, and the day of return. */
  holiday: { from: '2026-08-08', until: '2026-08-16' },
  /** The battery was out of service: first local day, and the day it came back. */
  batteryOutage: { from: '2026-02-03', until: '2026-02-05' },
  /** Heat lost for each degree between indoors and outdoors, kW/K. */
  heatLossKwPerK: 0.21,
  indoorC: 20,
  /** Heat from people, appliances and sun, kW: it holds the house 4.5 K above outdoors by itself. */
  gainsKw: 0.945,
  /** Outdoor temperature at which the gains alone suffice: indoor − gains ÷ heat loss. */
  degreeDayBaseC: 15.5,
  /** Heat taken as hot water, kWh a day, in both years. */
  hotWaterKwhPerDay: 4,
  boilerEfficiency: 0.84,
  gas: { calorificValueMjPerM3: 39.4, volumeCorrection: 1.02264, registerStartM3: 4_318.6 },
  householdKwhPerYear: 2_900,
  solarKwp: 3,
  battery: {
    usableKwh: 9.5,
    chargeKw: 3.6,
    dischargeKw: 3.6,
    chargeEfficiency: 0.95,
    dischargeEfficiency: 0.95,
    reserveKwh: 0,
    startLevelKwh: 0,
  },
  carKw: 7,
  /** Local minutes after midnight in which car and battery charge: 01:30 to 05:00. */
  nightWindow: { fromMinute: 90, untilMinute: 300 },
} as const;
