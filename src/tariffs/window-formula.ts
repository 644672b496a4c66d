import { DAY_NAMES, LONG_NAMES } from './weekdays.js';

const NAMES = DAY_NAMES.join('').toUpperCase();

// Pieces of formula shared by the functions that ask about windows. Times are counted in whole seconds, so that
// 0.0208333 is 00:30 and no comparison hangs on the last bit of a fraction.

/** Whole seconds of a serial or of a time of day. */
export function secondsFormula(serial: string): string {
  return `INT(${serial}*86400+0.5)`;
}

/**
 * Whether a window holds on a weekday, as 0 or 1.
 *
 * @param days reference of the days text, one cell or a column
 * @param weekday expression, Monday 0 to Sunday 6
 */
export function daysFormula(days: string, weekday: string): string {
  const plain = `SUBSTITUTE(UPPER(SUBSTITUTE(${days}," ","")),"–","-")`;
  const short = Object.entries(LONG_NAMES).reduce(
    (rest, [long, name]) => `SUBSTITUTE(${rest},"${long}","${name}")`,
    plain,
  );
  const text = `SUBSTITUTE(SUBSTITUTE(${short},"DAY",""),"EVERY","")`;
  // A comma before the first name is none of it.
  const names = `SUBSTITUTE(${text},",","")`;
  const name = `MID("${NAMES}",3*(${weekday})+1,3)`;
  const isRange = `(MID(${names},4,1)="-")`;
  // Where it is no range, both ends are the first day of the list, or Monday of none: no look-up fails.
  const [first, last] = [
    `LEFT(${names}&"MON",3)`,
    `MID(${names}&"-"&${names}&"MON",SEARCH("-",${names}&"-")+1,3)`,
  ].map((end) => `(SEARCH(${end},"${NAMES}")-1)/3`);
  return (
    `((${text}="")+${isRange}*(MOD(${weekday}-${first},7)<=MOD(${last}-${first},7))` +
    `+(1-${isRange})*(LEN(SUBSTITUTE(${text},${name},""))<LEN(${text}))>0)`
  );
}

/**
 * Whether a time is in a window, as 0 or 1.
 *
 * @param time reference of a serial time, one cell or a column
 * @param from reference of the window's start, one cell or a column
 * @param to reference of its end
 * @param days reference of its days, or `""`
 */
export function inWindowFormula(time: string, from: string, to: string, days: string): string {
  const seconds = secondsFormula(time);
  const day = `INT(${seconds}/86400)`;
  const second = `(${seconds}-86400*${day})`;
  const start = secondsFormula(from);
  const end = secondsFormula(to);
  const today = daysFormula(days, `MOD(${day}-2,7)`);
  const yesterday = daysFormula(days, `MOD(${day}-3,7)`);
  return (
    `((${start}<=${second})*((${second}<${end})+(${end}<=${start})>0)*${today}` +
    `+(${end}<=${start})*(${second}<${end})*${yesterday})`
  );
}
