import { MAX_WINDOWS } from '../../tariffs/tariff.js';
import { DAY_NAMES } from '../../tariffs/weekdays.js';
import { absolute } from '../cell-address.js';
import { SHEETS, TARIFF_COUNT, WEEK_SLOTS } from '../layout.js';
import { formula, label, quoted } from './cells.js';
import { sheetTop } from './column-headers.js';
import type { Cell, FormulaColumn, SheetModel } from './sheet-model.js';
import { TARIFF_ROW, tariffLetters, windowRows } from './tariff-rows.js';
import { coverCountLetters, coverLetters, WINDOWS, windowLimitRow } from './windows-rows.js';

const tariffs = (): number[] => Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);
const windows = (): number[] => Array.from({ length: MAX_WINDOWS }, (_, window) => window);

/** The days text without what may stand in it, upper case, so that blanks and letter case do not matter. */
export function daysText(cell: string): string {
  return `SUBSTITUTE(UPPER(${cell})," ","")`;
}

function limitCells(tariff: number): Cell[] {
  const c = tariffLetters(tariff);
  const typed = (row: number): string => absolute(SHEETS.tariffs, c, row);
  return windows().flatMap((window) => {
    const rows = windowRows(window);
    const first = windowLimitRow(window);
    const days = daysText(typed(rows.days));
    return [
      formula(
        `${c}${first}`,
        `IF(ISNUMBER(${typed(rows.from)}),ROUND(${typed(rows.from)}*48,0),-1)`,
        (r) => r.tariffs[tariff]!.rates.windowFromSlot[window]!,
        'integer',
      ),
      formula(
        `${c}${first + 1}`,
        `IF(ISNUMBER(${typed(rows.from)}),ROUND(SUM(${typed(rows.to)})*48,0),-1)`,
        (r) => r.tariffs[tariff]!.rates.windowToSlot[window]!,
        'integer',
      ),
      ...DAY_NAMES.map((name, day) =>
        formula(
          `${c}${first + 2 + day}`,
          `IF(${daysUnreadable(typed(rows.days))},0,IF(OR(${days}="",${days}="EVERYDAY",${days}=${quoted(day < 5 ? 'MON-FRI' : 'SAT-SUN')},ISNUMBER(SEARCH(${quoted(name)},${days}))*ISERROR(SEARCH("-",${days}))),1,0))`,
          (r) => r.tariffs[tariff]!.rates.windowDays[window]![day]!,
          'integer',
        ),
      ),
    ];
  });
}

/** Whether a days cell says something that is neither a known range nor a list of day names. */
export function daysUnreadable(cell: string): string {
  const days = daysText(cell);
  const withoutNames = DAY_NAMES.reduce(
    (text, name) => `SUBSTITUTE(${text},${quoted(name.toUpperCase())},"")`,
    `SUBSTITUTE(${days},",","")`,
  );
  return `AND(${days}<>"",${days}<>"EVERYDAY",${days}<>"MON-FRI",${days}<>"SAT-SUN",${withoutNames}<>"")`;
}

function weekColumns(): FormulaColumn[] {
  const column = (
    letters: string,
    labelText: string,
    unit: string,
    description: string,
    text: FormulaColumn['formula'],
    values: FormulaColumn['values'],
  ): FormulaColumn => ({
    letters,
    firstRow: WINDOWS.firstSlot,
    rows: WEEK_SLOTS,
    label: labelText,
    unit,
    description,
    style: 'integer',
    formula: text,
    values,
  });
  const bands = tariffs().map((tariff) =>
    column(
      tariffLetters(tariff),
      `Band, tariff ${tariff + 1}`,
      '0 base, 1–4 window',
      'Which of the tariff’s rates holds in this half-hour of the week',
      (row) =>
        // The last window named wins, as in the library's grid; overlaps are counted by the checks.
        windows().reduce(
          (rest, window) => `IF($${coverLetters(tariff, window)}${row}=1,${window + 1},${rest})`,
          '0',
        ),
      (r) => r.tariffs[tariff]!.rates.band,
    ),
  );
  const counts = tariffs().map((tariff) =>
    column(
      coverCountLetters(tariff),
      `Windows here, tariff ${tariff + 1}`,
      'count',
      'How many of the tariff’s windows cover this half-hour; two is an overlap',
      (row) => `SUM($${coverLetters(tariff, 0)}${row}:$${coverLetters(tariff, MAX_WINDOWS - 1)}${row})`,
      (r) => r.tariffs[tariff]!.rates.coverCount,
    ),
  );
  const covers = tariffs().flatMap((tariff) =>
    windows().map((window) =>
      column(
        coverLetters(tariff, window),
        `Tariff ${tariff + 1}, window ${window + 1}`,
        '1 or 0',
        '1 where the window covers this half-hour of the week; the part after midnight belongs to the day before',
        (row) => coverFormula(tariff, window, row),
        (r) => r.tariffs[tariff]!.rates.covers[window]!,
      ),
    ),
  );
  return [...bands, ...counts, ...covers];
}

function coverFormula(tariff: number, window: number, row: number): string {
  const c = tariffLetters(tariff);
  const first = windowLimitRow(window);
  const from = `$${c}$${first}`;
  const to = `$${c}$${first + 1}`;
  const days = `$${c}$${first + 2}:$${c}$${first + 8}`;
  const today = `INDEX(${days},$A${row}+1)`;
  const yesterday = `INDEX(${days},MOD($A${row}+6,7)+1)`;
  return (
    `IF(${from}<0,0,IF(${from}<${to},${today}*($B${row}>=${from})*($B${row}<${to}),` +
    `MAX(${today}*($B${row}>=${from}),${yesterday}*($B${row}<${to}))))`
  );
}

function headers(columns: readonly FormulaColumn[]): Cell[] {
  return columns.flatMap((c) => [
    label(`${c.letters}${WINDOWS.weekHeading}`, c.label, 'header'),
    label(`${c.letters}${WINDOWS.weekHeading + 1}`, c.unit, 'headerUnit'),
  ]);
}

/** Which band holds in each half-hour of the week, for every tariff. */
export function windowsSheet(): SheetModel {
  const columns = weekColumns();
  const limitLabels = windows().flatMap((window) => {
    const first = windowLimitRow(window);
    return [
      label(`A${first}`, `Window ${window + 1}, start`, 'label'),
      label(`B${first}`, 'half-hours after midnight', 'unit'),
      label(`A${first + 1}`, `Window ${window + 1}, end`, 'label'),
      label(`B${first + 1}`, 'half-hours after midnight', 'unit'),
      ...DAY_NAMES.flatMap((name, day) => [
        label(`A${first + 2 + day}`, `Window ${window + 1} starts on ${name}`, 'label'),
        label(`B${first + 2 + day}`, '1 or 0', 'unit'),
      ]),
    ];
  });
  const slots = Array.from({ length: WEEK_SLOTS }, (_, slot) => [
    label(`A${WINDOWS.firstSlot + slot}`, Math.floor(slot / 48), 'integer'),
    label(`B${WINDOWS.firstSlot + slot}`, slot % 48, 'integer'),
  ]).flat();
  return {
    name: SHEETS.windows,
    tab: 'workings',
    widths: { A: 26, B: 24, ...Object.fromEntries(columns.map((c) => [c.letters, 12])) },
    heights: { [WINDOWS.weekHeading]: 32, [WINDOWS.weekHeading + 1]: 32, [WINDOWS.name]: 32 },
    freeze: { columns: 2, rows: WINDOWS.name },
    protected: true,
    landscape: true,
    cells: [
      ...sheetTop(
        'Windows',
        'Workings: which band of each tariff holds in every half-hour of the week. Nothing to fill in.',
      ),
      label(`A${WINDOWS.name}`, 'Tariff', 'headerLeft'),
      label(`B${WINDOWS.name}`, 'unit', 'header'),
      ...tariffs().map((tariff) =>
        formula(
          `${tariffLetters(tariff)}${WINDOWS.name}`,
          `IF(${absolute(SHEETS.tariffs, tariffLetters(tariff), TARIFF_ROW.name)}="","",${absolute(SHEETS.tariffs, tariffLetters(tariff), TARIFF_ROW.name)})`,
          (r) => r.inputs.tariffs[tariff]!.name ?? '',
          'header',
        ),
      ),
      ...limitLabels,
      ...tariffs().flatMap(limitCells),
      label(`A${WINDOWS.weekHeading}`, 'Weekday', 'header'),
      label(`A${WINDOWS.weekHeading + 1}`, 'Monday 0 to Sunday 6', 'headerUnit'),
      label(`B${WINDOWS.weekHeading}`, 'Half-hour of the day', 'header'),
      label(`B${WINDOWS.weekHeading + 1}`, '0 starts at 00:00', 'headerUnit'),
      ...headers(columns),
      ...slots,
    ],
    formulaColumns: columns,
    inputColumns: [],
    conditional: [],
  };
}
