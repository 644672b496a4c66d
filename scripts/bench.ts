import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { Progress } from '../src/cli/progress.js';
import { timeLeastCost } from '../test/battery/time-least-cost.js';
import { formatMeasured } from './lib/bench/format-measured.js';
import { measureImport, measurePricing } from './lib/bench/library-speed.js';
import { compareTimes, type Measured } from './lib/bench/measure.js';
import { measureFill, measureInCalc } from './lib/bench/workbook-speed.js';

const command = projectCommand(
  'bench',
  'Measures speed, memory and sizes, each beside its baseline from the same run.',
)
  .option('--quick', 'leave out what takes long: the fill, LibreOffice, the solver')
  .action(async ({ quick }: { quick?: boolean }) => {
    const progress = new Progress();
    const lines: Measured[] = [];
    progress.begin('importing a year');
    lines.push(measureImport());
    progress.begin('pricing a year');
    lines.push(measurePricing());
    if (quick !== true) lines.push(...(await slowOnes(progress)));
    progress.end();
    process.stdout.write(formatMeasured(lines));
    if (quick === true) process.stdout.write('skipped: the fill, LibreOffice and the battery (--quick)\n');
  });

async function slowOnes(progress: Progress): Promise<Measured[]> {
  const folder = await mkdtemp(join(tmpdir(), 'bench-'));
  try {
    const { lines, workbooks } = await measureFill(folder, (step) => progress.begin(step));
    progress.begin('LibreOffice');
    lines.push(...(await measureInCalc(workbooks.filled)));
    progress.begin('least cost of a battery');
    const battery = await timeLeastCost();
    lines.push(compareTimes('Least cost of a battery year / solver', battery.ownMs, battery.solverMs, 0.01));
    return lines;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

await runProjectCommand(command);
