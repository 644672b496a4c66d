import type { Style } from 'exceljs';
import { beforeAll, describe, expect, it } from 'vitest';
import { formatTimers } from '../../../src/cli/format-timers.js';
import { TIMER_CAUTIONS } from '../../../src/timers/cautions.js';
import { movedLoad } from '../../../src/timers/moved-load.js';
import type { CellValue } from '../../../src/workbook/fields/cell-value.js';
import type { TimerCells } from '../../../src/workbook/inputs/timer-cells.js';
import { blankTimerCells } from '../../../src/workbook/inputs/timer-cells.js';
import type { WorkbookInputs } from '../../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { STYLES } from '../../../src/workbook/look/styles.js';
import { textWidthPixels } from '../../../src/workbook/look/text-width.js';
import { YEAR_BLANK } from '../../../src/workbook/model/battery/year-figures.js';
import {
  TIMER_PRINT_LETTERS,
  TIMER_WORDS_NAME,
  type TimerColumn,
  timerCell,
} from '../../../src/workbook/model/timers/timer-places.js';
import { workbookModel } from '../../../src/workbook/model/workbook-model.js';
import type { WorkbookValues } from '../../../src/workbook/workbook-values.js';
import { inputsOf, smallMonth, workedOut } from '../small-month.js';

const car = (isOn: string, from = 21, to = 7): TimerCells => ({
  ...blankTimerCells(),
  car: { isOn, from: from / 24, to: to / 24, powerKw: 7.2 },
});

/** More was metered in its hours than they hold at this power: nothing can be moved. */
const stuck = (isOn: string): TimerCells => ({
  ...blankTimerCells(),
  car: { isOn, from: 0, to: 23.5 / 24, powerKw: 0.05 },
});

/** Of a screen of 1366 pixels, what the numbers of the rows leave. */
const SCREEN_PIXELS = 1340;

let small: ReturnType<typeof inputsOf>;
const withTimers = (timers: TimerCells, also: Partial<WorkbookInputs> = {}): WorkbookValues =>
  workedOut(small, (inputs) => ({ ...inputs, ...also, timers }));
beforeAll(async () => {
  small = inputsOf(await smallMonth());
}, 240_000);

/** Every value of the formulas of some sheets. */
function valuesOf({ inputs, book, calculated }: WorkbookValues, sheets: readonly string[]): unknown[] {
  return workbookModel(inputs, book)
    .filter(({ name }) => sheets.includes(name))
    .flatMap(({ name, cells }) =>
      cells.filter(({ kind }) => kind === 'formula').map(({ at }) => [name, at, calculated.at(name, at)]),
    );
}

describe('the sheet of timers', () => {
  it('changes nothing anywhere while no timer is on: every figure is the same to the last bit', () => {
    const sheets = [SHEETS.answer, SHEETS.tariffs, SHEETS.battery, SHEETS.bills, SHEETS.heating, SHEETS.when];
    expect(valuesOf(withTimers(car('no')), sheets)).toEqual(valuesOf(withTimers(blankTimerCells()), sheets));
  });

  it('says what is missing, then what could be saved, then what is saved', () => {
    const words = (timers: TimerCells): string =>
      String(withTimers(timers).calculated.named(TIMER_WORDS_NAME));
    expect(words(blankTimerCells())).toMatch(/^Type when the car may run/);
    expect(words(car('no'))).toMatch(/^On .*, the car took its energy at .* as metered\./);
    expect(words(car('yes'))).toMatch(/^On .*, the timers make the period .* (cheaper|dearer)\./);
  });

  it.each([
    [0, 24],
    [7, 23],
  ])('tells no least for hours that take in noon, %i to %i, and says so', (from, to) => {
    const values = withTimers(car('no', from, to));
    small.inputs.tariffs.forEach(({ name }, t) => {
      if (name === null) return;
      for (const key of ['carLeast', 'carCould'] as const) {
        expect(values.calculated.at(SHEETS.timers, timerCell(key, t))).toBe('');
      }
    });
    const words = String(values.calculated.named(TIMER_WORDS_NAME));
    expect(words).toContain('Of hours that take in noon the least is not told');
    expect(words).not.toContain('Nothing cheaper');
    expect(formatTimers(values).replaceAll(/\s+/g, ' ')).toContain('hours that take in noon');
  });

  it('says of how many sessions the least is not told, and never that nothing is cheaper for all', () => {
    const { calculated } = withTimers(car('no'));
    const untold = Number(calculated.named('car_sessions_not_told'));
    // The night of the change of the clock is one of them.
    expect(untold).toBeGreaterThan(0);
    expect(String(calculated.named(TIMER_WORDS_NAME))).toContain(
      `${untold} of ${calculated.named('car_sessions_in_period')} `,
    );
  });

  it('tells the least night by night and the stretch of the clock apart, on today’s tariff', () => {
    let told = 0;
    small.inputs.tariffs.forEach(({ name, halfHourlyPriced }, t) => {
      if (name === null) return;
      const { calculated } = withTimers(car('no'), { todaysTariff: name });
      const words = String(calculated.named(TIMER_WORDS_NAME));
      expect(words).not.toContain('That beats');
      if (Number(calculated.at(SHEETS.timers, timerCell('carCould', t))) < 0.005) {
        expect(words).not.toMatch(/stretch|At that least/);
        return;
      }
      told++;
      expect(words).toMatch(/The least that its hours allow is \S+ less, \S+ p\/kWh, night by night/);
      expect(words).toMatch(/stretch(: | by mean price: )\d\d:\d\d to \d\d:\d\d\./);
      expect(words.includes('known only afterwards')).toBe(halfHourlyPriced === 'yes');
    });
    expect(told).toBeGreaterThan(0);
  });

  it('tells the least of hot water on today’s tariff, with the car and alone', () => {
    const water = (isOn: string, of: TimerCells): TimerCells => ({
      ...of,
      hotWater: { isOn, from: 22 / 24, to: 7 / 24, powerKw: 3 },
      tank: { kwhPerDay: 3, from: 16 / 24, to: 20 / 24 },
    });
    const today = small.inputs.tariffs.findIndex(({ name }) => name === small.inputs.todaysTariff);
    for (const [isOn, of] of [
      ['no', car('no')],
      ['yes', blankTimerCells()],
    ] as const) {
      const { calculated } = withTimers(water(isOn, of));
      const at = (key: TimerColumn): unknown => calculated.at(SHEETS.timers, timerCell(key, today));
      const [pays, least] = [at('waterPays'), at('waterLeast')].map(Number);
      expect(least).toBeLessThan(pays ?? Number.NaN);
      const further = isOn === 'yes' ? 'a further ' : '';
      expect(String(calculated.named(TIMER_WORDS_NAME))).toContain(
        `For hot water the least is ${further}£${Number(at('waterCould')).toFixed(2)} less, ${least?.toFixed(1)} p/kWh; its longest cheap stretch: ${at('waterHours')}.`,
      );
    }
  });

  it('tells no least where windows add to a half-hourly price, and says so', () => {
    const followed = small.inputs.tariffs.findIndex(({ halfHourlyPriced }) => halfHourlyPriced === 'yes');
    // Cheap in every night.
    const windowed = small.inputs.tariffs.find(({ windows }) => windows[0]?.from !== null);
    const tariffs = small.inputs.tariffs.map((tariff, t) =>
      t === followed
        ? {
            ...tariff,
            windows: windowed?.windows ?? [],
            periods: tariff.periods.map((period, p) =>
              p === 0 ? { ...period, windowRates: windowed?.periods[0]?.windowRates ?? [] } : period,
            ),
          }
        : tariff,
    );
    const of = (also: Partial<WorkbookInputs>) =>
      withTimers(car('no'), { todaysTariff: tariffs[followed]?.name ?? null, ...also }).calculated;
    const [plain, added] = [of({}), of({ tariffs })];
    expect(Number(plain.at(SHEETS.timers, timerCell('carLeast', followed)))).toBeGreaterThan(0);
    expect(added.at(SHEETS.timers, timerCell('carLeast', followed))).toBe('');
    expect(added.at(SHEETS.timers, timerCell('carHours', followed))).toMatch(/^\d\d:\d\d to \d\d:\d\d$/);
    const words = 'windows add to a half-hourly price the least is not told';
    expect(String(added.named(TIMER_WORDS_NAME))).toContain(words);
    expect(String(plain.named(TIMER_WORDS_NAME))).not.toContain(words);
  });

  it('does not ask for today’s tariff where it is chosen and has no total', () => {
    const [{ name }] = small.inputs.tariffs as [(typeof small.inputs.tariffs)[number]];
    const missing = (todaysTariff: CellValue): string =>
      String(
        withTimers(car('no'), {
          todaysTariff,
          tariffs: small.inputs.tariffs.map((tariff) =>
            tariff.name === name ? { ...tariff, clock: null } : tariff,
          ),
        }).calculated.named(TIMER_WORDS_NAME),
      );
    expect(missing(null)).toMatch(/^Choose today’s tariff/);
    expect(missing(name)).toBe(
      `${name}, today’s tariff, has no total, so that nothing is told of timers: see Tariffs.`,
    );
  });

  it('checks the supply with the battery charging at full power where it may charge from the grid', () => {
    const timers = { ...car('yes'), supply: { limitKw: 9 } };
    const of = (chargeFromGrid: string) =>
      withTimers(timers, { battery: { ...small.inputs.battery, chargeFromGrid } }).calculated;
    const [alone, beside] = [of('no'), of('yes')];
    const largest = (values: typeof alone): number => Number(values.named('car_largest_import_kw'));
    const chargeKw = Number(beside.named('charge_kW'));
    expect(chargeKw).toBeGreaterThan(0);
    expect(largest(beside)).toBeCloseTo(largest(alone) + chargeKw, 9);
    expect(Number(beside.named('car_half_hours_above_supply'))).toBeGreaterThan(
      Number(alone.named('car_half_hours_above_supply')),
    );
    expect(beside.at(SHEETS.timers, 'M6')).toContain('battery charging');
    expect(alone.at(SHEETS.timers, 'M6')).toContain('without battery');
  });

  it('counts nothing above the supply in half-hours that were not metered', () => {
    // The battery alone draws more than the supply carries.
    const { calculated } = withTimers({ ...car('no'), supply: { limitKw: 0.1 } });
    expect(calculated.named('car_half_hours_above_supply')).toBe(calculated.named('period_metered'));
  });

  it('counts a session that can’t be moved as neither short nor too much for its hours', () => {
    const { calculated } = withTimers(stuck('yes'));
    const count = (name: string): number => Number(calculated.named(`car_${name}`));
    expect(count('sessions')).toBeGreaterThan(0);
    expect(count('sessions_unmoved')).toBe(count('sessions'));
    expect(calculated.named('car_sessions_short')).toBe(0);
    expect(calculated.named('car_not_fitting')).toBe(0);
  });

  it('counts what does not fit as the library does', () => {
    const powerKw = 3;
    const { calculated, inputs } = withTimers({
      ...blankTimerCells(),
      car: { isOn: 'yes', from: 12.5 / 24, to: 14 / 24, powerKw },
    });
    const { startSerial, values, count } = inputs.readings;
    const { staysKwh, shortSessions, sessions } = movedLoad(
      {
        localSerial: startSerial.slice(0, count),
        loadKwh: values.carKwh.slice(0, count).map((kwh) => (Number.isNaN(kwh) ? 0 : kwh)),
      },
      { isOn: true, hours: { fromMinutes: 750, toMinutes: 840 }, powerKw },
    );
    expect(staysKwh).toBeGreaterThan(0);
    expect(Number(calculated.named('car_sessions_unmoved'))).toBe(0);
    expect(Number(calculated.named('car_sessions'))).toBe(sessions);
    expect(Number(calculated.named('car_sessions_short'))).toBe(shortSessions);
    expect(Number(calculated.named('car_not_fitting'))).toBeCloseTo(staysKwh, 9);
  });

  it('says that timers that move nothing change nothing', () => {
    const of = (isOn: string) => String(withTimers(stuck(isOn)).calculated.named(TIMER_WORDS_NAME));
    expect(of('yes')).toContain('without battery, the timers change nothing.');
    expect(of('no')).not.toContain('change nothing');
  });

  it('tells hours of hot water only where there are some', () => {
    const values = withTimers({
      ...blankTimerCells(),
      hotWater: { isOn: 'no', from: 2 / 24, to: 3 / 24, powerKw: 3 },
      tank: { kwhPerDay: 6, from: 16 / 24, to: 20 / 24 },
    });
    const followed = small.inputs.tariffs.findIndex(({ halfHourlyPriced }) => halfHourlyPriced === 'yes');
    const said = withTimers(values.inputs.timers, {
      todaysTariff: small.inputs.tariffs[followed]?.name ?? null,
    }).calculated;
    expect(Number(said.named('water_could_save'))).toBeGreaterThan(0);
    expect(said.at(SHEETS.timers, timerCell('waterHours', followed))).toBe('');
    expect(String(said.named(TIMER_WORDS_NAME))).toContain('For hot water the least is');
    expect(String(said.named(TIMER_WORDS_NAME))).not.toContain(': .');
  });

  it('tells a year’s saving from a year’s readings alone, and says why it is blank', () => {
    const { calculated } = withTimers(car('yes'));
    expect(calculated.at(SHEETS.timers, timerCell('savedYear', 0))).toBe('');
    expect(calculated.named('timers_year_blank_words')).toBe(YEAR_BLANK.timersTooShort);
  });

  it('is told in the terminal within 80 columns, and not where nothing is to be moved', () => {
    expect(formatTimers(withTimers(blankTimerCells()))).toBe('');
    const lines = formatTimers(withTimers(car('yes'))).split('\n');
    expect(lines.filter((line) => line.length > 80)).toEqual([]);
    expect(lines.join(' ')).toContain('legionella');
    // With the timer off there is no column of savings that would say 0.00 of every tariff.
    const heading = (isOn: 'yes' | 'no') =>
      formatTimers(withTimers(car(isOn)))
        .split('\n')
        .find((line) => line.startsWith('Timers '));
    expect(heading('yes')).toContain('Saved');
    expect(heading('no')).toContain('Cheapest');
    expect(heading('no')).not.toContain('Saved');
    const named = small.inputs.tariffs.filter(({ name }) => name !== null);
    expect(lines.filter((line) => /\d\d:\d\d to \d\d:\d\d$/.test(line))).toHaveLength(named.length);
  });

  it('has the bill as metered beside that with the timers, and says so on the answer', () => {
    const [off, on] = [withTimers(car('no')), withTimers(car('yes'))];
    small.inputs.tariffs.forEach(({ name }, t) => {
      if (name === null) return;
      const at = ({ calculated }: WorkbookValues, key: TimerColumn) =>
        calculated.at(SHEETS.timers, timerCell(key, t));
      expect(at(on, 'asMetered')).toBe(at(off, 'withTimers'));
      expect(at(off, 'saved')).toBe(typeof at(off, 'asMetered') === 'number' ? 0 : '');
      // The hours begin at 21:00, and those that are cheapest lie within them.
      const [least, pays] = [at(on, 'carLeast'), at(on, 'carPays')];
      expect(typeof least).toBe(typeof at(on, 'asMetered'));
      expect(typeof pays).toBe(typeof least);
      if (typeof least === 'number') expect(least).toBeLessThan(Number(pays) + 1e-9);
    });
    expect(String(on.calculated.named('answer_sentence'))).toContain('with the timers');
    expect(String(off.calculated.named('answer_sentence'))).not.toContain('with the timers');
  });

  it('fits a screen of 1366 pixels beside the numbers of its rows, hints and labels too', () => {
    const sheet = workbookModel(small.inputs, small.book).find(({ name }) => name === SHEETS.timers);
    const columns = [...'ABCDEFGHIJKLMN'];
    expect(columns.at(-1)).toBe(TIMER_PRINT_LETTERS);
    const widths = columns.map((letters) => (sheet?.widths[letters] ?? Number.NaN) * 7 + 5);
    const startOf = (letters: string): number =>
      widths.slice(0, columns.indexOf(letters)).reduce((sum, width) => sum + width, 0);
    const printedPixels = widths.reduce((sum, width) => sum + width, 0);
    expect(printedPixels).toBeLessThanOrEqual(SCREEN_PIXELS);
    const wide = (sheet?.cells ?? []).flatMap((cell) => {
      const letters = cell.at.replace(/\d+$/, '');
      if (cell.kind !== 'label' || typeof cell.value !== 'string' || !columns.includes(letters)) return [];
      const { font, alignment }: Partial<Style> = STYLES[cell.style];
      if (alignment?.wrapText === true) return [];
      const lettering = { size: font?.size ?? 10, bold: font?.bold === true };
      const end = Math.round(startOf(letters) + textWidthPixels(cell.value, lettering));
      return end > printedPixels ? [`${cell.at} ends at ${end}: ${cell.value}`] : [];
    });
    expect(wide).toEqual([]);
  });

  it('has its cautions among those of the notes', () => {
    const notes = workbookModel(small.inputs, small.book).find(({ name }) => name === SHEETS.notes);
    const texts = notes?.cells.flatMap((cell) => (cell.kind === 'label' ? [cell.value] : []));
    for (const caution of TIMER_CAUTIONS.slice(1)) expect(texts).toContain(caution);
  });
});

describe('the cheapest hours of a tariff whose windows run by UTC', () => {
  const withClock = (clock: string): WorkbookValues =>
    withTimers(car('no'), { tariffs: small.inputs.tariffs.map((tariff) => ({ ...tariff, clock })) });

  it('are said to be by the clock of the last day, on the sheet and in the terminal', () => {
    const values = withClock('UTC');
    const said = values.calculated.at(SHEETS.timers, 'B42');
    expect(said).toBe('Where windows run by UTC, hours are by the clock of 31 Oct 2026, the last day.');
    expect(formatTimers(values).replaceAll('\n', ' ')).toContain(said);
  });

  it('need no such words where all windows are by the home’s clock', () => {
    expect(withClock('local').calculated.at(SHEETS.timers, 'B42')).toBe('');
  });
});
