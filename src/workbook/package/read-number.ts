const MINUS = 45;
const DOT = 46;

const powersOfTen = Array.from({ length: 23 }, (_, exponent) => 10 ** exponent);

/**
 * Reads a decimal number from bytes, without making a text of it where it can.
 *
 * Up to 15 digits are exact in a double, and so is the power of ten up to 22: one division gives the nearest double
 * (W. D. Clinger, "How to read floating point numbers accurately", 1990). Anything else goes through `Number`.
 *
 * @param bytes ASCII text
 * @param start offset of its first byte
 * @param end offset after its last
 * @returns the nearest double; NaN when it is not a number
 */
export function readNumber(bytes: Buffer, start: number, end: number): number {
  let at = start;
  const negative = bytes[at] === MINUS;
  if (negative) at++;
  let mantissa = 0;
  let digits = 0;
  let decimals = -1;
  for (; at < end; at++) {
    const byte = bytes[at] as number;
    if (byte >= 48 && byte <= 57) {
      mantissa = mantissa * 10 + (byte - 48);
      if (mantissa !== 0) digits++;
      if (decimals >= 0) decimals++;
    } else if (byte === DOT && decimals < 0) {
      decimals = 0;
    } else {
      digits = 99;
      break;
    }
  }
  if (digits > 15 || decimals > 22 || at === start + (negative ? 1 : 0)) {
    const text = bytes.toString('latin1', start, end).trim();
    return text === '' ? Number.NaN : Number(text);
  }
  const value = decimals > 0 ? mantissa / (powersOfTen[decimals] as number) : mantissa;
  return negative ? -value : value;
}
