import { FormulaError, toNumber, toText } from '../values.js';
import { type FormulaFunction, ofTexts, ofValues } from './describe.js';
import { roundDecimal } from './maths.js';

/** A number with separators between thousands, as FIXED writes it in English. */
function fixedText(value: number, decimals: number, withoutSeparators: boolean): string {
  const rounded = roundDecimal(value, decimals);
  return rounded.toLocaleString('en-US', {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    useGrouping: !withoutSeparators,
  });
}

export const TEXT: Record<string, FormulaFunction> = {
  UPPER: ofTexts((text = '') => text.toUpperCase()),
  LEN: ofTexts((text = '') => text.length),
  TRIM: ofTexts((text = '') => text.trim().replace(/ +/g, ' ')),
  SUBSTITUTE: ofTexts((text = '', old = '', by = '') => (old === '' ? text : text.replaceAll(old, by))),
  SEARCH: ofTexts((part = '', text = '') => {
    const place = text.toUpperCase().indexOf(part.toUpperCase());
    return place < 0 ? FormulaError.value : place + 1;
  }),
  LEFT: ofValues(([text = null, count = 1]) => {
    const whole = toText(text);
    const number = toNumber(count);
    if (number instanceof FormulaError) return number;
    return whole instanceof FormulaError ? whole : whole.slice(0, Math.max(0, number));
  }),
  RIGHT: ofValues(([text = null, count = 1]) => {
    const whole = toText(text);
    const number = toNumber(count);
    if (number instanceof FormulaError) return number;
    return whole instanceof FormulaError ? whole : number <= 0 ? '' : whole.slice(-number);
  }),
  FIXED: ofValues(([value = 0, decimals = 2, withoutSeparators = false]) => {
    const number = toNumber(value);
    const digits = toNumber(decimals);
    if (number instanceof FormulaError) return number;
    if (digits instanceof FormulaError) return digits;
    return fixedText(number, digits, withoutSeparators === true);
  }),
};
