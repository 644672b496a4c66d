import { type SpawnOptions, spawn } from 'node:child_process';

/** What a command did. */
export interface Ran {
  code: number | null;
  out: string;
  error: string;
}

/** Runs a program with its output in pipes. */
export function ran(program: string, args: readonly string[], options: SpawnOptions): Promise<Ran> {
  return new Promise((resolve) => {
    const child = spawn(program, args, { ...options, stdio: 'pipe' });
    const result: Ran = { code: null, out: '', error: '' };
    child.stdout.on('data', (text) => {
      result.out += text;
    });
    child.stderr.on('data', (text) => {
      result.error += text;
    });
    child.on('close', (code) => resolve({ ...result, code }));
  });
}
