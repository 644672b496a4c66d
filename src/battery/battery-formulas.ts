import { NO_CHARGING_AHEAD, SERVE_ALWAYS, TOLERANCE } from './battery-constants.js';

/** A formula or a part of one, without `=`: a cell reference, a name, a literal or an expression. */
type Formula = string;

/** References to the battery's figures; flags are TRUE or FALSE. */
export interface BatteryReferences {
  usableKwh: Formula;
  chargeKw: Formula;
  dischargeKw: Formula;
  chargeEfficiency: Formula;
  dischargeEfficiency: Formula;
  reserveKwh: Formula;
  startKwh: Formula;
  wearPencePerKwh: Formula;
  chargeFromGrid: Formula;
  mayFeedCar: Formula;
  mayExport: Formula;
}

const E = TOLERANCE.toExponential().toUpperCase();

/**
 * The rule's day-level facts as native formulas, one row a day; the other face of `batteryDays`.
 * `rates` is the day's slice of the unit rates, for example `INDEX(col,first):INDEX(col,last)`.
 */
export const batteryDayFormulas = {
  /** `halfHours`: how many the day has, for example `COUNT(rates)`. */
  halfHoursToFill: (halfHours: Formula, b: BatteryReferences): Formula =>
    `MIN(${halfHours},MAX(1,IF(${b.usableKwh}>${b.reserveKwh},` +
    `ROUNDUP((${b.usableKwh}-${b.reserveKwh})/${b.chargeEfficiency}/(${b.chargeKw}/2)-${E},0),0)))`,
  chargeUpTo: (rates: Formula, halfHoursToFill: Formula): Formula => `SMALL(${rates},${halfHoursToFill})`,
  dear: (rates: Formula, halfHoursToFill: Formula): Formula => `LARGE(${rates},${halfHoursToFill})`,
  worthwhileBelow: (dear: Formula, b: BatteryReferences): Formula =>
    `(${dear}-${b.wearPencePerKwh})*${b.chargeEfficiency}*${b.dischargeEfficiency}`,
  /** A rate below this is one to charge at. */
  chargeBelow: (d: { chargeUpTo: Formula; worthwhileBelow: Formula }): Formula =>
    `MIN(${d.chargeUpTo}+${E},${d.worthwhileBelow}-${E})`,
  serveFrom: (
    d: { rates: Formula; chargeUpTo: Formula; dear: Formula; worthwhileBelow: Formula },
    b: BatteryReferences,
  ): Formula =>
    `IF(AND(${b.chargeFromGrid},MIN(${d.rates})<${d.worthwhileBelow}-${E}),` +
    `MIN(${d.chargeUpTo}/(${b.chargeEfficiency}*${b.dischargeEfficiency})+${b.wearPencePerKwh},${d.dear}),${SERVE_ALWAYS})`,
  /** `nextChargeUpTo`: the cell one row down; below the last day it must be blank or a text, which MAX passes over. */
  refill: (chargeUpTo: Formula, nextChargeUpTo: Formula): Formula =>
    `IF(ISNUMBER(${nextChargeUpTo}),MAX(${chargeUpTo},${nextChargeUpTo}),${chargeUpTo})`,
  /** TRUE or FALSE: whether exporting pays for the refill on the day, `exportRate` being the day's. */
  sells: (d: { exportRate: Formula; refill: Formula }, b: BatteryReferences): Formula =>
    `AND(${b.mayExport},${d.exportRate}-${b.wearPencePerKwh}>` +
    `${d.refill}/(${b.chargeEfficiency}*${b.dischargeEfficiency})+${E})`,
} as const;

/**
 * The rule as native formulas, one row a half-hour; the other face of `runBatteryRule`. `levelUp` is the level one row up
 * (the first row's is {@link batteryRuleFormulas.startLevel}), `stepsDown` the steps one row down (below the last row a
 * cell that holds 1000000).
 */
export const batteryRuleFormulas = {
  startLevel: (b: BatteryReferences): Formula => `MIN(${b.startKwh},${b.usableKwh})`,
  /** kWh, the same for every tariff. */
  surplus: (imported: Formula, exported: Formula): Formula => `MAX(0,${exported}-${imported})`,
  /** kWh that the battery may serve, the same for every tariff. */
  demand: (imported: Formula, exported: Formula, car: Formula, b: BatteryReferences): Formula =>
    `MAX(0,${imported}-${exported}-IF(${b.mayFeedCar},0,${car}))`,
  /** TRUE or FALSE. */
  charging: (r: { rate: Formula; chargeBelow: Formula }, b: BatteryReferences): Formula =>
    `AND(${b.chargeFromGrid},${b.usableKwh}>0,${r.rate}<${r.chargeBelow})`,
  steps: (charging: Formula, stepsDown: Formula): Formula => `IF(${charging},0,1+${stepsDown})`,
  noChargingAhead: String(NO_CHARGING_AHEAD),
  /** AC kWh, charging above 0. */
  battery: (
    r: {
      charging: Formula;
      steps: Formula;
      surplus: Formula;
      demand: Formula;
      car: Formula;
      rate: Formula;
      levelUp: Formula;
      serveFrom: Formula;
      /** The day's {@link batteryDayFormulas.sells}. */
      sells: Formula;
    },
    b: BatteryReferences,
  ): Formula => {
    const mostIn = `${b.chargeKw}/2`;
    const mostOut = `${b.dischargeKw}/2`;
    const room = `MAX(0,${b.usableKwh}-${r.levelUp})/${b.chargeEfficiency}`;
    const output = `MAX(0,${r.levelUp}-${b.reserveKwh})*${b.dischargeEfficiency}`;
    const served = `IF(${r.rate}>=${r.serveFrom}-${E},MIN(${r.demand},${mostOut},${output}),0)`;
    const sold = `IF(AND(${r.sells},OR(${b.mayFeedCar},${r.car}<=${E})),MIN(${mostOut},${output}-(${r.steps}-1)*${mostOut}),0)`;
    return (
      `IF(${b.usableKwh}=0,0,IF(${r.charging},MIN(${mostIn},${room}),` +
      `IF(${r.surplus}>${E},MIN(${r.surplus},${mostIn},${room}),-MAX(0,${served},${sold}))))`
    );
  },
  /** Stored kWh at the end of the half-hour. */
  level: (battery: Formula, levelUp: Formula, b: BatteryReferences): Formula =>
    `${levelUp}+${b.chargeEfficiency}*MAX(${battery},0)-MAX(-${battery},0)/${b.dischargeEfficiency}`,
  importWith: (r: { imported: Formula; exported: Formula; demand: Formula; battery: Formula }): Formula =>
    `${r.imported}+MAX(0,${r.battery}-${r.exported})-MIN(${r.demand},MAX(0,-${r.battery}))`,
  /** Import − export grows by what the battery takes and falls by what it gives; of cells, or of sums of them. */
  exportWith: (r: { importWith: Formula; battery: Formula; imported: Formula; exported: Formula }): Formula =>
    `${r.importWith}-${r.battery}-${r.imported}+${r.exported}`,
} as const;

/**
 * What energy really cost as native formulas, one row a half-hour; the other face of `storedEnergyCost` with wear
 * included and sun at the export rate. `stockUp` is the stock one row up (the first row's: start level × its cost).
 */
export const storedEnergyFormulas = {
  /** Cost of all that is stored at the end, p. */
  stock: (r: {
    battery: Formula;
    exported: Formula;
    rate: Formula;
    exportRate: Formula;
    level: Formula;
    levelUp: Formula;
    stockUp: Formula;
  }): Formula => {
    const fromSun = `MIN(${r.exported},${r.battery})`;
    return (
      `IF(${r.battery}>0,${r.stockUp}+(${r.battery}-${fromSun})*${r.rate}+${fromSun}*${r.exportRate},` +
      `IF(${r.levelUp}>0,${r.stockUp}*${r.level}/${r.levelUp},0))`
    );
  },
  /** p per AC kWh delivered. */
  deliveredUnit: (levelUp: Formula, stockUp: Formula, b: BatteryReferences): Formula =>
    `IF(${levelUp}>${E},${stockUp}/${levelUp}/${b.dischargeEfficiency}+${b.wearPencePerKwh},0)`,
  /** kWh that the house used, never less than it imported. */
  house: (houseDemand: Formula, imported: Formula): Formula => `MAX(${houseDemand},${imported})`,
  rest: (r: { house: Formula; heatPump: Formula; car: Formula }): Formula =>
    `MAX(0,${r.house}-${r.heatPump}-${r.car})`,
  /** Import of a barred car, kWh. */
  carGrid: (carImport: Formula, imported: Formula, b: BatteryReferences): Formula =>
    `IF(${b.mayFeedCar},0,MIN(${carImport},${imported}))`,
  /** Sun of a barred car, kWh. */
  carSun: (
    r: {
      house: Formula;
      imported: Formula;
      heatPump: Formula;
      car: Formula;
      rest: Formula;
      carGrid: Formula;
    },
    b: BatteryReferences,
  ): Formula => {
    const all = allUsers(r);
    return (
      `IF(OR(${b.mayFeedCar},${all}=0),0,MIN(${r.house}-${r.imported},` +
      `MAX(0,${r.house}*${r.car}/${all}-${r.carGrid})))`
    );
  },
  /** Cost of what is shared in proportion, p. */
  shared: (r: {
    house: Formula;
    imported: Formula;
    carGrid: Formula;
    /** A barred car's sun at the export rate. */
    carSunPence: Formula;
    demand: Formula;
    battery: Formula;
    rate: Formula;
    exportRate: Formula;
    deliveredUnit: Formula;
  }): Formula => {
    const toHouse = `MIN(${r.demand},MAX(0,-${r.battery}))`;
    return (
      `(${r.imported}-${r.carGrid}-${toHouse})*${r.rate}+${toHouse}*${r.deliveredUnit}` +
      `+(${r.house}-${r.imported})*${r.exportRate}-${r.carSunPence}`
    );
  },
  /** kWh of one user within what the house used. */
  usedBy: (part: Formula, r: { house: Formula; heatPump: Formula; car: Formula; rest: Formula }): Formula => {
    const all = allUsers(r);
    return `IF(${all}=0,0,${part}*${r.house}/${all})`;
  },
  /**
   * A user's part of the shared cost, p, in proportion to kWh: of cells, or of columns inside SUMPRODUCT, so it does
   * without functions. A barred car shares nothing, and what it leaves of less than 1E-9 kWh is no use.
   */
  partOfShared: (
    r: { shared: Formula; part: Formula; house: Formula; car: Formula },
    b: BatteryReferences,
  ): Formula => {
    const sharers = `(${r.house}-${r.car}*(1-${b.mayFeedCar}))`;
    return `${r.shared}*${r.part}/(${sharers}+(${sharers}<${E}))`;
  },
} as const;

function allUsers(r: { heatPump: Formula; car: Formula; rest: Formula }): Formula {
  return `(${r.heatPump}+${r.car}+${r.rest})`;
}
