import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';

/** What a process of LibreOffice has used since its start. */
export interface OfficeUsage {
  /** Most memory that it has held, MB (of 1,000,000 bytes). */
  peakMegabytes: number;
  /** Processor time of all its threads, user and system, s. */
  cpuSeconds: number;
}

/**
 * Asks the system what LibreOffice has used so far. Source: proc(5): `utime`, `stime` and `VmHWM`.
 *
 * @param officeGroup process group of the office
 * @returns memory and processor time; undefined where the system has no `/proc`
 * @throws Error where the group has no such process
 */
export function officeUsage(officeGroup: number): OfficeUsage | undefined {
  if (process.platform !== 'linux') return undefined;
  for (const name of readdirSync('/proc')) {
    const stat = /^\d+$/.test(name) ? readOrNothing(`/proc/${name}/stat`) : undefined;
    if (stat === undefined) continue;
    const command = stat.slice(stat.indexOf('(') + 1, stat.lastIndexOf(')'));
    // From the third field on: state, parent, process group, …
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    if (command !== 'soffice.bin' || Number(fields[2]) !== officeGroup) continue;
    const peak = /^VmHWM:\s+(\d+) kB/m.exec(readOrNothing(`/proc/${name}/status`) ?? '');
    if (peak === null) break;
    return {
      peakMegabytes: (Number(peak[1]) * 1024) / 1e6,
      cpuSeconds: (Number(fields[11]) + Number(fields[12])) / ticksPerSecond(),
    };
  }
  throw new Error(`process group ${officeGroup} has no soffice.bin`);
}

/** A process may end between being listed and being read. */
function readOrNothing(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
}

let ticks: number | undefined;

function ticksPerSecond(): number {
  ticks ??= Number(execFileSync('getconf', ['CLK_TCK'], { encoding: 'utf8' }));
  return ticks;
}
