import { DAY_MS } from '../time/serial.js';
import { ABBREVIATIONS } from './zone-abbreviations.js';

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const MONTH_DAYS = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const WEEKDAY = /^(mon|tue|wed|thu|fri|sat|sun)[a-z]*[,.]? +/i;
const HOUR_MS = 3_600_000;
const MINUTE_MS = 60_000;

/** How the date of a stamp was written. */
type DateForm = 'yearFirst' | 'yearLast' | 'named' | 'twoDigitYear';

/**
 * Reads stamps character by character: dates in ISO form, with the year last, with a named month or as bare digits; times of 12 or
 * 24 hours up to 24:00; offsets. One reader is used for a whole column, so that no object is made for a cell.
 *
 * @example
 * const reader = new StampReader('dmy');
 * reader.read('25/10/2026 01:30') // true; reader.localMs is Date.UTC(2026, 9, 25, 1, 30)
 */
export class StampReader {
  /** Wall-clock ms as if UTC; without a time, that of 00:00. */
  localMs = Number.NaN;
  /** Ms after midnight, NaN where the cell had no time. */
  timeMs = Number.NaN;
  /** Offset from UTC in minutes, NaN where the cell had none. */
  offsetMinutes = Number.NaN;
  /** How the date was written. */
  form: DateForm = 'yearFirst';
  /** Whether the cell named a month without a day: it is read as the first. */
  monthOnly = false;
  /** First and second number of a date with the year last. */
  first = 0;
  second = 0;

  private text = '';
  private at = 0;

  /**
   * @param order order of the parts where the year is last; the first two numbers are kept but not read while undefined
   * @param abbreviations offsets of the words that may stand behind a time (BST, GMT), minutes from UTC
   */
  constructor(
    public order: 'dmy' | 'mdy' | 'ymd' | undefined,
    private readonly abbreviations: ReadonlyMap<string, number> = ABBREVIATIONS,
  ) {}

  /**
   * Reads a date, with or without a time and an offset.
   *
   * @param cell the text
   * @returns false when it is not such a stamp (or names no day of the calendar in this order)
   */
  read(cell: string): boolean {
    this.start(cell);
    if (!this.readDate()) return false;
    if (this.atEnd()) return true;
    const c = this.text.charCodeAt(this.at);
    // T or a comma between date and time; blanks are behind the cursor already.
    if (c === 84 || c === 116 || c === 44) this.at++;
    this.skipBlanks();
    if (!this.readTime()) return false;
    this.localMs += this.timeMs;
    this.readOffset();
    return this.atEnd();
  }

  /**
   * Reads a time of day alone, into `timeMs`; of a range `00:00-00:30`, the first.
   *
   * @param cell the text
   * @returns false when it is not a time
   */
  readTimeOfDay(cell: string): boolean {
    this.start(cell);
    if (!this.readTime()) return false;
    // A dash after a time alone begins the end of a range, not an offset.
    if (this.text.charCodeAt(this.at) !== 45) this.readOffset();
    if (this.atEnd()) return true;
    const rest = this.text.slice(this.at).trim();
    return /^(-|–|to|until)\s*\d{1,2}[:.]\d{2}(:\d{2})?$/i.test(rest);
  }

  private start(cell: string): void {
    this.text = cell;
    this.at = 0;
    this.monthOnly = false;
    this.offsetMinutes = Number.NaN;
    this.timeMs = Number.NaN;
    this.skipBlanks();
  }

  private skipBlanks(): void {
    let c = this.text.charCodeAt(this.at);
    while (c === 32 || c === 9 || c === 13 || c === 160) c = this.text.charCodeAt(++this.at);
  }

  private atEnd(): boolean {
    this.skipBlanks();
    return this.at >= this.text.length;
  }

  /** Digits at the cursor as a number; their count is how far the cursor moved. */
  private digits(): number {
    let value = 0;
    for (;;) {
      const d = this.text.charCodeAt(this.at) - 48;
      if (!(d >= 0 && d <= 9)) return value;
      value = value * 10 + d;
      this.at++;
    }
  }

  /** Mon, Monday and so on before a date, with or without a comma. */
  private skipWeekday(): boolean {
    const match = WEEKDAY.exec(this.text.slice(this.at, this.at + 12));
    if (match === null) return false;
    this.at += match[0].length;
    return true;
  }

  /** Letters at the cursor, as capitals; the cursor moves behind them. */
  private word(): string {
    const from = this.at;
    let letter = this.text.charCodeAt(this.at) | 32;
    while (letter >= 97 && letter <= 122) letter = this.text.charCodeAt(++this.at) | 32;
    return this.at === from ? '' : this.text.slice(from, this.at).toUpperCase();
  }

  private month(): number {
    const from = this.at;
    while ((this.text.charCodeAt(this.at) | 32) >= 97 && (this.text.charCodeAt(this.at) | 32) <= 122)
      this.at++;
    if (this.at - from < 3) return 0;
    return MONTHS.indexOf(this.text.slice(from, from + 3).toLowerCase()) + 1;
  }

  /** One of - / . blank, then blanks. */
  private separator(): boolean {
    const c = this.text.charCodeAt(this.at);
    if (c !== 45 && c !== 47 && c !== 46 && c !== 32 && c !== 44) return false;
    this.at++;
    this.skipBlanks();
    return true;
  }

  private readDate(): boolean {
    const from = this.at;
    let a = this.digits();
    const aLength = this.at - from;
    if (aLength === 0) {
      if (this.skipWeekday()) return this.readDate();
      a = this.month();
      if (a === 0 || !this.separator()) return false;
      const dayFrom = this.at;
      const day = this.digits();
      if (this.at - dayFrom === 4 && this.atEnd()) return this.wholeMonth(day, a);
      if (!this.separator()) return false;
      return this.namedDate(day, a);
    }
    if (aLength === 8 || aLength === 12 || aLength === 14) return this.bareDigits(from, aLength);
    if (!this.separator()) return false;
    const dashed = this.text.charCodeAt(this.at - 1) !== 46;
    const bFrom = this.at;
    const b = this.digits();
    // 2026-01 is a month; 2026.01 is a number.
    if (aLength === 4 && dashed && this.at - bFrom === 2 && this.atEnd()) return this.wholeMonth(a, b);
    if (this.at === bFrom) {
      const month = this.month();
      if (month === 0 || !this.separator()) return false;
      return this.namedDate(a, month);
    }
    if (this.at - bFrom > 2 || !this.separator()) return false;
    const cFrom = this.at;
    const c = this.digits();
    const cLength = this.at - cFrom;
    if (aLength === 4) {
      this.form = 'yearFirst';
      return cLength <= 2 && cLength > 0 && this.setDay(a, b, c);
    }
    if (aLength > 2) return false;
    this.first = a;
    this.second = b;
    if (cLength === 4) {
      this.form = 'yearLast';
      if (this.order === 'mdy') return this.setDay(c, a, b);
      if (this.order === 'dmy') return this.setDay(c, b, a);
      if (this.order === 'ymd') return false;
      // Either order must give a day.
      return this.setDay(c, b, a) || this.setDay(c, a, b);
    }
    if (cLength !== 2) return false;
    this.form = 'twoDigitYear';
    if (this.order === 'ymd') return this.setDay(2000 + a, b, c);
    if (this.order === 'mdy') return this.setDay(2000 + c, a, b);
    return this.setDay(2000 + c, b, a) || (this.order === undefined && this.setDay(2000 + c, a, b));
  }

  private namedDate(day: number, month: number): boolean {
    const from = this.at;
    const year = this.digits();
    const length = this.at - from;
    // With the month named, two digits at the end can only be the year.
    this.form = 'named';
    if (length === 2) return this.setDay(2000 + year, month, day);
    return length === 4 && this.setDay(year, month, day);
  }

  private wholeMonth(year: number, month: number): boolean {
    this.form = 'yearFirst';
    this.monthOnly = true;
    return year >= 1900 && year <= 2200 && this.setDay(year, month, 1);
  }

  private bareDigits(from: number, length: number): boolean {
    const part = (start: number, end: number): number => Number(this.text.slice(from + start, from + end));
    const year = part(0, 4);
    if (year < 1990 || year > 2100) return false;
    this.form = 'yearFirst';
    if (!this.setDay(year, part(4, 6), part(6, 8))) return false;
    if (length === 8) return true;
    const hour = part(8, 10);
    const minute = part(10, 12);
    const second = length === 14 ? part(12, 14) : 0;
    if (hour > 24 || minute > 59 || second > 59 || (hour === 24 && minute > 0)) return false;
    this.timeMs = hour * HOUR_MS + minute * MINUTE_MS + second * 1000;
    this.localMs += this.timeMs;
    this.readOffset();
    return this.atEnd();
  }

  private setDay(year: number, month: number, day: number): boolean {
    if (!(month >= 1 && month <= 12 && day >= 1 && day <= MONTH_DAYS[month - 1]!)) return false;
    if (month === 2 && day === 29 && (year % 4 !== 0 || (year % 100 === 0 && year % 400 !== 0))) return false;
    // Days from the civil calendar (Howard Hinnant, "chrono-compatible low-level date algorithms"): no Date object a row.
    const y = month <= 2 ? year - 1 : year;
    const era = Math.floor(y / 400);
    const yearOfEra = y - era * 400;
    const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
    const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
    this.localMs = (era * 146_097 + dayOfEra - 719_468) * DAY_MS;
    return true;
  }

  private readTime(): boolean {
    const from = this.at;
    let hour = this.digits();
    const hourLength = this.at - from;
    let minute = 0;
    let ms = 0;
    if (hourLength === 4) {
      minute = hour % 100;
      hour = Math.floor(hour / 100);
    } else if (hourLength === 1 || hourLength === 2) {
      const c = this.text.charCodeAt(this.at);
      if (c === 58 || c === 46) {
        this.at++;
        const minuteFrom = this.at;
        minute = this.digits();
        if (this.at - minuteFrom !== 2) return false;
        if (this.text.charCodeAt(this.at) === 58) {
          this.at++;
          const secondFrom = this.at;
          const second = this.digits();
          if (this.at - secondFrom !== 2 || second > 59) return false;
          ms = second * 1000;
          const mark = this.text.charCodeAt(this.at);
          if (mark === 46 || mark === 44) {
            this.at++;
            const fractionFrom = this.at;
            const fraction = this.digits();
            ms += Math.round((fraction / 10 ** (this.at - fractionFrom)) * 1000);
          }
        }
      } else if (!this.halfDayFollows()) return false;
    } else return false;
    if (minute > 59) return false;
    if (this.halfDayFollows()) {
      this.skipBlanks();
      const afternoon = (this.text.charCodeAt(this.at) | 32) === 112;
      this.at++;
      if (this.text.charCodeAt(this.at) === 46) this.at++;
      this.at++;
      if (this.text.charCodeAt(this.at) === 46) this.at++;
      if (hour < 1 || hour > 12) return false;
      hour = (hour % 12) + (afternoon ? 12 : 0);
    }
    if (hour > 24 || (hour === 24 && (minute > 0 || ms > 0))) return false;
    this.timeMs = hour * HOUR_MS + minute * MINUTE_MS + ms;
    return true;
  }

  /** Whether am, pm, a.m. or p.m. comes next. */
  private halfDayFollows(): boolean {
    let i = this.at;
    while (this.text.charCodeAt(i) === 32 || this.text.charCodeAt(i) === 160) i++;
    const letter = this.text.charCodeAt(i) | 32;
    if (letter !== 97 && letter !== 112) return false;
    if (this.text.charCodeAt(i + 1) === 46) i++;
    return (this.text.charCodeAt(i + 1) | 32) === 109;
  }

  private readOffset(): void {
    const from = this.at;
    this.skipBlanks();
    const c = this.text.charCodeAt(this.at);
    if (c === 90 || c === 122) {
      this.at++;
      this.offsetMinutes = 0;
      return;
    }
    if (c === 43 || c === 45) {
      const signAt = this.at;
      this.at++;
      const hourFrom = this.at;
      let hours = this.digits();
      let minutes = 0;
      const length = this.at - hourFrom;
      if (length === 4) {
        minutes = hours % 100;
        hours = Math.floor(hours / 100);
      } else if (length === 2 && this.text.charCodeAt(this.at) === 58) {
        this.at++;
        minutes = this.digits();
      }
      if ((length === 2 || length === 4) && hours <= 14 && minutes < 60) {
        this.offsetMinutes = (c === 43 ? 1 : -1) * (hours * 60 + minutes);
        return;
      }
      this.at = signAt;
      return;
    }
    const offset = this.abbreviations.get(this.word());
    if (offset === undefined) this.at = from;
    else this.offsetMinutes = offset;
  }
}
