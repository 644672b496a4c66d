import { BILL_COLUMN, billRange } from '../../fields/bill-fields.js';

/** Columns right of the inputs that other sheets look at; what else is worked out follows. */
export const BILL_NUMBER = billRange(BILL_COLUMN.firstWorked, 'bill_numbers');
export const BILL_PLACE = billRange(BILL_COLUMN.firstWorked + 1, 'bill_places');
/** First column of the flags, right of everything else. */
export const BILL_FLAGS_COLUMN = 95;
/** Defined name of the sentence about all bills. */
export const BILLS_WORDS_NAME = 'bills_words';
/** Defined name of the digits to which lines are rounded. */
export const LINE_DIGITS_NAME = 'bill_line_digits';
