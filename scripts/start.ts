import { buildTemplate } from '../src/cli/build-template.js';
import { projectCommand, runProjectCommand } from '../src/cli/command.js';
import { fillFile } from '../src/cli/fill-file.js';
import { formatBattery } from '../src/cli/format-battery.js';
import { formatComparison } from '../src/cli/format-comparison.js';
import { formatHeating } from '../src/cli/format-heating.js';
import { formatTimers } from '../src/cli/format-timers.js';
import { makeFolder } from '../src/cli/make-folder.js';
import { PATHS } from '../src/cli/paths.js';
import { print } from '../src/cli/print.js';
import { Progress } from '../src/cli/progress.js';
import { writeSample } from '../src/cli/write-sample.js';
import { saveBeside } from '../src/workbook/package/index.js';

const command = projectCommand(
  'start',
  'Builds the workbook, writes a sample year of readings, fills them in, and prints the comparison.',
).action(async () => {
  const progress = new Progress();
  progress.begin('building the workbook');
  await makeFolder(PATHS.out);
  await saveBeside(PATHS.filled, await buildTemplate(PATHS.sampleInputs));
  progress.begin('writing the sample files');
  const { year, gas, temperature } = await writeSample(PATHS.sample);
  const { result } = await fillFile(
    {
      files: year,
      gasFiles: gas,
      temperatureFiles: temperature,
      workbook: PATHS.filled,
      out: PATHS.filled,
      importOptions: {},
    },
    progress,
  );
  const { values } = result;
  const tables = [
    formatComparison(values),
    formatTimers(values),
    formatBattery(values),
    formatHeating(values),
  ];
  print(`${tables.filter((table) => table !== '').join('\n\n')}\n\n${PATHS.filled}\n`);
});
await runProjectCommand(command);
