import { InputError } from '../../errors.js';
import { CHANNELS, type Channel } from '../../readings/channels.js';
import {
  type GasPeriod,
  type HalfHourlyReadings,
  type ImportedTemperature,
  type MergedReadings,
  mergeReadings,
  type OnConflict,
  type SourcedReadings,
} from '../../readings/index.js';
import type { Calculated } from '../calculate.js';
import { calculateWorkbook } from '../calculate-inputs.js';
import { columnNumber, parseCell } from '../cell-address.js';
import type { CachedValues } from '../charts/chart-spec.js';
import { refreshedChartXml } from '../charts/refresh-chart-caches.js';
import { HOME_FIELDS } from '../fields/home-fields.js';
import { TOLD } from '../fields/told-places.js';
import { checkInputs, checkTimeZone } from '../inputs/check-inputs.js';
import type { GasCells, HeatingCells, TemperatureCells } from '../inputs/heating-cells.js';
import { assertOurWorkbook, homeFact, readInputs } from '../inputs/read-inputs.js';
import type { ToldRow } from '../inputs/read-told-rows.js';
import type { ReadingRows, WorkbookInputs } from '../inputs/workbook-inputs.js';
import { FIRST_ROW, SHEETS } from '../layout.js';
import { clockTable } from '../model/clock-table.js';
import { CELL, CLOCK, CLOCK_COVERS, CLOCK_ZONE, READING } from '../model/columns.js';
import type { CellValue } from '../model/sheet-model.js';
import { workbookModel } from '../model/workbook-model.js';
import { DROP, type InputColumn, openWorkbookPackage, type WorkbookPackage } from '../package/index.js';
import type { Shape } from '../sheets/shape.js';
import { storedNumber } from '../stored-number.js';
import type { WorkbookValues } from '../workbook-values.js';
import { assertNotMoved } from './assert-in-place.js';
import { cachedValuesOf } from './cached-values.js';
import { clockOfReadings } from './clock-of-readings.js';
import { gasInputColumns, temperatureInputColumns } from './heating-columns.js';
import { InputCells } from './input-cells.js';
import { type AlteredFormula, inspectSheet } from './inspect-sheet.js';
import { mergeGas } from './merge-gas.js';
import { mergeTemperatures } from './merge-temperatures.js';
import type { MergedRows } from './merged-rows.js';
import { openOurWorkbook } from './open-our-workbook.js';
import { daysWithoutHalfHours, outdoorOfFiles } from './outdoor-of-files.js';
import { OwnedCells } from './owned-cells.js';
import { localNow, storedBatteryColumns } from './stored-battery-columns.js';
import { storedBatteryResults } from './stored-battery-results.js';
import { storedTimerColumns } from './stored-timer-columns.js';
import { storedTimerResults } from './stored-timer-results.js';
import { toldColumns } from './told-columns.js';
import { readingRowsOf, readingsOfWorkbook } from './workbook-readings.js';

/** What to fill in, and how. */
export interface FillOptions {
  /** Different value for a half-hour that the workbook holds already: refuse (default), or replace it. */
  onConflict?: OnConflict;
  /** Sets the workbook's zone; only while it holds no readings. */
  timeZone?: string;
  /** Gas of the last year with the boiler, for the gas sheet. */
  gas?: readonly GasPeriod[];
  /** Outdoor temperatures: half-hours that the readings have go beside them, days to the temperatures sheet. */
  temperature?: ImportedTemperature;
  /**
   * Leaves the least costs, the sizing and what timers save beside the battery as they are stored, so that they go stale
   * where an input changed: what a spreadsheet program does by itself.
   */
  keepLeastCost?: boolean;
  /** What files were told, to be kept instead of what is kept; left as it is where undefined. */
  told?: readonly ToldRow[];
  /** Marks what is worked out beside the formulas; by default the time of the computer. */
  now?: Date;
  /** Told what is being done, for progress. */
  onStep?: (step: string) => void;
}

/** What a fill did. */
export interface FillResult {
  /** The workbook as a file; the very bytes given where nothing changed. */
  bytes: Uint8Array;
  /** What the workbook holds now. */
  values: WorkbookValues;
  /** Values given that the workbook held already. */
  duplicates: number;
  /** Values that were replaced. */
  replaced: number;
  /** Half-hours that are new in the workbook. */
  addedHalfHours: number;
  /** Half-hours that the workbook held already and that got a value of a channel which they had none of. */
  addedToHeld: Partial<Record<Channel, number>>;
  /** What was done with gas and temperatures by day; undefined where none were given. */
  gas: Omit<MergedRows<unknown>, 'rows'> | undefined;
  temperatures: Omit<MergedRows<unknown>, 'rows'> | undefined;
  changedInputs: number;
  changedCached: number;
  /** Cells of the project whose formula someone changed: every stored value was dropped, so that the spreadsheet works them out. */
  altered: AlteredFormula[];
}

/**
 * Fills readings into a workbook, in place: inputs of the readings sheet and stored values of formulas change,
 * everything else keeps its bytes.
 *
 * @param workbookBytes the workbook, whoever saved it last
 * @param file its name, for messages
 * @param incoming readings to add; undefined only works the stored values out anew
 * @param options conflicts, zone, progress
 * @returns the filled workbook and what was done
 * @throws InputError when the workbook is not ours, something on its sheets was moved, an input is wrong, or readings
 *   conflict or do not fit
 */
export function fillWorkbook(
  workbookBytes: Uint8Array,
  file: string,
  incoming: SourcedReadings | undefined,
  options: FillOptions = {},
): FillResult {
  const step = options.onStep ?? (() => {});
  step('opening the workbook');
  const { workbook, book } = openOurWorkbook(workbookBytes, file);
  const before = readInputs(workbook, book.shape);
  checkInputs(before, file);
  const zoned = withTimeZone(before, incoming?.readings.timeZone ?? options.timeZone, file);
  const merged = mergedReadings(zoned, before, incoming, file, options);
  const readings = merged === undefined ? zoned.readings : readingRowsOf(merged.readings, file, book.shape);
  const { heating, gas, temperatures } = mergedHeating(zoned.heating, readings, file, options);
  const clock = clockOfReadings(zoned.clock, String(zoned.clockTimeZone), readings, book.shape);
  const filled = { ...zoned, readings, heating, clock };

  step('working out every line');
  const now = localNow(options.now ?? new Date(), String(zoned.home.timeZone));
  const calculated = calculateWorkbook(workbookModel(filled, book), book, filled);
  const storedBattery =
    options.keepLeastCost === true
      ? filled.storedBattery
      : storedBatteryResults(calculated, book, filled, now);
  const storedTimers =
    options.keepLeastCost === true ? filled.storedTimers : storedTimerResults(calculated, book, filled, now);
  const inputs = { ...filled, storedBattery, storedTimers };
  // What is stored is an input too; no line that it is worked out from looks at it.
  typeStored(calculated, SHEETS.battery, storedBatteryColumns(storedBattery, book.shape));
  typeStored(calculated, SHEETS.timers, storedTimerColumns(storedTimers));
  const model = workbookModel(inputs, book);

  step('comparing formulas');
  const owned = new Map(model.map((sheet) => [sheet.name.toLowerCase(), new OwnedCells(sheet, calculated)]));
  const altered = [...owned.values()].flatMap((cells) => inspectSheet(workbook, cells, false).altered);
  assertNotMoved(workbook, model, new Set(altered.map(({ sheet }) => sheet)));

  step('writing values');
  const inputCells = new Map(model.map((sheet) => [sheet.name.toLowerCase(), new InputCells(sheet)]));
  const counts = { changedInputs: 0, changedCached: 0 };
  let changedCells = 0;
  const withOthers = new Set<string>();
  for (const sheet of workbook.sheetNames()) {
    const cells = owned.get(sheet.toLowerCase());
    const edited = workbook.editSheet(sheet, {
      inputs: inputColumnsOf(sheet, inputs, before, book.shape, options.told),
      cached: (row, column) => {
        const value = cells?.valueAt(row, column);
        if (value !== undefined) return altered.length > 0 ? DROP : (storedNumber(value) ?? '');
        withOthers.add(sheet);
        return undefined;
      },
      tolerance: 1e-14,
    });
    counts.changedInputs += edited.changedInputs;
    counts.changedCached += edited.changedCached;
    changedCells += edited.changedCells;
  }
  // The user's own formulas may look at what changed: only the spreadsheet program can work them out.
  for (const sheet of changedCells === 0 ? [] : withOthers) {
    const cells = owned.get(sheet.toLowerCase());
    const typed = inputCells.get(sheet.toLowerCase());
    workbook.editSheet(sheet, {
      cached: (row, column) => {
        const isProjects = cells?.valueAt(row, column) !== undefined;
        // A formula typed into an input cell gave the value that was just worked with.
        return isProjects || typed?.has(row, column) === true ? undefined : DROP;
      },
    });
  }
  if (altered.length === 0) refreshCharts(workbook, cachedValuesOf(model, calculated));
  return {
    bytes: workbook.toBytes(),
    values: { inputs, book, calculated },
    duplicates: merged?.duplicates ?? 0,
    replaced: merged?.replaced ?? 0,
    addedHalfHours: merged?.added ?? 0,
    addedToHeld: merged?.addedToHeld ?? {},
    gas: countsOf(gas),
    temperatures: countsOf(temperatures),
    ...counts,
    altered,
  };
}

/** Types what a fill stores into the workbook that is being worked out. */
function typeStored(calculated: Calculated, sheet: string, columns: readonly InputColumn[]): void {
  for (const { column, firstRow, values } of columns) {
    for (let i = 0; i < values.length; i++) {
      calculated.type({ sheet, row: firstRow + i, column }, (values[i] as CellValue | undefined) ?? null);
    }
  }
}

/** Brings the values that charts keep beside their references up to date, for programs that show those. */
function refreshCharts(workbook: WorkbookPackage, cachedValues: CachedValues): void {
  const decoder = new TextDecoder();
  for (const part of workbook.partNames()) {
    if (!/charts\/chart[^/]*\.xml$/i.test(part)) continue;
    const xml = decoder.decode(workbook.readPart(part));
    const refreshed = refreshedChartXml(xml, cachedValues);
    if (refreshed !== xml) workbook.replacePart(part, Buffer.from(refreshed));
  }
}

/**
 * The readings that the workbook holds from now on.
 *
 * @returns undefined where the rows stay as they are: without files they are worked with as they stand, right or
 *   wrong, as the spreadsheet does
 */
function mergedReadings(
  inputs: WorkbookInputs,
  before: WorkbookInputs,
  incoming: SourcedReadings | undefined,
  file: string,
  { onConflict = 'refuse', temperature }: FillOptions,
): (MergedReadings & Pick<FillResult, 'addedToHeld'> & { added: number }) | undefined {
  const isSameZone = inputs.clockTimeZone === before.clockTimeZone;
  if (incoming === undefined && temperature?.halfHourly === undefined && isSameZone) return undefined;
  const held = readingsOfWorkbook(inputs, file);
  const metered = [held, incoming].filter((source) => source !== undefined);
  if (metered.length === 0) return undefined;
  const starts = new Set(metered.flatMap(({ readings }) => [...readings.startUtcMs]));
  const outdoor = outdoorOfFiles(temperature, metered[0]!.readings.timeZone, starts);
  const merged = mergeReadings(outdoor === undefined ? metered : [...metered, outdoor], onConflict);
  const heldHalfHours = held === undefined ? 0 : mergeReadings([held]).readings.startUtcMs.length;
  return {
    ...merged,
    added: merged.readings.startUtcMs.length - heldHalfHours,
    addedToHeld: held === undefined ? {} : addedToHeld(held.readings, merged.readings),
  };
}

/** How many half-hours that were held got a value of each channel that they had none of. */
function addedToHeld(held: HalfHourlyReadings, merged: HalfHourlyReadings): FillResult['addedToHeld'] {
  const rowOfHeld = new Map(Array.from(held.startUtcMs, (start, row) => [start, row]));
  const counts: FillResult['addedToHeld'] = {};
  for (const channel of CHANNELS) {
    const before = held.channels[channel];
    let count = 0;
    merged.channels[channel]?.forEach((value, i) => {
      const row = rowOfHeld.get(merged.startUtcMs[i]!);
      if (row !== undefined && !Number.isNaN(value) && Number.isNaN(before?.[row] ?? Number.NaN)) count++;
    });
    if (count > 0) counts[channel] = count;
  }
  return counts;
}

/** Gas and temperatures by day that the workbook holds from now on. */
function mergedHeating(
  held: HeatingCells,
  readings: ReadingRows,
  file: string,
  { gas, temperature, onConflict = 'refuse' }: FillOptions,
): {
  heating: HeatingCells;
  gas: MergedRows<GasCells> | undefined;
  temperatures: MergedRows<TemperatureCells> | undefined;
} {
  const mergedGas = gas === undefined ? undefined : mergeGas(held.gas, gas, file, onConflict);
  const mergedDays =
    temperature === undefined
      ? undefined
      : mergeTemperatures(held.temperatures, daysWithoutHalfHours(temperature, readings), file, onConflict);
  return {
    heating: {
      ...held,
      ...(mergedGas === undefined ? {} : { gas: mergedGas.rows }),
      ...(mergedDays === undefined ? {} : { temperatures: mergedDays.rows }),
    },
    gas: mergedGas,
    temperatures: mergedDays,
  };
}

function countsOf(merged: MergedRows<unknown> | undefined): FillResult['gas'] {
  if (merged === undefined) return undefined;
  const { added, duplicates, replaced } = merged;
  return { added, duplicates, replaced };
}

/**
 * The time zone that a workbook is for.
 *
 * @param bytes the workbook
 * @param file its name, for messages
 * @returns IANA name
 * @throws InputError when the workbook is not ours or names no zone
 */
export function workbookTimeZone(bytes: Uint8Array, file: string): string {
  const workbook = openWorkbookPackage(bytes, file);
  assertOurWorkbook(workbook);
  try {
    const zone = homeFact(workbook, HOME_FIELDS.timeZone);
    checkTimeZone(zone, file);
    return zone;
  } catch (error) {
    // What is no zone may stand there because something was moved: that is said first. Else it is told with what else is wrong.
    const { book } = openOurWorkbook(bytes, file);
    checkInputs(readInputs(workbook, book.shape), file);
    throw error;
  }
}

function withTimeZone(inputs: WorkbookInputs, timeZone: string | undefined, file: string): WorkbookInputs {
  const current = String(inputs.home.timeZone);
  if (timeZone === undefined || timeZone === current) {
    return inputs.clockTimeZone === current
      ? inputs
      : { ...inputs, clock: clockTable(current), clockTimeZone: current };
  }
  if (inputs.readings.count > 0) {
    throw new InputError(
      `the workbook's readings are of ${current}, not ${timeZone}`,
      'Fill into a fresh workbook for another zone.',
      { file, line: CELL.timeZone.replaceAll('$', '') },
    );
  }
  return {
    ...inputs,
    home: { ...inputs.home, timeZone },
    clock: clockTable(timeZone),
    clockTimeZone: timeZone,
  };
}

/** What the fill writes on a sheet, which may be several parts of the workbook. */
function inputColumnsOf(
  sheet: string,
  inputs: WorkbookInputs,
  before: WorkbookInputs,
  shape: Shape,
  told: FillOptions['told'],
): InputColumn[] {
  const zone = HOME_FIELDS.timeZone;
  const parts: readonly (readonly [sheet: string, columns: () => InputColumn[]])[] = [
    [
      SHEETS.readings,
      () => (inputs.readings === before.readings ? [] : readingColumns(inputs.readings, before.readings)),
    ],
    [zone.cell.place.sheet, () => [single(zone.at, inputs.home.timeZone as string)]],
    [TOLD.sheet, () => (told === undefined ? [] : toldColumns(told))],
    [SHEETS.gas, () => gasInputColumns(inputs.heating.gas, before.heating.gas)],
    [
      SHEETS.temperatures,
      () => temperatureInputColumns(inputs.heating.temperatures, before.heating.temperatures),
    ],
    [SHEETS.battery, () => storedBatteryColumns(inputs.storedBattery, shape)],
    [SHEETS.timers, () => storedTimerColumns(inputs.storedTimers)],
    [SHEETS.clock, () => clockColumns(inputs)],
  ];
  return parts.flatMap(([of, columns]) => (of.toLowerCase() === sheet.toLowerCase() ? columns() : []));
}

function readingColumns(readings: ReadingRows, heldRows: ReadingRows): InputColumn[] {
  // Rows move together where blank ones stood between: what is left below is cleared.
  const count = Math.max(readings.count, heldRows.count);
  const column = (letters: string, values: Float64Array): InputColumn => ({
    column: columnNumber(letters),
    firstRow: FIRST_ROW,
    values: values.subarray(0, count),
    nan: 'blank',
  });
  return [
    column(READING.start, readings.startSerial),
    column(READING.offset, readings.offsetHours),
    ...CHANNELS.filter((channel) => readings.values[channel].some((value) => !Number.isNaN(value))).map(
      (channel) => column(READING[channel], readings.values[channel]),
    ),
    {
      column: columnNumber(READING.mark),
      firstRow: FIRST_ROW,
      values: Array.from({ length: count }, (_, row) => {
        const isMarked = heldRows.estimated[row] === 1;
        if (readings.estimated[row] === 1) return isMarked ? undefined : 'E';
        return isMarked ? null : undefined;
      }),
    },
  ];
}

function clockColumns(inputs: WorkbookInputs): InputColumn[] {
  const column = (letters: string, values: Float64Array): InputColumn => ({
    column: columnNumber(letters),
    firstRow: FIRST_ROW,
    values,
  });
  return [
    single(CLOCK_ZONE, String(inputs.clockTimeZone)),
    single(CLOCK_COVERS.from, inputs.clock.coversFrom),
    single(CLOCK_COVERS.until, inputs.clock.coversUntil),
    column(CLOCK.from, inputs.clock.fromLocalSerial),
    column(CLOCK.before, inputs.clock.offsetBeforeHours),
    column(CLOCK.after, inputs.clock.offsetAfterHours),
    column(CLOCK.gained, inputs.clock.minutesGained),
    column(CLOCK.day, inputs.clock.daySerial),
  ];
}

function single(reference: string, value: string | number): InputColumn {
  const { row, column } = parseCell(reference.replace(/^.*!/, ''));
  return { column, firstRow: row, values: [value] };
}
