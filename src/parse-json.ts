import type { z } from 'zod';
import { type Fault, InputError, refuse } from './errors.js';

/**
 * Reads JSON that must follow a schema.
 *
 * @param json text of the file
 * @param schema what it must hold
 * @param file its path, for messages
 * @returns what the schema makes of it
 * @throws InputError with file and path within (`tariffs[1].windows[0].from`) when something is wrong; InputErrors where several
 *   things are
 * @example parseJson('{"vatShare": 0.05}', z.object({ vatShare: z.number() }), 'home.json').vatShare // 0.05
 */
export function parseJson<Schema extends z.ZodType>(
  json: string,
  schema: Schema,
  file: string,
): z.output<Schema> {
  const result = schema.safeParse(readJson(json, file));
  if (result.success) return result.data;
  refuse(faultsOfShape(result.error, file));
  throw new Error('JSON that does not follow its schema has no fault', { cause: result.error });
}

/**
 * Reads JSON, whatever it holds.
 *
 * @param json text of the file
 * @param file its path, for messages
 * @returns what it holds
 * @throws InputError with file and line when it is no JSON
 * @example readJson('{"vatShare": 0.05}', 'home.json') // { vatShare: 0.05 }
 */
export function readJson(json: string, file: string): unknown {
  if (json.trim() === '') {
    throw new InputError('the file is empty', 'Give a file that holds JSON.', { file });
  }
  try {
    return JSON.parse(json);
  } catch (error) {
    const { message } = error as SyntaxError;
    const line = lineOfFault(json, message);
    throw new InputError(
      `this is not JSON (${message.replaceAll(/\s+/g, ' ')})`,
      'Check the commas, quotes and brackets.',
      {
        file,
        ...(line === undefined ? {} : { line }),
      },
    );
  }
}

/**
 * What does not follow a schema, in words.
 *
 * @param error what the schema says
 * @param file path of the file, for messages
 * @returns a fault for each place, with the path within the file
 */
export function faultsOfShape({ issues }: z.ZodError, file: string): Fault[] {
  return issues.map((issue) => ({ ...inWords(issue), place: { file, line: pathText(issue.path) } }));
}

/** What belongs in a place, by the schema's words. */
const BELONGS: Readonly<Record<string, string>> = {
  object: 'a group { … }',
  array: 'a list [ … ]',
  string: 'a text in quotes',
  number: 'a number without quotes',
  boolean: 'true or false',
};

/** What is wrong in a place, and what to do: a missing or another kind of value, a name that is none, or what the schema says. */
function inWords(issue: z.core.$ZodIssue): Pick<Fault, 'found' | 'whatToDo'> {
  if (issue.code === 'unrecognized_keys') {
    const names = issue.keys.map((key) => `"${key}"`).join(', ');
    return {
      found: `${names} is no name that stands here`,
      whatToDo: 'Correct its spelling, or take it out.',
    };
  }
  if (issue.code === 'invalid_format' && issue.format === 'date') {
    return { found: 'this is no date', whatToDo: 'Write it as YYYY-MM-DD, for example 2026-04-01.' };
  }
  const belongs = issue.code === 'invalid_type' ? BELONGS[issue.expected] : undefined;
  if (belongs === undefined) {
    return { found: issue.message.replace(/\.$/, ''), whatToDo: 'Correct it and try again.' };
  }
  if (issue.message.endsWith('received undefined')) {
    return { found: 'this is missing', whatToDo: `Give it: ${belongs}.` };
  }
  const received = /received (.+)$/.exec(issue.message)?.[1];
  return {
    found: `this is ${RECEIVED[received ?? ''] ?? 'something else'}, and ${belongs} belongs here`,
    whatToDo: 'Correct it and try again.',
  };
}

/** What stands in a place, by the schema's words. */
const RECEIVED: Readonly<Record<string, string>> = {
  object: 'a group { … }',
  array: 'a list [ … ]',
  string: 'a text',
  number: 'a number',
  boolean: 'true or false',
  null: 'null',
};

/** Line (from 1) that the message of the JSON parser speaks of, where it says enough to tell. */
function lineOfFault(json: string, message: string): number | undefined {
  const position = /at position (\d+)/.exec(message)?.[1];
  const [, token = '', dots, quoted] =
    /^Unexpected token '([\s\S]+?)', (\.\.\.)?"([\s\S]*)"(?:\.\.\.)? is not valid JSON$/.exec(message) ?? [];
  let at = -1;
  if (position !== undefined) at = Number(position);
  else if (message.startsWith('Unexpected end')) at = json.length;
  else if (quoted !== undefined && json.indexOf(quoted) === json.lastIndexOf(quoted)) {
    // The quotation begins ten characters before the token, or with the file.
    at = json.indexOf(quoted) + (dots === undefined ? quoted.indexOf(token) : 10);
  }
  return at < 0 ? undefined : json.slice(0, at).split('\n').length;
}

function pathText(path: readonly PropertyKey[]): string {
  return path
    .map((part, depth) =>
      typeof part === 'number' ? `[${part}]` : `${depth === 0 ? '' : '.'}${String(part)}`,
    )
    .join('');
}
