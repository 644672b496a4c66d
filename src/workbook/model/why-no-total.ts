/**
 * Why a tariff has no total, in words, as a formula.
 *
 * @param unpriced reference to how many half-hours it has no price for
 * @param where what is said after its flags: where they stand
 * @param end what ends the words
 */
export function whyNoTotalFormula(unpriced: string, where = '', end = ''): string {
  return `IF(${unpriced}>0,FIXED(${unpriced},0)&" half-hour"&IF(${unpriced}=1,"","s")&" without a price${end}","inputs that can’t be used, see its flags${where}${end}")`;
}
