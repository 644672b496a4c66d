/** A straight line by ordinary least squares, with what tells how sure it is. */
export interface StraightLine {
  intercept: number;
  slope: number;
  /** Standard error of a single y about the line, with n − 2 degrees of freedom; a spreadsheet's STEYX. */
  scatter: number;
  points: number;
  meanX: number;
  /** Sum of squared deviations of x from its mean; a spreadsheet's DEVSQ. */
  spreadX: number;
}

/**
 * The straight line through points: a spreadsheet's INTERCEPT, SLOPE and STEYX.
 * Source: simple linear regression, common textbook.
 *
 * @param xs at least three, not all alike
 * @param ys one for each x
 * @returns the line; not finite where the points are too few or alike
 * @example straightLine([0, 5, 10], [8, 23, 38]).slope // 3
 */
export function straightLine(xs: readonly number[], ys: readonly number[]): StraightLine {
  const points = xs.length;
  const meanX = sum(xs) / points;
  const meanY = sum(ys) / points;
  const spreadX = sum(xs.map((x) => (x - meanX) ** 2));
  const slope = sum(xs.map((x, i) => (x - meanX) * (ys[i]! - meanY))) / spreadX;
  const intercept = meanY - slope * meanX;
  const scatter = Math.sqrt(sum(ys.map((y, i) => (y - intercept - slope * xs[i]!) ** 2)) / (points - 2));
  return { intercept, slope, scatter, points, meanX, spreadX };
}

function sum(values: readonly number[]): number {
  let total = 0;
  for (const value of values) total += value;
  return total;
}
