import { NO_KWH } from './timer.js';

/** What hours and power hold of the kWh of one session. */
export interface SessionFit {
  /** All that the load took, kWh. */
  energyKwh: number;
  /** kWh that stay outside the hours, because they do not fit. */
  staysKwh: number;
  /** Share of the kWh outside that stays. */
  share: number;
  /** false: all stays as it was metered, for more was metered within the hours than they hold at this power. */
  isMoved: boolean;
}

/**
 * What stays of a session's kWh. Common practice, no source.
 *
 * @param insideKwh kWh metered within the hours
 * @param outsideKwh kWh metered outside
 * @param roomKwh what the hours hold at the load's power, kWh
 * @returns kWh and share
 * @example fitSession(0, 10, 8) // 2 kWh stay, a fifth of what was metered outside
 */
export function fitSession(insideKwh: number, outsideKwh: number, roomKwh: number): SessionFit {
  const energyKwh = insideKwh + outsideKwh;
  if (insideKwh > roomKwh + NO_KWH) return { energyKwh, staysKwh: outsideKwh, share: 1, isMoved: false };
  const excessKwh = energyKwh - roomKwh;
  const staysKwh = excessKwh > NO_KWH ? Math.min(excessKwh, outsideKwh) : 0;
  return { energyKwh, staysKwh, share: staysKwh > 0 ? staysKwh / outsideKwh : 0, isMoved: true };
}
