import { type Battery, type BatteryInput, HALF_HOUR_HOURS, maySell, servableKwh } from './battery.js';

/** Most straight pieces in the cost curve of a half-hour. */
export const MAX_PIECES = 4;
/** A piece shorter than this has no slope worth having. */
const NEGLIGIBLE_KWH = 1e-12;

/**
 * What a half-hour costs, less what it costs without a battery, as a convex function of the stored energy gained.
 *
 * Held steady over the half-hour, the battery has up to five corner points: full output (what the house does not take
 * is sold), output equal to the servable demand, rest, the whole surplus stored, full charge. Between neighbours cost
 * is straight. It is convex at everyday rates; where it is not (a rate below the export rate, a negative rate, a meter
 * that counted both ways within the half-hour) a battery does better by switching between two corners within the
 * half-hour, which costs the straight line between them. The least cost is therefore the lower convex envelope of the
 * corners, and it is reached, not only bounded: load and sun are taken as steady within the half-hour.
 *
 * One object is reused for all half-hours, because a year has thousands.
 */
export class HalfHourCurve {
  /** Stored kWh gained at the left end. */
  left = 0;
  /** Cost at the left end, p. */
  leftCost = 0;
  pieces = 0;
  /** p per stored kWh of each piece, rising. */
  readonly slope = new Float64Array(MAX_PIECES);
  /** Stored kWh that each piece spans. */
  readonly length = new Float64Array(MAX_PIECES);

  private corners = 0;
  private readonly gain = new Float64Array(MAX_PIECES + 1);
  private readonly cost = new Float64Array(MAX_PIECES + 1);
  private readonly charged = new Float64Array(MAX_PIECES + 1);
  private readonly delivered = new Float64Array(MAX_PIECES + 1);
  private readonly imported = new Float64Array(MAX_PIECES + 1);
  private readonly exported = new Float64Array(MAX_PIECES + 1);
  private readonly firstCorner = new Int32Array(MAX_PIECES);
  private readonly lastCorner = new Int32Array(MAX_PIECES);

  /**
   * @param input half-hours, kWh and p/kWh
   * @param battery units as in {@link Battery}
   */
  constructor(
    private readonly input: BatteryInput,
    private readonly battery: Battery,
  ) {}

  /**
   * Makes this the curve of a half-hour.
   *
   * @param i which half-hour, from 0
   * @param onlyCharging leaves out every output, as below the reserve
   */
  set(i: number, onlyCharging = false): void {
    const { input, battery } = this;
    const imported = input.importKwh[i]!;
    const exported = input.exportKwh[i]!;
    const car = input.carKwh[i]!;
    const mostIn = battery.chargeKw * HALF_HOUR_HOURS;
    const mostOut = onlyCharging ? 0 : battery.dischargeKw * HALF_HOUR_HOURS;
    const served = Math.min(servableKwh(imported, exported, car, battery.mayFeedCar), mostOut);
    const output = maySell(battery, car) ? mostOut : served;
    const charge = battery.chargeFromGrid ? mostIn : Math.min(mostIn, Math.max(0, exported - imported));
    const stored = Math.min(exported, charge);

    this.corners = 0;
    if (output - served > NEGLIGIBLE_KWH) this.addCorner(i, 0, output, -served, output - served);
    if (served > NEGLIGIBLE_KWH) this.addCorner(i, 0, served, -served, 0);
    this.addCorner(i, 0, 0, 0, 0);
    if (stored > NEGLIGIBLE_KWH) this.addCorner(i, stored, 0, 0, -stored);
    if (charge - stored > NEGLIGIBLE_KWH) this.addCorner(i, charge, 0, charge - stored, -stored);
    this.takeEnvelope();
  }

  private addCorner(
    i: number,
    charged: number,
    delivered: number,
    importMore: number,
    exportMore: number,
  ): void {
    const { battery, input } = this;
    const k = this.corners++;
    this.charged[k] = charged;
    this.delivered[k] = delivered;
    this.imported[k] = importMore;
    this.exported[k] = exportMore;
    this.gain[k] = charged * battery.chargeEfficiency - delivered / battery.dischargeEfficiency;
    this.cost[k] =
      importMore * input.unitRatePence[i]! -
      exportMore * input.exportRatePence[i]! +
      delivered * battery.wearPencePerKwh;
  }

  /** Pools neighbouring pieces until the slopes rise. */
  private takeEnvelope(): void {
    let top = -1;
    for (let k = 1; k < this.corners; k++) {
      top++;
      this.firstCorner[top] = k - 1;
      this.setPiece(top, k);
      while (top > 0 && this.slope[top - 1]! >= this.slope[top]!) {
        top--;
        this.setPiece(top, k);
      }
    }
    this.pieces = top + 1;
    this.left = this.gain[0]!;
    this.leftCost = this.cost[0]!;
  }

  private setPiece(piece: number, lastCorner: number): void {
    const first = this.firstCorner[piece]!;
    this.lastCorner[piece] = lastCorner;
    this.length[piece] = this.gain[lastCorner]! - this.gain[first]!;
    this.slope[piece] = (this.cost[lastCorner]! - this.cost[first]!) / this.length[piece]!;
  }

  /**
   * The flows that gain so much energy at the least cost.
   *
   * @param gainKwh stored kWh gained; beyond an end counts as the end
   * @param to receives kWh of the half-hour: AC charged, AC delivered, more import, more export than without a battery
   */
  flowsAt(
    gainKwh: number,
    to: { charged: number; delivered: number; importMore: number; exportMore: number },
  ): void {
    if (this.pieces === 0) {
      to.charged = to.delivered = to.importMore = to.exportMore = 0;
      return;
    }
    let piece = 0;
    let offset = gainKwh - this.left;
    while (piece < this.pieces - 1 && offset > this.length[piece]!) offset -= this.length[piece++]!;
    const a = this.firstCorner[piece]!;
    const b = this.lastCorner[piece]!;
    const share = Math.min(1, Math.max(0, offset / this.length[piece]!));
    to.charged = mix(this.charged[a]!, this.charged[b]!, share);
    to.delivered = mix(this.delivered[a]!, this.delivered[b]!, share);
    to.importMore = mix(this.imported[a]!, this.imported[b]!, share);
    to.exportMore = mix(this.exported[a]!, this.exported[b]!, share);
  }
}

function mix(from: number, to: number, share: number): number {
  return from + share * (to - from);
}
