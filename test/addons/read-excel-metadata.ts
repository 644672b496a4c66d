import { createRequire } from 'node:module';
import type { IFunction } from 'custom-functions-metadata';

const load = createRequire(import.meta.url);

/**
 * What the published generator of Excel's metadata reads out of a script's doc comments.
 *
 * It needs the compiler's programming interface, which the native TypeScript has not: it is given a build that has.
 */
export function readMetadata(script: string): { functions: IFunction[]; errors: string[] } {
  const path = load.resolve('typescript');
  const { ts } = load('@ts-morph/common') as { ts: unknown };
  const before = load.cache[path];
  load.cache[path] = { exports: ts, loaded: true } as NodeJS.Module;
  try {
    const { parseTree } = load('custom-functions-metadata') as typeof import('custom-functions-metadata');
    const { functions, extras } = parseTree(script, 'functions.js');
    return { functions, errors: extras.flatMap(({ errors }) => errors) };
  } finally {
    if (before === undefined) delete load.cache[path];
    else load.cache[path] = before;
  }
}
