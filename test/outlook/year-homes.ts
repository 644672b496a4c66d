import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { seededRandom } from '../../src/sample/seeded-random.js';
import { isoDateToSerial, serialToIsoDate } from '../../src/time/serial.js';

/** One day of real weather. */
export interface PlaceDay {
  serialDay: number;
  meanC: number;
  /** As the station noted it: sun, rain, fog, drizzle, snow. */
  sky: string;
}

const FILE = new URL('../../node_modules/vega-datasets/data/weather.csv', import.meta.url);

/** Seattle and New York, 2012 to 2015: daily weather by NOAA, public domain, in the npm package vega-datasets. */
export function placeDays(): Map<string, PlaceDay[]> {
  const rows: Record<string, string>[] = parse(readFileSync(FILE, 'utf8'), { columns: true });
  const places = new Map<string, PlaceDay[]>();
  for (const row of rows) {
    const days = places.get(row.location!) ?? [];
    places.set(row.location!, days);
    days.push({
      serialDay: isoDateToSerial(row.date!.replaceAll('/', '-').slice(0, 10)),
      meanC: (Number(row.temp_max) + Number(row.temp_min)) / 2,
      sky: row.weather!,
    });
  }
  return places;
}

/** What a home has beside lamps and cooker. */
export type HomeKind =
  | 'plain'
  | 'electric heating'
  | 'heat pump'
  | 'solar'
  | 'heat pump, solar, battery'
  | 'car';
export const HOME_KINDS: readonly HomeKind[] = [
  'plain',
  'electric heating',
  'heat pump',
  'solar',
  'heat pump, solar, battery',
  'car',
];

/** A year of a home: what its use costs each day, energy less export, and how cold it was. */
export interface HomeYear {
  place: string;
  year: number;
  kind: HomeKind;
  /** £, a day at a time from 1 January. */
  dailyPounds: number[];
  /** The same of the year after: the same house and habits, in the weather of that year. */
  nextPounds: number[];
  /** Calendar month, 0 to 11, of each day of that. */
  nextMonth: number[];
  /** Degree days of each day, °C·day, base 15.5 °C. */
  degreeDays: number[];
  /** The same of the year before at the place, by calendar month: mean a day, °C. */
  usualDegreeDays: number[];
  /** Calendar month, 0 to 11, of each day. */
  month: number[];
}

const BASE_C = 15.5;
/** Share of a clear day's sun that comes through. */
const CLEARNESS: Record<string, number> = { sun: 0.85, fog: 0.5, drizzle: 0.4, rain: 0.3, snow: 0.3 };
const DAY_MS = 365.25;

/**
 * Homes of our own in real weather, each with its house, habits and tariff: use drifts from week to week, some days away,
 * a car in some weeks, sun by the sky that the station noted, a battery that shifts a part to the night.
 *
 * @param homes how many of each kind in each year at each place
 * @param street other homes for another name
 */
export function homeYears(homes: number, street = ''): HomeYear[] {
  const all: HomeYear[] = [];
  for (const [place, days] of placeDays()) {
    for (let year = 2012; year <= 2015; year++) {
      const of = daysOf(days, year);
      const before = daysOf(days, year === 2012 ? 2015 : year - 1);
      const after = daysOf(days, year === 2015 ? 2012 : year + 1);
      const usualDegreeDays = Array.from({ length: 12 }, (_, m) =>
        mean(
          before
            .filter(({ serialDay }) => monthOf(serialDay) === m)
            .map(({ meanC }) => Math.max(0, BASE_C - meanC)),
        ),
      );
      for (const kind of HOME_KINDS) {
        for (let home = 0; home < homes; home++) {
          all.push({
            place,
            year,
            kind,
            dailyPounds: dailyPounds(kind, of, `${street}${place} ${year} ${kind} ${home}`, 'this'),
            nextPounds: dailyPounds(kind, after, `${street}${place} ${year} ${kind} ${home}`, 'next'),
            nextMonth: after.map(({ serialDay }) => monthOf(serialDay)),
            degreeDays: of.map(({ meanC }) => Math.max(0, BASE_C - meanC)),
            usualDegreeDays,
            month: of.map(({ serialDay }) => monthOf(serialDay)),
          });
        }
      }
    }
  }
  return all;
}

const daysOf = (days: readonly PlaceDay[], year: number): PlaceDay[] =>
  days.filter(({ serialDay }) => serialToIsoDate(serialDay).startsWith(String(year)));
const monthOf = (serialDay: number): number => Number(serialToIsoDate(serialDay).slice(5, 7)) - 1;

function dailyPounds(kind: HomeKind, days: readonly PlaceDay[], seed: string, run: string): number[] {
  const house = seededRandom(`year ${seed}`);
  const random = seededRandom(`year ${seed} ${run}`);
  const within = (low: number, high: number): number => low + (high - low) * house.uniform();
  const base = within(5, 12);
  const [weekend, winterLamps] = [within(0, 0.25), within(0.03, 0.15)];
  const [memory, spread] = [within(0.5, 0.9), within(0.1, 0.25)];
  const slowSpread = within(0, 0.06);
  const away = Math.floor(350 * random.uniform());
  const awayDays = Math.floor(within(4, 16));
  const loss = 24 * within(0.1, 0.25);
  const balanceC = within(13.5, 16.5);
  const peak = within(24, 32);
  const night = within(8, 14);
  const exportRate = within(4, 15);
  const has = (what: string): boolean => kind.includes(what);
  const kwp = has('solar') ? within(2, 5) : 0;
  const batteryKwh = has('battery') ? within(4, 10) : 0;
  const nightShare = within(0.15, 0.35);
  const carKwh = kind === 'car' ? within(4, 12) : 0;
  let habit = random.normal();
  let slow = random.normal();
  let carThisWeek = 1;
  return days.map(({ serialDay, meanC, sky }, d) => {
    habit = memory * habit + Math.sqrt(1 - memory ** 2) * random.normal();
    slow = 0.99 * slow + Math.sqrt(1 - 0.99 ** 2) * random.normal();
    const season = Math.cos((2 * Math.PI * (serialDay - 45_647)) / DAY_MS);
    const isWeekend = serialDay % 7 < 2;
    if (serialDay % 7 === 2) carThisWeek = Math.max(0, 1 + 0.35 * random.normal());
    const isAway = d >= away && d < away + awayDays;
    let home =
      base *
      (1 + (isWeekend ? weekend : 0)) *
      (1 + winterLamps * season) *
      Math.max(0.3, 1 + spread * habit + slowSpread * slow);
    if (isAway) home *= 0.35;
    const heat = loss * Math.max(0, balanceC - meanC) * Math.max(0.4, 1 + 0.08 * random.normal());
    if (kind === 'electric heating') home += heat;
    if (has('heat pump')) home += heat / Math.max(1.8, 3.4 + 0.07 * (meanC - 7)) + 1.5;
    const car = isAway ? 0 : carKwh * carThisWeek * (1 + 0.012 * Math.max(0, 15 - meanC));
    const sun =
      kwp * (2.9 - 2.3 * season) * (CLEARNESS[sky] ?? 0.4) * Math.max(0.2, 1 + 0.2 * random.normal()) * 1.3;
    // What of the sun is used at once, what the battery keeps, what the battery takes by night.
    const direct = Math.min(sun * 0.4, home * 0.45);
    const kept = Math.min(batteryKwh, sun - direct, home - direct);
    const sold = sun - direct - kept;
    const rest = home - direct - kept * 0.9;
    const shifted = batteryKwh > 0 ? Math.min(Math.max(0, batteryKwh - kept), rest * 0.8) : 0;
    const byNight = rest * nightShare + shifted * (1 - nightShare) + car;
    return (
      ((rest + car - byNight) * peak + byNight * night * (shifted > 0 ? 1.1 : 1) - sold * exportRate) / 100
    );
  });
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
