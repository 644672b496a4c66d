import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildTemplate } from '../../../src/cli/build-template.js';
import { writeSample } from '../../../src/cli/write-sample.js';
import { WORKBOOK_AIM } from './aims.js';
import { MeasuredProcess } from './child-process.js';
import { atMost, compareTimes, countText, type Measured, median, megabytesText } from './measure.js';
import { SAMPLE_INPUTS } from './sample-input.js';
import { workbookFigures } from './workbook-figures.js';

const RUNS = 5;
const LARGEST_FILL_MB = 700;

const sizeOf = (path: string): number => statSync(path).size / 1e6;

/** Paths of the workbooks that the measurements leave behind. */
export interface BenchWorkbooks {
  template: string;
  /** The sample year with its gas and temperatures. */
  filled: string;
}

/**
 * Builds the template and fills a year into it: time against exceljs, memory, sizes, formulas.
 *
 * @param folder where the workbooks go
 * @param onStep told what is being done
 */
export async function measureFill(
  folder: string,
  onStep: (step: string) => void,
): Promise<{ lines: Measured[]; workbooks: BenchWorkbooks }> {
  const template = join(folder, 'template.xlsx');
  onStep('building the workbook');
  writeFileSync(template, await buildTemplate(SAMPLE_INPUTS));
  onStep('filling a year');
  const filling = new MeasuredProcess({
    kind: 'fill',
    workbook: template,
    out: join(folder, 'readings.xlsx'),
    years: 1,
  });
  const { cells: count } = await filling.run();
  onStep('writing as many numbers with exceljs, in turn with fills');
  const writing = new MeasuredProcess({ kind: 'numbers', count });
  const numbers = await writing.run();
  const times = { fill: [] as number[], numbers: [] as number[] };
  for (let run = 0; run < RUNS; run++) {
    times.fill.push((await filling.run()).ms);
    times.numbers.push((await writing.run()).ms);
  }
  filling.end();
  writing.end();
  onStep('filling a year once, from files, with gas and temperatures');
  const filled = join(folder, 'filled.xlsx');
  const sample = await writeSample(join(folder, 'sample'));
  const { peakMegabytes } = await MeasuredProcess.once({
    kind: 'fill-files',
    workbook: template,
    out: filled,
    files: sample.year,
    gasFiles: sample.gas,
    temperatureFiles: sample.temperature,
  });
  const cells = `${Math.round(count / 1000)}k cells`;
  return {
    lines: [
      compareTimes(`Fill a year, ${cells} / exceljs`, median(times.fill), median(times.numbers), 1),
      {
        ...atMost('Memory of a fill / exceljs', peakMegabytes, LARGEST_FILL_MB, megabytesText),
        baseline: megabytesText(numbers.peakMegabytes),
      },
      ...formulaLines(filled),
      atMost('Size of a filled year', sizeOf(filled), WORKBOOK_AIM.filledMegabytes, megabytesText),
      atMost('Size of the empty template', sizeOf(template), WORKBOOK_AIM.templateMegabytes, megabytesText),
    ],
    workbooks: { template, filled },
  };
}

/** How many formulas a filled year has, and how long they are. */
function formulaLines(filled: string): Measured[] {
  const { formulaCells, longestCharacters, medianCharacters } = workbookFigures(readFileSync(filled));
  return [
    atMost('Formula cells of a filled year', formulaCells, WORKBOOK_AIM.formulaCells, countText),
    atMost('Longest formula, characters', longestCharacters, WORKBOOK_AIM.longestFormula, countText),
    atMost('Median of distinct formulas', medianCharacters, WORKBOOK_AIM.medianFormula, countText),
  ];
}
