import type { CalcTimings } from '../calc/measure-calc.js';
import { WORKBOOK_AIM } from './aims.js';
import {
  atMost,
  compareFigures,
  compareTimes,
  type Measured,
  median,
  megabytesText,
  skipped,
  timeText,
} from './measure.js';

/** Figures of the rounds that each workbook was measured in. */
export interface CalcRounds {
  /** A filled year. */
  filled: readonly CalcTimings[];
  /** The same readings without a formula. */
  bare: readonly CalcTimings[];
  /** A filled year of an earlier shape, where one was given. */
  earlier?: readonly CalcTimings[] | undefined;
}

/**
 * What LibreOffice needs for a filled year, each figure with its aim.
 *
 * @param rounds the figures; of each the median counts
 * @returns the lines of the benchmark
 */
export function calcLines({ filled, bare, earlier }: CalcRounds): Measured[] {
  const own = (key: keyof CalcTimings): number | undefined => middle(filled, key);
  const old = (key: keyof CalcTimings): number | undefined => earlier && middle(earlier, key);
  const against = (
    what: string,
    key: keyof CalcTimings,
    most: number,
    text: (value: number) => string,
  ): Measured => {
    const value = own(key);
    return value === undefined
      ? skipped(what, 'this system has no /proc to read it from')
      : compareFigures(`${what} / earlier`, value, old(key), most, text);
  };
  const change = (what: string, key: 'changeMs' | 'changeSwitchedOffMs', mostMs: number): Measured => {
    const before = old(key);
    const line = atMost(what, own(key)!, mostMs, timeText);
    return before === undefined ? line : { ...line, baseline: timeText(before) };
  };
  const cpuText = (seconds: number): string => timeText(seconds * 1000);
  return [
    compareTimes(
      'Load a year / without formulas',
      own('loadMs')!,
      middle(bare, 'loadMs')!,
      WORKBOOK_AIM.loadOverNoFormulas,
    ),
    against('Load a year', 'loadMs', WORKBOOK_AIM.loadOverEarlier, timeText),
    against('Recalculate all', 'recalculateAllMs', WORKBOOK_AIM.recalculateOverEarlier, timeText),
    change('Change a rate', 'changeMs', WORKBOOK_AIM.changeMs),
    change('Change a rate, no battery', 'changeSwitchedOffMs', WORKBOOK_AIM.changeWithoutBatteryMs),
    against('LibreOffice memory', 'peakMegabytes', WORKBOOK_AIM.memoryOverEarlier, megabytesText),
    against('Save as .xlsx, processor', 'saveCpuSeconds', WORKBOOK_AIM.saveOverEarlier, cpuText),
    against('Size of that save', 'savedMegabytes', WORKBOOK_AIM.savedSizeOverEarlier, megabytesText),
  ];
}

/**
 * Time to load several years over that of one.
 *
 * @param years how many
 * @param several figures of the workbook of that many
 * @param filled figures of a filled year
 */
export function yearsLine(
  years: number,
  several: readonly CalcTimings[],
  filled: readonly CalcTimings[],
): Measured {
  const [many, one] = [several, filled].map((rounds) => middle(rounds, 'loadMs')!);
  return compareTimes(`Load ${years} years / one`, many!, one!, WORKBOOK_AIM.loadYearsOverOne);
}

/** Median of a figure over those rounds that have it. */
function middle(rounds: readonly CalcTimings[], key: keyof CalcTimings): number | undefined {
  const values = rounds.flatMap((round) => round[key] ?? []);
  return values.length === 0 ? undefined : median(values);
}
