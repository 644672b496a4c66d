import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { findCalc } from '../../scripts/lib/calc/find-calc.js';
import { describeWithCalc } from './availability.js';

const folder = fileURLToPath(new URL('../../scripts/lib/calc', import.meta.url));

/** What the bridge writes for an answer, given as Python. */
function answered(message: string): string {
  const { python } = findCalc() as { python: string };
  const program = `import calc_bridge; calc_bridge.answer(${message})`;
  return execFileSync(python, ['-B', '-c', program], {
    encoding: 'utf8',
    env: { ...process.env, PYTHONPATH: folder },
  });
}

describeWithCalc('answers of the bridge to LibreOffice', () => {
  it('are a line of JSON', () => {
    expect(answered('{"id": 1, "result": {"milliseconds": 0.5, "text": "£\\n"}}')).toBe(
      '{"id": 1, "result": {"milliseconds": 0.5, "text": "\\u00a3\\n"}}\n',
    );
  });

  it('have null for a number that JSON can’t write, wherever it stands', () => {
    const line = answered(
      '{"id": 2, "result": {"cells": [[1.5, float("nan")], (float("inf"), "NaN")], "value": -float("inf")}}',
    );
    expect(JSON.parse(line)).toEqual({
      id: 2,
      result: {
        cells: [
          [1.5, null],
          [null, 'NaN'],
        ],
        value: null,
      },
    });
  });
});
