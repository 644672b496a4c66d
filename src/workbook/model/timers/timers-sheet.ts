import { TIMER_CAUTIONS } from '../../../timers/cautions.js';
import { cellAt, fixedCell } from '../../cell-address.js';
import { fieldPairs, listFields } from '../../fields/field.js';
import {
  FIRST_TIMER_ROW,
  TIMER_COLUMN,
  TIMER_FIELDS,
  TIMER_FLAG_COLUMN,
  TIMER_RULES,
} from '../../fields/timer-fields.js';
import type { StoredTimerResults } from '../../inputs/stored-timers.js';
import type { TimerCells } from '../../inputs/timer-cells.js';
import { SHEETS } from '../../layout.js';
import { STATUS } from '../battery/battery-status.js';
import { timersYearBlankFormula } from '../battery/year-figures.js';
import type { Book } from '../book.js';
import { cellNamed, formula, label } from '../cells.js';
import { fieldInput } from '../field-input.js';
import { periodRef } from '../period-line.js';
import { ref } from '../references.js';
import { dateText, tariffRow } from '../sentences.js';
import type { Cell, ConditionalStyle, SheetModel } from '../sheet-model.js';
import { TARIFF_ROW } from '../tariff-rows.js';
import { timerBatteryCells } from './timer-battery.js';
import { timerLimitCells } from './timer-limits.js';
import {
  KWH_TABLE,
  TIMER_LAST_LETTERS,
  TIMER_PLACE_NAME,
  TIMER_PRINT_LETTERS,
  TIMER_TABLE,
  TIMER_WORDS_LETTERS,
  timerCell,
  timerRange,
  UTC_HOURS_NAME,
} from './timer-places.js';
import { timerTableCells } from './timer-table.js';
import { timerWordCells } from './timer-words.js';

/** What the figures of the second table are, and where they are blank. */
const KWH_HINTS = [
  'Costs are a load’s kWh at the unit rates: sun and battery are left out. Its cheapest: each night’s kWh in the cheapest half-hours of its hours, up to its power.',
  'A night that can’t be told counts as it is; none of them told: blank. Those of hours that take in noon can’t be, nor those in which windows add to a half-hourly price.',
  'The cheapest hours of a usual day (a week’s mean at the rates of the last day): the longest stretch at the lowest rate; by a half-hourly price, that at the lowest mean of both.',
] as const;

/** Of which clock the cheapest hours are, where windows run by UTC: they are others in the other half of the year. */
function utcHoursFormula({ workings: { calendar } }: Book): string {
  const lastDay = ref(calendar.lastDay);
  const runByUtc = `SUMPRODUCT((${tariffRow(TARIFF_ROW.clock)}="UTC")*(${tariffRow(TARIFF_ROW.name)}<>""))`;
  return `IF(COUNT(${lastDay})*${runByUtc}=0,"","Where windows run by UTC, hours are by the clock of "&${dateText(lastDay)}&", the last day.")`;
}

/** Inputs with what each is, and right of all a flag for each of their rules. */
function inputCells(start: TimerCells): Cell[] {
  const seen = new Set<number>();
  const rowLabels = listFields(TIMER_FIELDS).flatMap(({ spec, cell }) => {
    const { row } = cell.place;
    if (seen.has(row)) return [];
    seen.add(row);
    return [label(`B${row}`, spec.label, 'label'), label(`E${row}`, spec.unit, 'unitBeside')];
  });
  return [
    label(`B${FIRST_TIMER_ROW - 1}`, 'What may run when', 'section'),
    label(cellAt(TIMER_COLUMN.car, FIRST_TIMER_ROW - 1), 'Car', 'header'),
    label(cellAt(TIMER_COLUMN.hotWater, FIRST_TIMER_ROW - 1), 'Hot water', 'header'),
    label(`E${FIRST_TIMER_ROW - 1}`, '', 'section'),
    ...fieldPairs(TIMER_FIELDS, start).map(([field, value]) => fieldInput(field, value)),
    ...rowLabels,
    label(cellAt(TIMER_FLAG_COLUMN, FIRST_TIMER_ROW - 1), 'Flags: 1 where an input can’t be used', 'hint'),
    ...Object.values(TIMER_RULES).flatMap((rules, k) =>
      rules.map(({ is }, i) => formula(cellAt(TIMER_FLAG_COLUMN + k, FIRST_TIMER_ROW + i), is, 'integer')),
    ),
  ];
}

/** Timers of the car and of the hot water: what moving their use changes on every tariff. */
export function timersSheet(book: Book, start: TimerCells, stored: StoredTimerResults): SheetModel {
  const cautions = KWH_TABLE.end + 3;
  const limits = timerLimitCells(book);
  const words = timerWordCells(book);
  const aboveSupply = cellNamed(limits, 'car_half_hours_above_supply');
  const place = fixedCell(cellNamed(words, TIMER_PLACE_NAME));
  return {
    name: SHEETS.timers,
    tab: 'input',
    widths: {
      A: 3,
      B: 27,
      ...Object.fromEntries([...'CDEFGHIJKLM'].map((letters) => [letters, 12])),
      E: 14,
      G: 14,
      M: 15,
      [TIMER_PRINT_LETTERS]: 8,
      [TIMER_WORDS_LETTERS]: 60,
      ...Object.fromEntries(['Y', 'Z', 'AA', 'AB', 'AC', 'AD'].map((letters) => [letters, 18])),
    },
    heights: { 2: 80, [TIMER_TABLE.header]: 48, [KWH_TABLE.header]: 48 },
    freeze: { columns: 0, rows: 3 },
    protected: true,
    landscape: true,
    printArea: `A1:${TIMER_PRINT_LETTERS}${cautions + TIMER_CAUTIONS.length}`,
    cells: [
      label('A1', 'Timers', 'title'),
      ...words,
      label(
        'A3',
        'Moves kWh, night by night from noon to noon, into the hours in which it may run, from their start on. With a timer on, every total of the workbook is with it.',
        'hint',
      ),
      ...inputCells(start),
      ...limits,
      ...timerTableCells(book),
      ...timerBatteryCells(book, stored),
      label(
        `B${TIMER_TABLE.last + 1}`,
        'With battery: the timers that are on; while none is, those whose hours are typed. A fill stores it, for it takes the battery’s year with them and without.',
        'hint',
      ),
      formula(
        `B${TIMER_TABLE.last + 2}`,
        timersYearBlankFormula(periodRef(book, book.workings.months.metered)),
        'hint',
        { name: 'timers_year_blank_words' },
      ),
      formula(`B${KWH_TABLE.end + 1}`, utcHoursFormula(book), 'hint', { name: UTC_HOURS_NAME }),
      ...KWH_HINTS.map((text, i) => label(`B${KWH_TABLE.last + 1 + i}`, text, 'hint')),
      label(`B${cautions - 1}`, 'Caution', 'section', {
        mergeTo: `${TIMER_LAST_LETTERS}${cautions - 1}`,
      }),
      ...TIMER_CAUTIONS.map((text, i) =>
        label(`B${cautions + i}`, text, 'labelWrap', { mergeTo: `${TIMER_LAST_LETTERS}${cautions + i}` }),
      ),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      { range: `${aboveSupply}:${aboveSupply}`, formula: `SUM(${fixedCell(aboveSupply)})>0`, style: 'bad' },
      {
        range: timerRange('batteryStatus'),
        formula: `$${timerCell('batteryStatus', 0)}="${STATUS.stale}"`,
        style: 'bad',
      },
      ...[TIMER_TABLE, KWH_TABLE].map(
        ({ first, last, lastLetters }): ConditionalStyle => ({
          range: `B${first}:${lastLetters}${last}`,
          formula: `AND($B${first}<>"",ROW($B${first})-${first - 1}=${place})`,
          style: 'best',
        }),
      ),
    ],
  };
}
