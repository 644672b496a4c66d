import type { ZoneClock } from '../../src/time/zone-clock.js';

/** One way to write half-hourly energy to a file. */
export interface Dialect {
  stamp:
    | 'isoOffset'
    | 'isoUtc'
    | 'isoLocal'
    | 'dmy'
    | 'mdy'
    | 'dmyDateTime'
    | 'mdyTwelveHour'
    | 'bare'
    | 'dayNumber';
  position: 'start' | 'end';
  layout: 'interval' | 'day';
  unit: 'kWh' | 'Wh' | 'kW' | 'W';
  delimiter: ',' | ';' | '\t' | '|';
  decimal: '.' | ',';
  register: boolean;
  preamble: boolean;
  newestFirst: boolean;
  encoding: 'utf8' | 'utf8bom' | 'utf16le' | 'utf16be';
  eol: '\n' | '\r\n';
}

export const PLAIN: Dialect = {
  stamp: 'isoLocal',
  position: 'start',
  layout: 'interval',
  unit: 'kWh',
  delimiter: ',',
  decimal: '.',
  register: false,
  preamble: false,
  newestFirst: false,
  encoding: 'utf8',
  eol: '\n',
};

const two = (n: number): string => String(n).padStart(2, '0');

/** Parts of wall-clock ms counted as if UTC. */
function parts(localMs: number) {
  const d = new Date(localMs);
  return {
    y: String(d.getUTCFullYear()),
    m: two(d.getUTCMonth() + 1),
    d: two(d.getUTCDate()),
    hm: `${two(d.getUTCHours())}:${two(d.getUTCMinutes())}`,
    hour: d.getUTCHours(),
    minute: two(d.getUTCMinutes()),
  };
}

/** Cells of a stamp. */
function stampCells(utcMs: number, clock: ZoneClock, stamp: Dialect['stamp'], slot: number): string[] {
  const local = clock.localMsAt(utcMs);
  const { y, m, d, hm, hour, minute } = parts(local);
  const offset = (local - utcMs) / 60_000;
  const sign = offset < 0 ? '-' : '+';
  switch (stamp) {
    case 'isoUtc':
      return [`${new Date(utcMs).toISOString().slice(0, 19)}Z`];
    case 'isoOffset':
      return [
        `${y}-${m}-${d}T${hm}:00${sign}${two(Math.floor(Math.abs(offset) / 60))}:${two(Math.abs(offset) % 60)}`,
      ];
    case 'isoLocal':
      return [`${y}-${m}-${d} ${hm}`];
    case 'dmy':
      return [`${d}/${m}/${y} ${hm}`];
    case 'mdy':
      return [`${Number(m)}/${Number(d)}/${y} ${hm}`];
    case 'dmyDateTime':
      return [`${d}.${m}.${y}`, hm];
    case 'mdyTwelveHour':
      return [`${m}/${d}/${y} ${hour % 12 === 0 ? 12 : hour % 12}:${minute} ${hour < 12 ? 'AM' : 'PM'}`];
    case 'bare':
      return [`${y}${m}${d}${hm.replace(':', '')}`];
    case 'dayNumber':
      return [`${y}-${m}-${d}`, String(slot)];
  }
}

const quoted = (cell: string, delimiter: string): string => (cell.includes(delimiter) ? `"${cell}"` : cell);

/** Writes energy of consecutive half-hours (whole Wh, so that every unit is exact) as a file of the dialect. */
export function writeDialect(
  startsUtcMs: readonly number[],
  wh: readonly number[],
  clock: ZoneClock,
  dialect: Dialect,
): Uint8Array {
  const { delimiter, decimal, unit, stamp, position, eol } = dialect;
  const number = (value: number): string => String(Number(value.toFixed(6))).replace('.', decimal);
  const inUnit = (w: number): number => ({ kWh: w / 1000, Wh: w, kW: w / 500, W: w * 2 })[unit];
  const line = (cells: readonly string[]): string =>
    cells.map((cell) => quoted(cell, delimiter)).join(delimiter);
  const rows: string[][] = [];
  let header: string[];
  const slotOf = slotsOfDays(startsUtcMs, clock);
  if (dialect.layout === 'day') {
    header = [
      'Date',
      ...Array.from({ length: 48 }, (_, i) => `${two(Math.floor(i / 2))}:${i % 2 === 0 ? '00' : '30'}`),
    ];
    const days = new Map<string, string[]>();
    startsUtcMs.forEach((utc, i) => {
      const { y, m, d } = parts(clock.localMsAt(utc));
      const day = `${d}/${m}/${y}`;
      days.set(day, [...(days.get(day) ?? [day]), number(inUnit(wh[i]!))]);
    });
    rows.push(...days.values());
  } else {
    const stampHeader = stamp === 'dmyDateTime' || stamp === 'dayNumber';
    const word = position === 'start' ? 'start' : 'end';
    header = [
      ...(stampHeader
        ? [`Interval ${word} date`, stamp === 'dayNumber' ? 'Period' : 'Interval time']
        : [`Interval ${word}`]),
      dialect.register ? `Import meter reading (${unit})` : `Import (${unit})`,
    ];
    const cells = (utc: number, slot: number) => stampCells(utc, clock, stamp, slot);
    if (dialect.register) {
      let total = 1_234_000;
      rows.push([...cells(startsUtcMs[0]!, 1), number(inUnit(total))]);
      startsUtcMs.forEach((utc, i) => {
        total += wh[i]!;
        rows.push([...cells(utc + 1_800_000, 1), number(inUnit(total))]);
      });
    } else {
      const shift = position === 'end' ? 1_800_000 : 0;
      startsUtcMs.forEach((utc, i) => {
        rows.push([...cells(utc + shift, slotOf[i]!), number(inUnit(wh[i]!))]);
      });
    }
  }
  if (dialect.newestFirst) rows.reverse();
  const text = [
    ...(dialect.preamble ? ['Readings of our home', '', `Made on${delimiter}a Sunday`] : []),
    line(header),
    ...rows.map(line),
    '',
  ].join(eol);
  return encode(text, dialect.encoding);
}

function slotsOfDays(startsUtcMs: readonly number[], clock: ZoneClock): number[] {
  let day = '';
  let slot = 0;
  return startsUtcMs.map((utc) => {
    const { y, m, d } = parts(clock.localMsAt(utc));
    slot = day === y + m + d ? slot + 1 : 1;
    day = y + m + d;
    return slot;
  });
}

/** Bytes of a text in an encoding. */
export function encode(text: string, encoding: Dialect['encoding']): Uint8Array {
  if (encoding === 'utf8') return Buffer.from(text);
  if (encoding === 'utf8bom') return Buffer.from(`\ufeff${text}`);
  const le = Buffer.from(`\ufeff${text}`, 'utf16le');
  return encoding === 'utf16le' ? le : le.swap16();
}
