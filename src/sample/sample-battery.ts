import { SAMPLE_HOME } from './home.js';
import type { SampleGrid } from './sample-grid.js';

const { usableKwh, chargeKw, dischargeKw, chargeEfficiency, dischargeEfficiency, reserveKwh, startLevelKwh } =
  SAMPLE_HOME.battery;
const { fromMinute, untilMinute } = SAMPLE_HOME.nightWindow;

/**
 * How the owner has run the battery: it fills in the night window, takes what the sun leaves over, and serves the
 * house outside the window; never the car, never the grid.
 *
 * @param grid the half-hours
 * @param houseWh demand without the car in each half-hour, Wh
 * @param carWh into the car, Wh
 * @param solarWh solar yield, Wh
 * @param isOut whether the battery is out of service on a local day, given its serial
 * @returns energy at the meter into and out of the battery in each half-hour, whole Wh
 */
export function sampleBatteryWh(
  grid: SampleGrid,
  houseWh: Int32Array,
  carWh: Int32Array,
  solarWh: Int32Array,
  isOut: (serial: number) => boolean,
): { inWh: Int32Array; outWh: Int32Array } {
  const inWh = new Int32Array(houseWh.length);
  const outWh = new Int32Array(houseWh.length);
  let levelWh = startLevelKwh * 1000;
  for (let i = 0; i < houseWh.length; i++) {
    const serial = grid.daySerial[grid.day[i]!]!;
    if (isOut(serial)) continue;
    const minute = grid.localMinute[i]!;
    const inNight = minute >= fromMinute && minute < untilMinute;
    const surplusWh = Math.max(0, solarWh[i]! - houseWh[i]! - carWh[i]!);
    const wantedWh = inNight ? nightTargetKwh(serial) * 1000 - levelWh : usableKwh * 1000 - levelWh;
    const offeredWh = inNight ? Number.POSITIVE_INFINITY : surplusWh;
    inWh[i] = Math.floor(Math.max(0, Math.min(chargeKw * 500, wantedWh / chargeEfficiency, offeredWh)));
    if (!inNight && inWh[i] === 0) {
      const storedWh = (levelWh - reserveKwh * 1000) * dischargeEfficiency;
      outWh[i] = Math.floor(Math.max(0, Math.min(dischargeKw * 500, storedWh, houseWh[i]! - solarWh[i]!)));
    }
    levelWh += inWh[i]! * chargeEfficiency - outWh[i]! / dischargeEfficiency;
  }
  return { inWh, outWh };
}

/** How full the owner sets the battery to be by the end of the night, kWh: less in the sunny months. */
function nightTargetKwh(serial: number): number {
  const month = new Date((serial - 25_569) * 86_400_000).getUTCMonth();
  if (month >= 4 && month <= 7) return 0.35 * usableKwh;
  return month === 3 || month === 8 ? 0.7 * usableKwh : usableKwh;
}
