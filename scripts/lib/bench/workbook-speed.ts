import { statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildTemplate } from '../../../src/cli/build-template.js';
import { PATHS } from '../../../src/cli/paths.js';
import { writeSample } from '../../../src/cli/write-sample.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { ratePeriodRows, tariffLetters } from '../../../src/workbook/model/tariff-rows.js';
import { findCalc } from '../calc/find-calc.js';
import { measureCalc } from '../calc/measure-calc.js';
import { MeasuredProcess } from './child-process.js';
import { atMost, compareTimes, type Measured, median, timeText } from './measure.js';

/** The sheets of the battery make the workbook larger and slower; what is asked of it then is less. */
const WITH_BATTERY = Object.values(SHEETS).some((name) => /battery/i.test(name));
const LARGEST_FILLED_MB = WITH_BATTERY ? 20 : 12;
const SLOWEST_CHANGE_MS = WITH_BATTERY ? 1000 : 500;

const RUNS = 5;

const megabytes = (value: number): string => `${value < 10 ? value.toFixed(1) : value.toFixed(0)} MB`;
const sizeOf = (path: string): number => statSync(path).size / 1e6;

/** Paths of the workbooks that the measurements leave behind. */
export interface BenchWorkbooks {
  template: string;
  filled: string;
}

/**
 * Builds the template and fills a year into it: time against exceljs, memory, sizes.
 *
 * @param folder where the workbooks go
 * @param onStep told what is being done
 */
export async function measureFill(
  folder: string,
  onStep: (step: string) => void,
): Promise<{ lines: Measured[]; workbooks: BenchWorkbooks }> {
  const template = join(folder, 'template.xlsx');
  const filled = join(folder, 'filled.xlsx');
  onStep('building the workbook');
  writeFileSync(template, await buildTemplate(PATHS.startingInputs));
  onStep('filling a year');
  const filling = new MeasuredProcess('fill', template, filled);
  const { cells: count } = await filling.run();
  onStep('writing as many numbers with exceljs, in turn with fills');
  const writing = new MeasuredProcess('numbers', String(count));
  const numbers = await writing.run();
  const times = { fill: [] as number[], numbers: [] as number[] };
  for (let run = 0; run < RUNS; run++) {
    times.fill.push((await filling.run()).ms);
    times.numbers.push((await writing.run()).ms);
  }
  filling.end();
  writing.end();
  onStep('filling a year once, from files');
  const { year } = await writeSample(join(folder, 'sample'));
  const once = new MeasuredProcess('fill-files', template, join(folder, 'once.xlsx'), ...year);
  const { peakMegabytes } = await once.run();
  once.end();
  const cells = `${Math.round(count / 1000)}k cells`;
  return {
    lines: [
      compareTimes(`Fill a year, ${cells} / exceljs`, median(times.fill), median(times.numbers), 1),
      {
        ...atMost('Memory of a fill / exceljs', peakMegabytes, 700, megabytes),
        baseline: megabytes(numbers.peakMegabytes),
      },
      atMost('Filled year', sizeOf(filled), LARGEST_FILLED_MB, megabytes),
      atMost('Empty template', sizeOf(template), 3, megabytes),
    ],
    workbooks: { template, filled },
  };
}

/**
 * Times a filled year in LibreOffice: load, full recalculation, one rate changed.
 *
 * @param filled path of the workbook
 */
export async function measureInCalc(filled: string): Promise<Measured[]> {
  const calc = findCalc();
  if ('missing' in calc) {
    return [{ what: 'LibreOffice', figure: '', baseline: '', aim: '', met: 'skipped', why: calc.missing }];
  }
  const cell = `${tariffLetters(1)}${ratePeriodRows(0).base}`;
  const rates = [28.5, 29, 27.75, 30, 28.31];
  const times = await measureCalc(
    filled,
    rates.map((value) => ({ sheet: SHEETS.tariffs, cell, value })),
  );
  const plain = (what: string, ms: number): Measured => ({
    what,
    figure: timeText(ms),
    baseline: '',
    aim: '',
    met: undefined,
  });
  return [
    plain('LibreOffice: load a filled year', times.loadMs),
    plain('LibreOffice: recalculate all', times.recalculateAllMs),
    atMost('LibreOffice: change a rate', times.changeMs, SLOWEST_CHANGE_MS, timeText),
  ];
}
