/**
 * A convex, piecewise straight cost as a function of the level of a battery: its left end and a list of pieces with
 * rising slopes. Adding a half-hour is an infimal convolution, which for such curves merges the two sorted lists
 * of slopes (Rockafellar, Convex Analysis, 1970, theorem 16.4; from memory).
 */
export class LevelCurve {
  /** Lowest level, stored kWh. */
  low: number;
  /** Cost at the lowest level, p. */
  lowCost = 0;
  pieces = 0;
  /** p per stored kWh of each piece, rising. */
  slope = new Float64Array(64);
  /** Stored kWh of each piece. */
  length = new Float64Array(64);
  private otherSlope = new Float64Array(64);
  private otherLength = new Float64Array(64);

  /**
   * The curve of one known level.
   *
   * @param levelKwh stored kWh
   */
  constructor(levelKwh: number) {
    this.low = levelKwh;
  }

  /**
   * Adds what a half-hour costs and cuts to the levels that are allowed.
   *
   * @param step curve over the energy gained: left end (kWh), its cost (p), pieces with rising slopes
   * @param floorKwh lowest level allowed
   * @param ceilingKwh highest level allowed
   * @param positions receives, from `at` on, the level at which each piece of the step starts in the merged curve;
   *   infinite where it lies beyond the ceiling
   * @param at index of the first
   */
  add(
    step: { left: number; leftCost: number; pieces: number; slope: Float64Array; length: Float64Array },
    floorKwh: number,
    ceilingKwh: number,
    positions?: Float64Array,
    at = 0,
  ): void {
    const most = this.pieces + step.pieces;
    if (most > this.otherSlope.length) {
      this.otherSlope = new Float64Array(2 * most);
      this.otherLength = new Float64Array(2 * most);
    }
    const { slope, length, otherSlope, otherLength } = this;
    let position = this.low + step.left;
    let low = position;
    let cost = this.lowCost + step.leftCost;
    let own = 0;
    let added = 0;
    let out = 0;
    while (position < ceilingKwh && (own < this.pieces || added < step.pieces)) {
      let pieceSlope: number;
      let pieceLength: number;
      if (added === step.pieces || (own < this.pieces && slope[own]! <= step.slope[added]!)) {
        pieceSlope = slope[own]!;
        pieceLength = length[own]!;
        own++;
      } else {
        pieceSlope = step.slope[added]!;
        pieceLength = step.length[added]!;
        if (positions !== undefined) positions[at + added] = position;
        added++;
      }
      const end = position + pieceLength;
      if (end <= floorKwh) {
        cost += pieceSlope * pieceLength;
        low = end;
      } else {
        const from = Math.max(position, floorKwh);
        if (from > position) {
          cost += pieceSlope * (from - position);
          low = from;
        }
        const kept = Math.min(end, ceilingKwh) - from;
        if (out > 0 && otherSlope[out - 1] === pieceSlope) {
          otherLength[out - 1]! += kept;
        } else if (kept > 0) {
          otherSlope[out] = pieceSlope;
          otherLength[out++] = kept;
        }
      }
      position = end;
    }
    if (positions !== undefined) {
      for (; added < step.pieces; added++) positions[at + added] = Number.POSITIVE_INFINITY;
    }
    this.low = Math.min(Math.max(low, floorKwh), ceilingKwh);
    this.lowCost = cost;
    this.pieces = out;
    this.slope = otherSlope;
    this.length = otherLength;
    this.otherSlope = slope;
    this.otherLength = length;
  }

  /**
   * The level at which this curve less a value per kWh is least.
   *
   * @param valuePencePerKwh p per stored kWh
   * @returns stored kWh; the lowest where several are equal
   */
  bestLevel(valuePencePerKwh: number): number {
    let level = this.low;
    for (let k = 0; k < this.pieces && this.slope[k]! < valuePencePerKwh; k++) level += this.length[k]!;
    return level;
  }

  /**
   * Cost at a level of the curve.
   *
   * @param levelKwh stored kWh; beyond an end counts as the end
   * @returns p
   */
  costAt(levelKwh: number): number {
    let left = levelKwh - this.low;
    let cost = this.lowCost;
    for (let k = 0; k < this.pieces && left > 0; k++) {
      cost += this.slope[k]! * Math.min(left, this.length[k]!);
      left -= this.length[k]!;
    }
    return cost;
  }
}
