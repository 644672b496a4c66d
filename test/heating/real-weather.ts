import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { isoDateToSerial } from '../../src/time/serial.js';

const dataFile = (name: string): string =>
  readFileSync(new URL(`../../node_modules/vega-datasets/data/${name}`, import.meta.url), 'utf8');

/** One day of weather, °C. */
export interface WeatherDay {
  serialDay: number;
  maxC: number;
  minC: number;
}

/** Seattle, 2012 to 2015: daily maxima and minima by NOAA, public domain, in the npm package vega-datasets. */
export function seattleDays(): WeatherDay[] {
  const rows: Record<string, string>[] = parse(dataFile('seattle-weather.csv'), { columns: true });
  return rows.map((row) => ({
    serialDay: isoDateToSerial(row.date!),
    maxC: Number(row.temp_max),
    minC: Number(row.temp_min),
  }));
}

/** Seattle, an average year hour by hour (NOAA hourly normals, same package): whole days of 24 temperatures, °C. */
export function seattleNormalHours(): number[][] {
  const rows: Record<string, string>[] = parse(dataFile('seattle-weather-hourly-normals.csv'), {
    columns: true,
  });
  const byDay = new Map<string, number[]>();
  for (const row of rows) {
    const day = row.date!.slice(0, 10);
    byDay.set(day, [...(byDay.get(day) ?? []), Number(row.temperature)]);
  }
  return [...byDay.values()].filter((hours) => hours.length === 24);
}

/** A day's temperatures at the middles of even steps, swinging as a sine between minimum and maximum. */
export function sineDay({ maxC, minC }: WeatherDay, steps: number): number[] {
  const mean = (maxC + minC) / 2;
  const swing = (maxC - minC) / 2;
  return Array.from({ length: steps }, (_, i) => mean - swing * Math.cos((2 * Math.PI * (i + 0.5)) / steps));
}
