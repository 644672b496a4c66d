import { beforeAll, describe, expect, it } from 'vitest';
import type { Calculated } from '../../src/workbook/calculate.js';
import { fillWorkbook } from '../../src/workbook/fill/fill-workbook.js';
import { FIRST_ROW, SHEETS } from '../../src/workbook/layout.js';
import { WHEN_MAPS } from '../../src/workbook/model/when-sheet.js';
import { SEASONS, WHEN_LETTERS } from '../../src/workbook/model/when-workings.js';
import { CellError } from '../../src/workbook/package/index.js';
import { inputsOf, smallMonth, smallTemplate, workedOut } from './small-month.js';
import { imported, NOW, octoberCsv } from './template.js';

const HOURS = Array.from({ length: 24 }, (_, hour) => hour);

type Kind = 'import' | 'export';

/** kWh of each half-hour from midnight, as time goes by, day after day, straight from the file. */
function daysOfFile(kind: Kind): number[][] {
  const [header = '', ...rows] = octoberCsv().trimEnd().split('\n');
  const column = header.split(',').indexOf(`${kind} kWh`);
  const days = new Map<string, number[]>();
  for (const row of rows) {
    const cells = row.split(',');
    const day = cells[0]?.slice(0, 10) ?? '';
    days.set(day, [...(days.get(day) ?? []), Number(cells[column])]);
  }
  return [...days.values()];
}

describe('When', () => {
  let calculated: Calculated;
  const value = (at: string): unknown => calculated.at(SHEETS.when, at);
  beforeAll(async () => {
    calculated = workedOut(inputsOf(await smallMonth())).calculated;
  });

  it.each(['import', 'export'] as const)(
    'maps the %s of each hour of the average day of the month, whose clock does not change',
    (kind) => {
      const all = daysOfFile(kind);
      const days = all.filter(({ length }) => length === 48);
      expect(days).toHaveLength(all.length - 1);
      for (const hour of HOURS) {
        const kwh = days.reduce((sum, day) => sum + (day[2 * hour] ?? 0) + (day[2 * hour + 1] ?? 0), 0);
        const shown = value(`${WHEN_MAPS.letters(kind, 0)}${WHEN_MAPS.first + hour}`);
        expect(shown, String(hour)).toBeCloseTo(kwh / days.length, 9);
      }
    },
  );

  it('holds in its hours, times the days of 48 half-hours, all that they bought', () => {
    const ordinary = daysOfFile('import').filter(({ length }) => length === 48);
    const hours = HOURS.map((hour) =>
      Number(value(`${WHEN_MAPS.letters('import', 0)}${WHEN_MAPS.first + hour}`)),
    );
    const ofDay = hours.reduce((sum, kwh) => sum + kwh, 0);
    expect(ofDay * ordinary.length).toBeCloseTo(
      ordinary.flat().reduce((sum, kwh) => sum + kwh, 0),
      6,
    );
    expect(value('A2')).toContain('days with a clock change left out');
  });

  it('says when most is bought, and shows nothing for months that there are not', () => {
    expect(value('A3')).toMatch(/^On the average day most is bought \d\d:00–\d\d:00 \(\d+\.\d\d kWh\)/);
    expect(value(`${WHEN_MAPS.letters('import', 1)}${WHEN_MAPS.first}`)).toBe('');
    expect(value(`${WHEN_MAPS.letters('import', 0)}${WHEN_MAPS.first - 1}`)).toBe('Oct 2026');
  });

  it('has a line for the season of the month and no point for the others', () => {
    const at = (season: number): unknown =>
      calculated.at(SHEETS.profile, `${WHEN_LETTERS.season(season)}${FIRST_ROW}`);
    const own = SEASONS.indexOf('Sep–Nov');
    expect(at(own)).toBeCloseTo(
      Number(calculated.at(SHEETS.profile, `${WHEN_LETTERS.import(0)}${FIRST_ROW}`)),
      12,
    );
    for (const season of SEASONS.keys()) if (season !== own) expect(at(season)).toBeInstanceOf(CellError);
  });

  it('averages an hour over the months that have it', async () => {
    // 20 to 31 October, 1 kWh a half-hour, and 1 to 5 November, 3 kWh, without the hour from 03:00.
    const rows = Array.from({ length: 17 }, (_, day) => new Date(Date.UTC(2026, 9, 20 + day))).flatMap(
      (day) =>
        Array.from({ length: 48 }, (_, slot) => {
          const isNovember = day.getUTCMonth() === 10;
          if (isNovember && Math.floor(slot / 2) === 3) return [];
          const time = `${String(Math.floor(slot / 2)).padStart(2, '0')}:${slot % 2 === 0 ? '00' : '30'}`;
          return [`${day.toISOString().slice(0, 10)} ${time},${isNovember ? 3 : 1}`];
        }).flat(),
    );
    const csv = ['Start (UTC),Import (kWh)', ...rows, ''].join('\n');
    const { bytes } = fillWorkbook(await smallTemplate(), 'home.xlsx', imported({ 'autumn.csv': csv }), {
      now: NOW,
    });
    const { calculated: autumn } = workedOut(inputsOf(bytes));
    const all = (hour: number): unknown =>
      autumn.at(SHEETS.when, `${WHEN_MAPS.average('import')}${WHEN_MAPS.first + hour}`);
    expect(autumn.at(SHEETS.when, `${WHEN_MAPS.letters('import', 1)}${WHEN_MAPS.first + 3}`)).toBe('');
    expect(all(3)).toBeCloseTo(2, 9);
    expect(Number(all(12))).toBeGreaterThan(2.5);
    const season = SEASONS.indexOf('Sep–Nov');
    expect(autumn.at(SHEETS.profile, `${WHEN_LETTERS.season(season)}${FIRST_ROW + 6}`)).toBeCloseTo(1, 9);
  }, 120_000);

  it('says that there are no readings where there are none', async () => {
    const empty = workedOut(inputsOf(await smallTemplate())).calculated;
    expect(empty.at(SHEETS.when, 'A3')).toBe('No readings in the chosen period yet.');
  });
});
