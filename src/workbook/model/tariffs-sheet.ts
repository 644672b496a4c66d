import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { columnLetters } from '../cell-address.js';
import { fieldPairs, listFields } from '../fields/field.js';
import { TARIFF_FIELDS, TODAYS_TARIFF } from '../fields/tariff-fields.js';
import type { TariffCells, WorkbookInputs } from '../inputs/workbook-inputs.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import type { StyleName } from '../look/styles.js';
import { askedLetters, askedRateCells } from './asked-rates.js';
import { batterySpan, type SpanOfTariff } from './battery/battery-span.js';
import type { Book } from './book.js';
import { formula, label, quoted } from './cells.js';
import { CELL } from './columns.js';
import { fieldInput } from './field-input.js';
import { homeCells } from './home-cells.js';
import { periodRef, tariffOf } from './period-line.js';
import { ref } from './references.js';
import { dateText } from './sentences.js';
import type { Cell, SheetModel } from './sheet-model.js';
import { flagCells, flagLetters } from './tariff-flags.js';
import {
  clearName,
  FIRST_TARIFF_LETTERS,
  HELPER_ROW as H,
  hasTotalName,
  LAST_TARIFF_LETTERS,
  LAST_TARIFF_ROW,
  pricedName,
  ratePeriodRows,
  TARIFF_ROW as T,
  TODAYS_IS_PRICED_NAME,
  TODAYS_PLACE_NAME,
  tariffInputRanges,
  tariffLetters,
  windowRows,
} from './tariff-rows.js';
import { worlds } from './worlds.js';

/** Results at the top of a tariff's column. */
function resultCells(book: Book, tariff: number, span: SpanOfTariff | undefined): Cell[] {
  const c = tariffLetters(tariff);
  const at = (row: number): string => `${c}$${row}`;
  const across = (row: number): string => `$${FIRST_TARIFF_LETTERS}$${row}:$${LAST_TARIFF_LETTERS}$${row}`;
  const name = at(T.name);
  const { months, batteryMonths } = tariffOf(book, tariff);
  if (span === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  const { withBattery } = worlds(book);
  const place = `$${FIRST_TARIFF_LETTERS}$${H.todaysPlace}`;
  const ofToday = (row: number): string => `INDEX(${across(row)},1,${place})`;
  const kwh = periodRef(book, book.workings.months.importKwh);
  const expected = periodRef(book, book.workings.months.expected);
  const metered = periodRef(book, book.workings.months.metered);
  const offKwh = periodRef(book, months.offPeakKwh);
  const offPence = periodRef(book, months.offPeakPence);
  const hasTotal = hasTotalName(tariff);
  const named = (text: string): string => `IF(${name}="","",${text})`;
  /** Blank where something lacks: a total without it would look cheap. */
  const whereTotal = (text: string): string => `IF(${hasTotal}=0,"",${text})`;
  const withAndWithout = (text: string): string =>
    `IF(${hasTotal}*${ref(book.workings.battery.usableKwh)}>0,${text},"")`;
  const withToday = (text: string): string => `IF(OR(${hasTotal}=0,${TODAYS_IS_PRICED_NAME}=0),"",${text})`;
  const cell = (row: number, text: string, style: StyleName, cellName?: string): Cell =>
    formula(`${c}${row}`, text, style, cellName === undefined ? {} : { name: cellName });
  const left = (row: number): string => `$${FIRST_TARIFF_LETTERS}$${row}:${columnLetters(2 + tariff)}$${row}`;
  const earlierTies =
    tariff === 0 ? '' : `+SUMPRODUCT((${left(H.priced)}=1)*(${left(T.total)}=${at(T.total)}))`;
  const bought = at(H.boughtKwh);
  // Today’s own tie is with the best of the others, where there is one.
  const others = `SMALL(${across(T.total)},IF(${at(T.rank)}=1,2,1))`;
  // In the rate's own terms, so that it can be typed: without VAT where the rates are.
  const perTypedKwh = (pounds: string): string =>
    `(${pounds})*100/${bought}/${ref(tariffOf(book, tariff).rates.vatFactor)}`;
  const runnerUp = `IF(COUNT(${across(T.total)})<2,"",${perTypedKwh(`${others}-${at(T.total)}`)})`;
  const [peak, off, target] = [at(H.peakRate), at(H.offPeakRate), at(H.targetRate)];
  return [
    cell(
      T.total,
      whereTotal(withBattery(at(H.totalWith), at(H.totalWithout))),
      'moneyStrong',
      `total_of_tariff_${tariff + 1}`,
    ),
    cell(T.difference, withToday(`ROUND(${at(T.total)}-${ofToday(T.total)},2)`), 'moneySigned'),
    cell(
      T.rank,
      named(
        `IF(${hasTotal}=0,IF(${at(H.unpriced)}>0,"lacks prices",IF(${at(H.faults)}>0,"see flags","")),1+SUMPRODUCT((${across(H.priced)}=1)*(${across(T.total)}<${at(T.total)}))${earlierTies})`,
      ),
      'integer',
    ),
    cell(
      T.energy,
      whereTotal(withBattery(periodRef(book, batteryMonths.energy), periodRef(book, months.energy))),
      'money',
    ),
    cell(T.standing, whereTotal(periodRef(book, months.standing)), 'money'),
    cell(
      T.exportCredit,
      whereTotal(
        withBattery(periodRef(book, batteryMonths.exportCredit), periodRef(book, months.exportCredit)),
      ),
      'money',
    ),
    cell(T.allIn, whereTotal(`IF(${bought}>0,(${at(T.energy)}+${at(T.standing)})*100/${bought},"")`), 'rate'),
    cell(
      T.offPeakShare,
      named(`IF(AND(${kwh}>0,COUNT(${ref(tariffOf(book, tariff).rates.offPeak)})>0),${offKwh}/${kwh},"")`),
      'percent',
    ),
    cell(
      T.breakEvenShare,
      withToday(
        `IF(COUNT(${peak},${off},${target})<3,"",IF(${peak}<=${off},"",IF(OR(${target}>${peak},${target}<${off}),"none",(${peak}-${target})/(${peak}-${off}))))`,
      ),
      'percent',
    ),
    cell(
      T.headroom,
      withToday(
        `IF(${bought}>0,IF(${place}=${tariff + 1},${runnerUp},${perTypedKwh(`${ofToday(T.total)}-${at(T.total)}`)}),"")`,
      ),
      'rate',
    ),
    cell(
      T.differenceAfterExit,
      withToday(`ROUND(${at(T.difference)}+IF(${place}=${tariff + 1},0,SUM(${ofToday(T.exitFee)})),2)`),
      'moneySigned',
    ),
    cell(T.coverage, named(`IF(${expected}=0,0,(${metered}-${at(H.unpriced)})/${expected})`), 'percent'),
    cell(T.withoutBattery, withAndWithout(at(H.totalWithout)), 'money'),
    cell(T.batterySaving, withAndWithout(`ROUND(${at(H.totalWithout)}-${at(H.totalWith)},2)`), 'money'),
    cell(H.boughtKwh, named(withBattery(ref(span.importKwh), kwh)), 'kwh'),
    cell(H.totalWithout, whereTotal(periodRef(book, months.total)), 'money'),
    cell(
      H.totalWith,
      whereTotal(periodRef(book, batteryMonths.total)),
      'money',
      `total_with_battery_of_tariff_${tariff + 1}`,
    ),
    cell(
      H.peakRate,
      whereTotal(
        `IF(OR(${offKwh}<=0,${kwh}<=${offKwh}),"",(${periodRef(book, months.energy)}*100-${offPence})/(${kwh}-${offKwh}))`,
      ),
      'rateFine',
    ),
    cell(H.offPeakRate, whereTotal(`IF(${offKwh}<=0,"",${offPence}/${offKwh})`), 'rateFine'),
    cell(
      H.unpriced,
      named(`IF(${at(T.halfHourlyPriced)}="yes",${periodRef(book, book.workings.months.unpriced)},0)`),
      'count',
    ),
    cell(H.faults, named(faultsFormula(book, tariff)), 'integer'),
    cell(
      H.priced,
      `IF(${name}="",0,IF(${at(H.unpriced)}+${at(H.faults)}=0,1,0))`,
      'integer',
      pricedName(tariff),
    ),
    cell(
      H.targetRate,
      withToday(
        `IF(${kwh}>0,(${ofToday(H.totalWithout)}-${at(T.standing)}+${periodRef(book, months.exportCredit)})*100/${kwh},"")`,
      ),
      'rateFine',
    ),
  ];
}

/** Counts what makes a tariff's rates unusable: flags beside them, half-hours in two windows, VAT to add that is none. */
function faultsFormula(book: Book, tariff: number): string {
  const flags = (first: number, last: number): string =>
    `$${flagLetters(tariff)}$${first}:$${flagLetters(tariff)}$${last}`;
  const last = ratePeriodRows(MAX_RATE_PERIODS - 1).exportRate;
  const at = (row: number): string => `${tariffLetters(tariff)}$${row}`;
  const vat = ref(book.inputs.vatShare);
  return (
    `SUM(${flags(T.clock, T.halfHourlyPriced)},${flags(T.priceIncludesVat, T.priceIncludesVat)},${flags(T.firstWindow, last)})+(${ref(tariffOf(book, tariff).rates.overlap)}>0)` +
    `+IF(AND(OR(${at(T.includesVat)}="no",AND(${at(T.halfHourlyPriced)}="yes",${at(T.priceIncludesVat)}="no")),NOT(AND(ISNUMBER(${vat}),${vat}>=0,${vat}<1))),1,0)`
  );
}

/** Says in the heading of each set of rates how long it holds. */
function untilCells(tariff: number): Cell[] {
  const at = (row: number): string => `${tariffLetters(tariff)}${row}`;
  return Array.from({ length: MAX_RATE_PERIODS }, (_, p) => {
    const { heading, validFrom } = ratePeriodRows(p);
    const next = p + 1 < MAX_RATE_PERIODS ? at(ratePeriodRows(p + 1).validFrom) : undefined;
    const holds =
      next === undefined
        ? '"from then on"'
        : `IF(ISNUMBER(${next}),"until "&${dateText(`${next}-1`)},"from then on")`;
    const isThere = p === 0 ? `${at(T.name)}=""` : `OR(${at(T.name)}="",NOT(ISNUMBER(${at(validFrom)})))`;
    return formula(at(heading), `IF(${isThere},"",${holds})`, 'unit');
  });
}

function inputCells(tariff: number, start: TariffCells): Cell[] {
  const fields = TARIFF_FIELDS[tariff];
  if (fields === undefined) throw new RangeError(`there is no tariff ${tariff + 1}`);
  return fieldPairs(fields, start).map(([field, value]) => fieldInput(field, value));
}

function labels(book: Book): Cell[] {
  const { withBattery, whereBattery } = worlds(book);
  const row = (at: number, text: string, unit: string, style: StyleName = 'label'): Cell[] => [
    text.startsWith('=') ? formula(`A${at}`, text.slice(1), style) : label(`A${at}`, text, style),
    label(`B${at}`, unit, 'unit'),
  ];
  /** A label of what is told without the battery, where one is entered. */
  const byWorld = (text: string): string =>
    `=${withBattery(quoted(`${text}, without the battery`), quoted(text))}`;
  const worldRow = (at: number, text: string): Cell[] => [
    formula(`A${at}`, whereBattery(quoted(text)), 'label'),
    formula(`B${at}`, whereBattery(CELL.currency), 'unit'),
  ];
  const cells: Cell[] = [
    ...row(T.total, 'Total', '{major}', 'labelStrong'),
    ...row(T.difference, 'Difference from today’s', '{major}'),
    ...row(T.rank, 'Rank, 1 is cheapest', ''),
    ...row(T.energy, 'Energy', '{major}'),
    ...row(T.standing, 'Standing charge', '{major}'),
    ...row(T.exportCredit, 'Export credit', '{major}'),
    ...row(T.allIn, 'All-in unit cost: energy and standing, before export', '{minor}/kWh'),
    ...row(T.offPeakShare, byWorld('Off-peak share of import'), 'at the lowest rate'),
    ...row(T.breakEvenShare, byWorld('Off-peak share to tie'), 'percent'),
    ...row(T.headroom, 'Change of unit rate that ties with today’s', 'today’s: with the runner-up'),
    ...row(T.differenceAfterExit, 'Difference with the exit fee of today’s', '{major}'),
    ...row(T.coverage, 'Half-hours metered', 'percent'),
    ...worldRow(T.withoutBattery, 'Total without the battery'),
    ...worldRow(T.batterySaving, 'The battery saves'),
    label(`A${T.chargesHeading}`, 'How it charges', 'section'),
    label(`A${T.windowsHeading}`, 'Windows with a rate of their own', 'section'),
  ];
  for (const { cell, spec } of listFields(TARIFF_FIELDS[0])) {
    const { row: at } = cell.place;
    cells.push(...row(at, spec.label, spec.unit, at === T.name ? 'labelStrong' : 'label'));
  }
  for (let p = 0; p < MAX_RATE_PERIODS; p++) {
    const { heading } = ratePeriodRows(p);
    cells.push(
      label(`A${heading}`, p === 0 ? 'Rates from the beginning' : `Change ${p} of rates`, 'section'),
    );
  }
  cells.push(
    label(`A${H.heading}`, 'Behind the figures at the top', 'section'),
    ...row(H.todaysPlace, 'Today’s tariff stands in column', 'no. from 1; 0: none'),
    ...row(H.peakRate, 'Average rate outside off-peak', '{minor}/kWh'),
    ...row(H.offPeakRate, 'Average rate off-peak', '{minor}/kWh'),
    ...row(H.targetRate, 'Average rate at which it ties with today’s', '{minor}/kWh'),
    ...row(H.unpriced, 'Half-hours of the period that lack its price', 'count'),
    ...row(H.faults, 'Inputs of its rates that can’t be used', 'count'),
    ...row(H.priced, 'Has all that a total needs', '1 or 0'),
    ...row(H.todaysIsPriced, 'Today’s tariff has', '1 or 0'),
    ...row(H.boughtKwh, 'Bought', 'kWh'),
    ...row(H.totalWithout, 'Total without storage', '{major}'),
    ...row(H.totalWith, 'Total with storage as entered', '{major}'),
    formula(
      `${FIRST_TARIFF_LETTERS}${H.todaysIsPriced}`,
      `IF(${TODAYS_PLACE_NAME}=0,0,SUM(INDEX($${FIRST_TARIFF_LETTERS}$${H.priced}:$${LAST_TARIFF_LETTERS}$${H.priced},1,MAX(1,${TODAYS_PLACE_NAME}))))`,
      'integer',
      { name: TODAYS_IS_PRICED_NAME },
    ),
    formula(
      `${FIRST_TARIFF_LETTERS}${H.todaysPlace}`,
      `IFERROR(MATCH($${FIRST_TARIFF_LETTERS}$${T.todays},$${FIRST_TARIFF_LETTERS}$${T.name}:$${LAST_TARIFF_LETTERS}$${T.name},0),0)`,
      'integer',
      { name: TODAYS_PLACE_NAME },
    ),
  );
  return cells;
}

/** The tariffs side by side, each with its totals at the top of its column. */
export function tariffsSheet(
  book: Book,
  { tariffs: start, todaysTariff, home }: Pick<WorkbookInputs, 'tariffs' | 'todaysTariff' | 'home'>,
): SheetModel {
  const tariffs = Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);
  const { tariffs: span } = batterySpan(book);
  return {
    name: SHEETS.tariffs,
    tab: 'input',
    widths: {
      A: 42,
      B: 20,
      ...Object.fromEntries(
        tariffs.flatMap((t) => [
          [tariffLetters(t), 15],
          [flagLetters(t), 4],
          [askedLetters(t), 6],
        ]),
      ),
    },
    heights: { [T.sentence]: 24, [T.name]: 34 },
    freeze: { columns: 2, rows: T.rank },
    protected: true,
    landscape: true,
    printArea: `A1:${LAST_TARIFF_LETTERS}${LAST_TARIFF_ROW}`,
    printTitleRows: `${T.name}:${T.name}`,
    cells: [
      label('A1', 'Tariffs', 'title'),
      formula(`A${T.sentence}`, 'answer_sentence', 'textStrong'),
      label(`A${T.todays}`, TODAYS_TARIFF.spec.label, 'labelStrong'),
      label(`B${T.todays}`, TODAYS_TARIFF.spec.unit, 'unit'),
      fieldInput(TODAYS_TARIFF, todaysTariff),
      ...homeCells(SHEETS.tariffs, home, 'left'),
      label(
        `A${T.name - 1}`,
        `To clear a tariff in one go: type ${clearName(0)} (to ${clearName(TARIFF_COUNT - 1)}, from the left) into the name box, press Enter, then Delete; where nothing is selected, run the fill with --clear-tariff NAME.`,
        'hint',
      ),
      ...labels(book),
      ...tariffs.flatMap((t) => [
        ...resultCells(book, t, span[t]),
        ...inputCells(t, startOf(start, t)),
        ...untilCells(t),
      ]),
      ...flagCells(book),
      ...askedRateCells(),
    ],
    selections: Object.fromEntries(tariffs.map((t) => [clearName(t), tariffInputRanges(t)])),
    formulaColumns: [],
    inputColumns: [],
    conditional: [
      {
        range: `${FIRST_TARIFF_LETTERS}${T.total}:${LAST_TARIFF_LETTERS}${T.rank}`,
        formula: `${FIRST_TARIFF_LETTERS}$${T.rank}=1`,
        style: 'best',
      },
      ...tariffs.flatMap((t) => [
        {
          range: `${tariffLetters(t)}${T.name}:${tariffLetters(t)}${T.name}`,
          formula: `$${flagLetters(t)}${T.name}>0`,
          style: 'bad' as const,
        },
        {
          range: `${tariffLetters(t)}${T.clock}:${tariffLetters(t)}${LAST_TARIFF_ROW}`,
          formula: `$${flagLetters(t)}${T.clock}>0`,
          style: 'bad' as const,
        },
        {
          range: `${tariffLetters(t)}${T.firstWindow}:${tariffLetters(t)}${windowRows(MAX_WINDOWS - 1).days}`,
          formula: `${ref(tariffOf(book, t).rates.overlap)}>0`,
          style: 'bad' as const,
        },
      ]),
    ],
  };
}

function startOf(start: readonly TariffCells[], tariff: number): TariffCells {
  const cells = start[tariff];
  if (cells === undefined) throw new RangeError(`there is nothing to start tariff ${tariff + 1} with`);
  return cells;
}
