import { InputError } from '../../errors.js';
import { readTable, type Table } from '../read-table.js';

/** Where a reading comes from: as metered, or how it was made up. */
export type Quality = 'actual' | 'estimated' | 'substituted';

/** A day of a register. */
export interface RegisterDay {
  /** `2026-01-31`. */
  date: string;
  line: number;
  /** One for each interval; undefined where the file says that there is none. */
  values: (number | undefined)[];
  quality: Quality[];
}

/** A register of a meter, with its days in the order of the file. */
export interface Register {
  nmi: string;
  /** As `E1`: what it counts, and which of several. */
  suffix: string;
  unit: string;
  minutes: number;
  line: number;
  days: RegisterDay[];
}

/** What a NEM12 file holds. */
export interface Nem12 {
  registers: Register[];
  /** All lines, and those by what they are. */
  lines: { all: number; blank: number; frame: number; quality: number; reads: number };
}

const FIRST = /^\s*"?100"?\s*,\s*"?(NEM1[23])\b/i;
const WITHOUT_HEADER = /^\s*200,[A-Z0-9]{10},([A-Z]\d)+,/i;

/**
 * Whether a text is a file of interval data of the Australian market, or its other half.
 *
 * @param head the beginning of the text
 * @returns true for what {@link readNem12} reads or refuses
 * @example isNem12('100,NEM12,200506081149,MDP1,RET1') // true
 */
export function isNem12(head: string): boolean {
  return FIRST.test(head) || WITHOUT_HEADER.test(head);
}

/**
 * Reads the records of a NEM12 file (AEMO, Meter Data File Format Specification NEM12 & NEM13, version 1.06, sections 3 and 4; the rules
 * from memory): 100 begins it, 200 names a register, 300 gives a day of it, 400 the quality of some of its intervals, 500 the manual
 * read, which is passed over, 900 ends it.
 *
 * @param bytes the file
 * @param file name for messages
 * @returns registers with their days
 * @throws InputError naming the line of a record that is out of place, has a wrong number of values, or is unknown; where no 900 ends the file
 * @example readNem12(bytes, 'may.csv').registers[0]?.suffix // 'E1'
 */
export function readNem12(bytes: Uint8Array, file: string): Nem12 {
  const table = readTable({ name: file, bytes }, ',');
  const { records } = table;
  const nem12: Nem12 = { registers: [], lines: { all: 0, blank: 0, frame: 0, quality: 0, reads: 0 } };
  const { lines } = nem12;
  let isOpen = false;
  let register: Register | undefined;
  let day: RegisterDay | undefined;
  let varies: { covered: number; line: number } | undefined;
  records.forEach((record, r) => {
    lines.all++;
    const cells = record.map((cell) => cell.trim());
    if (cells.every((cell) => cell === '')) {
      lines.blank++;
      return;
    }
    const line = table.lineNumber(r);
    const refuse = (found: string, whatToDo = 'Download the file again.'): InputError =>
      new InputError(found, whatToDo, { file, line });
    const [indicator] = cells;
    if (indicator !== '400') checkCovered();
    if (indicator !== '100' && !isOpen) throw refuse('the file has no record 100 at its beginning');
    switch (indicator) {
      case '100':
        if (isOpen) throw refuse('a file begins before the one above ends: it has no record 900');
        if (cells[1]?.toUpperCase() !== 'NEM12') {
          throw refuse(
            `the file is ${cells[1]}, which holds reads months apart`,
            'Ask for interval data: a file that begins with 100,NEM12.',
          );
        }
        isOpen = true;
        register = undefined;
        lines.frame++;
        break;
      case '200':
        register = registerOf(cells, line, refuse);
        nem12.registers.push(register);
        day = undefined;
        lines.frame++;
        break;
      case '300':
        if (register === undefined) throw refuse('a day of values stands above any record 200');
        day = dayOf(cells, line, register, refuse);
        register.days.push(day);
        varies = qualityCell(cells, register).startsWith('V') ? { covered: 0, line } : undefined;
        break;
      case '400':
        if (register === undefined || day === undefined)
          throw refuse('record 400 stands below no record 300');
        if (varies === undefined)
          throw refuse('record 400 stands below a day whose quality does not vary (V)');
        varies.covered += setQuality(cells, day, refuse);
        lines.quality++;
        break;
      case '500':
        lines.reads++;
        break;
      case '900':
        isOpen = false;
        lines.frame++;
        break;
      default:
        throw refuse(`"${indicator!.slice(0, 20)}" is no record of a NEM12 file`);
    }
  });
  checkCovered();
  if (isOpen) {
    throw new InputError('no record 900 ends the file: it is cut', 'Download the file again.', {
      file,
      line: lastLine(table),
    });
  }
  return nem12;

  function checkCovered(): void {
    if (varies === undefined) return;
    const { covered, line } = varies;
    varies = undefined;
    const all = day!.values.length;
    if (covered === all) return;
    throw new InputError(
      `the quality of the day varies, and its records 400 give it for ${covered} of ${all} intervals`,
      'Download the file again.',
      { file, line },
    );
  }
}

function lastLine(table: Table): number {
  const last = table.records.findLastIndex((record) => record.some((cell) => cell.trim() !== ''));
  return table.lineNumber(last);
}

type Refuse = (found: string, whatToDo?: string) => InputError;

function registerOf(cells: readonly string[], line: number, refuse: Refuse): Register {
  const [, nmi = '', , , suffix = '', , , unit = '', length = ''] = cells;
  const minutes = Number(length);
  if (nmi === '' || suffix === '')
    throw refuse('record 200 names no meter (NMI) or no register (NMI suffix)');
  if (![5, 15, 30].includes(minutes)) throw refuse(`"${length}" is no interval of 5, 15 or 30 minutes`);
  return { nmi, suffix: suffix.toUpperCase(), unit, minutes, line, days: [] };
}

const DATE = /^(\d{4})(\d{2})(\d{2})$/;
const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)$/;

function qualityCell(cells: readonly string[], register: Register): string {
  return (cells[2 + 1440 / register.minutes] ?? '').toUpperCase();
}

function dayOf(cells: readonly string[], line: number, register: Register, refuse: Refuse): RegisterDay {
  const count = 1440 / register.minutes;
  const [, date = ''] = cells;
  const parts = DATE.exec(date);
  const text = parts === null ? '' : `${parts[1]}-${parts[2]}-${parts[3]}`;
  if (parts === null || Number.isNaN(Date.parse(text)) || !new Date(text).toISOString().startsWith(text)) {
    throw refuse(`"${date}" is no date as NEM12 writes it (YYYYMMDD)`);
  }
  const quality = qualityCell(cells, register);
  if (!/^([AEFNSV])(\d\d)?$/.test(quality)) {
    const at = cells.findIndex((cell, i) => i > 1 && /^[AEFNSV](\d\d)?$/i.test(cell));
    throw refuse(
      at < 0
        ? 'the day has no quality behind its values'
        : `the day has ${at - 2} values, and ${count} intervals of ${register.minutes} minutes`,
    );
  }
  const isNull = quality.startsWith('N');
  const values = cells.slice(2, 2 + count).map((cell) => {
    // Null days may be written as nought, too.
    if (isNull || cell === '') return undefined;
    if (!NUMBER.test(cell)) throw refuse(`"${cell.slice(0, 20)}" is not a number`);
    return Number(cell);
  });
  return { date: text, line, values, quality: values.map(() => meaning(quality)) };
}

function meaning(quality: string): Quality {
  const [letter] = quality;
  return letter === 'E' ? 'estimated' : letter === 'S' || letter === 'F' ? 'substituted' : 'actual';
}

/** Gives some intervals of a day their own quality; how many. */
function setQuality(cells: readonly string[], day: RegisterDay, refuse: Refuse): number {
  const [, from = '', to = '', method = ''] = cells;
  const first = Number(from);
  const last = Number(to);
  const quality = method.toUpperCase();
  const isRange = Number.isInteger(first) && Number.isInteger(last) && first >= 1 && first <= last;
  if (!isRange || last > day.values.length)
    throw refuse(`"${from}" to "${to}" are no intervals of a day of ${day.values.length}`);
  if (!/^[AEFNS](\d\d)?$/.test(quality)) throw refuse(`"${method}" is no quality of a reading`);
  for (let i = first - 1; i < last; i++) {
    day.quality[i] = meaning(quality);
    if (quality.startsWith('N')) day.values[i] = undefined;
  }
  return last - first + 1;
}
