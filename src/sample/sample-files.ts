import { serialToIsoDate } from '../time/serial.js';
import { sampleGasYear } from './sample-gas-year.js';
import type { SampleGrid } from './sample-grid.js';
import { type SimulatedHome, simulateHome } from './simulate-home.js';

/** A file of the sample home. */
export interface SampleFile {
  name: string;
  /** Text to be written as UTF-8. */
  text: string;
}

/**
 * The files in which the owner of the sample home has the year, in the many shapes that people have.
 *
 * @returns names and CSV texts; the same every time
 * @example sampleFiles().map(({ name }) => name)[0] // 'meter-2025-q4.csv'
 */
export function sampleFiles(): SampleFile[] {
  const home = simulateHome();
  return [
    ...meterFiles(home),
    { name: 'solar-and-battery.csv', text: solarAndBattery(home) },
    { name: 'heat-pump-electricity.csv', text: heatPumpElectricity(home) },
    { name: 'heat-pump-heat-output.csv', text: heatPumpHeat(home) },
    { name: 'car-charger.tsv', text: carCharger(home) },
    { name: 'outdoor-temperature.csv', text: outdoorTemperature(home) },
    { name: 'half-hourly-price.csv', text: halfHourlyPrice(home) },
  ];
}

/**
 * The last year on gas: monthly readings of the gas meter, and the daily temperatures of that year.
 *
 * @returns names and CSV texts; the same every time
 */
export function sampleGasFiles(): SampleFile[] {
  const { readings, days } = sampleGasYear(simulateHome().weather);
  return [
    {
      name: 'gas-meter-2024-2025.csv',
      text: lines([
        'reading date,gas meter register m³',
        ...readings.map(({ isoDate, registerM3 }) => `${isoDate},${registerM3.toFixed(1)}`),
      ]),
    },
    {
      name: 'daily-mean-temperature-2024-2025.csv',
      text: lines([
        'date,daily mean outdoor temperature °C',
        ...days.map(({ isoDate, meanC }) => `${isoDate},${meanC.toFixed(1)}`),
      ]),
    },
  ];
}

/**
 * One more month, October 2026, to drop into a workbook: all channels in one file.
 *
 * @returns name and CSV text; the same every time
 */
export function sampleExtraMonthFiles(): SampleFile[] {
  const { grid, readings, halfHoursInYear } = simulateHome();
  const { importKwh, exportKwh, solarKwh, batteryInKwh, batteryOutKwh } = readings;
  const { heatPumpKwh, heatOutputKwh, carKwh, outdoorC, pricePence } = readings;
  const energies = [
    importKwh,
    exportKwh,
    solarKwh,
    batteryInKwh,
    batteryOutKwh,
    heatPumpKwh,
    heatOutputKwh,
    carKwh,
  ];
  const rows = [
    'interval start,import kWh,export kWh,solar kWh,battery in kWh,battery out kWh,heat pump kWh,heat output kWh,' +
      'car kWh,outdoor °C,price p/kWh',
  ];
  for (let i = halfHoursInYear; i < grid.startUtcMs.length; i++) {
    const kwh = energies.map((series) => series[i]!.toFixed(3));
    rows.push([isoWithOffset(grid, i), ...kwh, outdoorC[i]!.toFixed(1), pricePence[i]!.toFixed(2)].join(','));
  }
  return [{ name: 'october-2026.csv', text: lines(rows) }];
}

/** Import and export, a file a quarter, a row a half-hour, ISO 8601 with offset. */
function meterFiles({ grid, readings, halfHoursInYear }: SimulatedHome): SampleFile[] {
  const header = 'interval start,import kWh,export kWh';
  const rowsOfQuarter = new Map<string, string[]>();
  for (let i = 0; i < halfHoursInYear; i++) {
    const stamp = isoWithOffset(grid, i);
    const quarter = `${stamp.slice(0, 4)}-q${Math.ceil(Number(stamp.slice(5, 7)) / 3)}`;
    let rows = rowsOfQuarter.get(quarter);
    if (rows === undefined) {
      rows = [header];
      rowsOfQuarter.set(quarter, rows);
    }
    rows.push(`${stamp},${readings.importKwh[i]!.toFixed(3)},${readings.exportKwh[i]!.toFixed(3)}`);
  }
  return [...rowsOfQuarter].map(([quarter, rows]) => ({ name: `meter-${quarter}.csv`, text: lines(rows) }));
}

/** Semicolons, decimal commas, day-first local times, lines before the header, byte-order mark, CRLF. */
function solarAndBattery({ grid, readings, halfHoursInYear }: SimulatedHome): string {
  const { solarKwh, batteryInKwh, batteryOutKwh } = readings;
  const rows = [
    'Energy log of the inverter',
    'Clock;local time, with summer time',
    '',
    'Start;Solar kWh;Battery in kWh;Battery out kWh',
  ];
  for (let i = 0; i < halfHoursInYear; i++) {
    const [date, time] = localStamp(grid, grid.startUtcMs[i]!);
    const dayFirst = `${date.slice(8)}/${date.slice(5, 7)}/${date.slice(0, 4)} ${time}`;
    const kwh = [solarKwh, batteryInKwh, batteryOutKwh].map((series) =>
      series[i]!.toFixed(3).replace('.', ','),
    );
    rows.push(`${dayFirst};${kwh.join(';')}`);
  }
  return `\uFEFF${rows.join('\r\n')}\r\n`;
}

/** A row a day, a column a half-hour, kWh. The last two columns are blank but on the day of 50. */
function heatPumpElectricity(home: SimulatedHome): string {
  const cell = (i: number): string => home.readings.heatPumpKwh[i]!.toFixed(3);
  const rows = dayRows(home, (isoDate) => `${isoDate},heat pump electricity,kWh`, cell);
  return lines([`Date,Quantity,Unit,${slotNumbers.join(',')}`, ...rows]);
}

/** The same in Wh of heat, with the names of months. */
function heatPumpHeat(home: SimulatedHome): string {
  const cell = (i: number): string => String(Math.round(home.readings.heatOutputKwh[i]! * 1000));
  const dayOf = (isoDate: string): string => {
    const month = MONTHS[Number(isoDate.slice(5, 7)) - 1]!;
    return `${isoDate.slice(8)}-${month}-${isoDate.slice(0, 4)},heat output,Wh`;
  };
  const rows = dayRows(home, dayOf, cell);
  return lines([`Day,Measured,Unit,${slotNumbers.map((n) => `HH${n}`).join(',')}`, ...rows]);
}

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
/** The half-hours of a day, numbered: as many columns as the longest day needs. */
const slotNumbers = Array.from({ length: 50 }, (_, slot) => slot + 1);

function dayRows(
  { grid, halfHoursInYear }: SimulatedHome,
  firstCells: (isoDate: string) => string,
  cell: (i: number) => string,
): string[] {
  const rows: string[] = [];
  for (let day = 0; grid.dayFirst[day]! < halfHoursInYear; day++) {
    const [from, until] = [grid.dayFirst[day]!, grid.dayFirst[day + 1]!];
    const cells = slotNumbers.map((n) => (from + n <= until ? cell(from + n - 1) : ''));
    rows.push(`${firstCells(serialToIsoDate(grid.daySerial[day]!))},${cells.join(',')}`);
  }
  return rows;
}

/** Quarter-hours, stamped by their end in local time, tabs. */
function carCharger({ grid, readings, halfHoursInYear }: SimulatedHome): string {
  const rows = ['Interval end\tCar kWh'];
  for (let i = 0; i < halfHoursInYear; i++) {
    const wh = Math.round(readings.carKwh[i]! * 1000);
    const first = Math.ceil(wh / 2);
    for (const [minutes, quarterWh] of [
      [15, first],
      [30, wh - first],
    ] as const) {
      const stamp = localStamp(grid, grid.startUtcMs[i]! + minutes * 60_000).join(' ');
      rows.push(`${stamp}\t${(quarterWh / 1000).toFixed(3)}`);
    }
  }
  return lines(rows);
}

/** A row an hour, local time with offset, °C. */
function outdoorTemperature({ grid, readings, halfHoursInYear }: SimulatedHome): string {
  const rows = ['hour starting,outdoor temperature °C'];
  for (let i = 0; i < halfHoursInYear; i += 2) {
    rows.push(`${isoWithOffset(grid, i)},${readings.outdoorC[i]!.toFixed(1)}`);
  }
  return lines(rows);
}

/** A row a half-hour, UTC. */
function halfHourlyPrice({ grid, readings, halfHoursInYear }: SimulatedHome): string {
  const rows = ['start (UTC),price p/kWh incl. VAT'];
  for (let i = 0; i < halfHoursInYear; i++) {
    const stamp = new Date(grid.startUtcMs[i]!).toISOString().slice(0, 16);
    rows.push(`${stamp}Z,${readings.pricePence[i]!.toFixed(2)}`);
  }
  return lines(rows);
}

/** Local date `YYYY-MM-DD` and time `HH:MM`. */
function localStamp({ clock }: SampleGrid, utcMs: number): [date: string, time: string] {
  const iso = new Date(clock.localMsAt(utcMs)).toISOString();
  return [iso.slice(0, 10), iso.slice(11, 16)];
}

function isoWithOffset(grid: SampleGrid, i: number): string {
  const utcMs = grid.startUtcMs[i]!;
  const offsetHours = grid.clock.offsetMinutesAt(utcMs) / 60;
  return `${localStamp(grid, utcMs).join('T')}:00+${String(offsetHours).padStart(2, '0')}:00`;
}

function lines(rows: string[]): string {
  return `${rows.join('\n')}\n`;
}
