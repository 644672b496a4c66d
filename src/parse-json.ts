import type { z } from 'zod';
import { InputError, refuse } from './errors.js';

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
  let content: unknown;
  try {
    content = JSON.parse(json);
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
  const result = schema.safeParse(content);
  if (result.success) return result.data;
  refuse(
    result.error.issues.map(({ message, path }) => ({
      found: message.replace(/\.$/, ''),
      whatToDo: 'Correct it and try again.',
      place: { file, line: pathText(path) },
    })),
  );
  throw new Error('JSON that does not follow its schema has no fault', { cause: result.error });
}

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
