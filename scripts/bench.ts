import { mkdtemp, rm } from 'node:fs/promises';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { InvalidArgumentError } from 'commander';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { print } from '../src/cli/print.js';
import { Progress } from '../src/cli/progress.js';
import { readUserFile } from '../src/read-user-file.js';
import { openWorkbookPackage } from '../src/workbook/package/index.js';
import { timeLeastCost } from '../test/battery/time-least-cost.js';
import { ruleCases } from './lib/bench/battery-rule/cases.js';
import { formatRuleCases } from './lib/bench/battery-rule/format-rule-cases.js';
import { measureInCalc } from './lib/bench/calc-speed.js';
import { formatMeasured } from './lib/bench/format-measured.js';
import { measureImport, measurePricing } from './lib/bench/library-speed.js';
import { compareTimes, type Measured } from './lib/bench/measure.js';
import { measureFill } from './lib/bench/workbook-speed.js';
import { yearTable } from './lib/bench/year-cases.js';

interface BenchOptions {
  quick?: boolean;
  batteryRule?: boolean;
  year?: boolean;
  against?: string;
  years: number;
}

const command = projectCommand(
  'bench',
  'Measures speed, memory and sizes, each beside its baseline from the same run.',
)
  .option('--quick', 'leave out what takes long: the fill, LibreOffice, the solver')
  .option('--battery-rule', 'the battery’s rule alone: share of the best saving, tariff by tariff')
  .option('--year', 'what a year costs from some of its months alone: how often the range holds it')
  .option('--against <file>', 'a filled year of an earlier shape, measured in turn with today’s')
  .option('--years <count>', 'years in the workbook of several', wholeYears, 3)
  .action(async (options: BenchOptions) => {
    if (options.against !== undefined) {
      const bytes = await readUserFile(options.against, 'Give the path of a workbook with a filled year.');
      openWorkbookPackage(bytes, options.against);
    }
    if (options.year === true) {
      print(`${yearTable()}\n`);
      return;
    }
    const progress = new Progress();
    if (options.batteryRule === true) {
      print(ruleTable(progress));
      return;
    }
    const loadBefore = loadavg()[0]!;
    const lines: Measured[] = [];
    progress.begin('importing a year');
    lines.push(measureImport());
    progress.begin('pricing a year');
    lines.push(measurePricing());
    if (options.quick !== true) lines.push(...(await slowOnes(options, progress)));
    progress.end();
    print(formatMeasured(lines));
    if (options.quick === true) {
      print('skipped: the fill, LibreOffice and the battery (--quick)\n');
    } else print(`\n${ruleTable(progress)}\n\n${yearTable()}\n`);
    const loads = [loadBefore, loadavg()[0]!].map((load) => load.toFixed(1));
    print(`${availableParallelism()} cores, load average ${loads[0]} at the start, ${loads[1]} at the end\n`);
  });

function ruleTable(progress: Progress): string {
  const cases = ruleCases((name) => progress.begin(`battery’s rule, ${name}`));
  progress.end();
  return formatRuleCases(cases);
}

async function slowOnes({ against, years }: BenchOptions, progress: Progress): Promise<Measured[]> {
  const folder = await mkdtemp(join(tmpdir(), 'bench-'));
  const onStep = (step: string): void => progress.begin(step);
  try {
    const { lines, workbooks } = await measureFill(folder, onStep);
    const earlier = against === undefined ? undefined : resolve(against);
    lines.push(...(await measureInCalc({ filled: workbooks.filled, earlier, years, folder }, onStep)));
    progress.begin('least cost of a battery');
    const battery = await timeLeastCost();
    lines.push(compareTimes('Least cost, battery year / solver', battery.ownMs, battery.solverMs, 0.01));
    return lines;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function wholeYears(text: string): number {
  const years = Number(text);
  if (Number.isInteger(years) && years >= 2) return years;
  throw new InvalidArgumentError('Give a whole number of years, 2 or more.');
}

await runProjectCommand(command);
