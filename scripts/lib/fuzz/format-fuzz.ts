import type { FuzzRun, Tried } from './run-fuzz.js';

const FAULTS_SHOWN = 20;
const NAME_WIDTH = 42;

/**
 * What a run tried, by shape of file and by mutation, and the first faults.
 *
 * @param run the run
 * @returns text that ends with a newline
 * @example formatFuzz(runFuzz('readings', (files) => files < 100))
 */
export function formatFuzz(run: FuzzRun): string {
  const lines = [row('', ['files', 'accepted', 'refused'])];
  for (const [title, tallies] of [
    ['by shape', run.bySample],
    ['by mutation; a file may have two', run.byKind],
  ] as const) {
    lines.push(title);
    for (const name of [...tallies.keys()].sort()) lines.push(row(`  ${name}`, cellsOf(tallies.get(name)!)));
  }
  lines.push(row('all', cellsOf(run)), '');
  for (const fault of run.faults.slice(0, FAULTS_SHOWN)) lines.push(fault);
  if (run.faults.length > FAULTS_SHOWN) lines.push('and more');
  lines.push(`Seed "${run.seed}": ${run.files} mutated files, ${run.faults.length} faults.`, '');
  return lines.join('\n');
}

function cellsOf({ files, accepted, refused }: Tried): string[] {
  return [files, accepted, refused].map(String);
}

function row(name: string, cells: readonly string[]): string {
  return `${name.padEnd(NAME_WIDTH)}${cells.map((cell) => cell.padStart(10)).join('')}`;
}
