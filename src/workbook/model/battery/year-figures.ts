import { BATTERY_FIELDS } from '../../fields/battery-fields.js';
import { quoted } from '../cells.js';
import type { WordLine } from '../sentences.js';
import { STATUS } from './battery-status.js';

/** Half-hours of 52 weeks, of which one in twenty may be missing. */
const LEAST_HALF_HOURS = Math.round(52 * 7 * 48 * 0.95);

/** Why figures of a year are blank, and what to do. */
export const YEAR_BLANK = {
  notOfPeriod:
    'Blank: the stored costs belong to another period or to other inputs. Run the fill for this one.',
  tooShort:
    'No payback and no saving a year: the period has less than a year’s readings, and a battery saves differently by season. Choose twelve months on Answer.',
  priceMissing: 'No payback: type the installed price above, one part of it or both.',
  timersTooShort:
    'No saving a year: the period has less than a year’s readings, and a timer saves differently by season. Choose twelve months on Answer.',
} as const;

/**
 * Whether a period holds enough for figures of a year: a battery’s saving of a month says little of the others.
 *
 * @param halfHours reference to the half-hours with a reading
 * @returns a condition
 */
export function isYearFormula(halfHours: string): string {
  return `${halfHours}>=${LEAST_HALF_HOURS}`;
}

/** Why a battery’s figures of a year are blank, in words; nothing where they are not, or where nothing is metered. */
export function yearBlankFormula(halfHours: string): string {
  return `IF(OR(${halfHours}=0,${isYearFormula(halfHours)}),"",${quoted(YEAR_BLANK.tooShort)})`;
}

/** Defined name of the words that say that no price is typed. */
export const PRICE_BLANK_NAME = 'battery_price_blank_words';

/** That there is no payback as no price is typed; blank where one is, or where nothing is metered. */
export function priceBlankLine(halfHours: string): WordLine {
  const prices = [BATTERY_FIELDS.priceFixed, BATTERY_FIELDS.pricePerKwh].map(({ cell }) => cell.name);
  return {
    name: PRICE_BLANK_NAME,
    label: 'That no installed price is typed',
    unit: 'text',
    formula: `IF(OR(${halfHours}=0,COUNT(${prices.join(',')})>0),"",${quoted(YEAR_BLANK.priceMissing)})`,
    style: 'text',
  };
}

/**
 * Why the figures by size are blank, in words; nothing where they are not.
 *
 * @param yearBlank reference to the words of `yearBlankFormula`
 */
export function sizingBlankFormula(halfHours: string, status: string, yearBlank: string): string {
  return `IF(${halfHours}=0,"",IF(${status}<>${quoted(STATUS.current)},${quoted(YEAR_BLANK.notOfPeriod)},IF(${yearBlank}="",${PRICE_BLANK_NAME},${yearBlank})))`;
}

/** Why a year’s saving by timers is blank, in words; nothing where it is not, or where there is none to tell. */
export function timersYearBlankFormula(halfHours: string): string {
  return `IF(OR(${halfHours}=0,${isYearFormula(halfHours)}),"",${quoted(YEAR_BLANK.timersTooShort)})`;
}
