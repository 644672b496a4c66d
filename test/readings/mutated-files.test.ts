import { describe, expect, test } from 'vitest';
import { formatFuzz } from '../../scripts/lib/fuzz/format-fuzz.js';
import type { Understood } from '../../scripts/lib/fuzz/fuzz-readers.js';
import { type FuzzSample, fuzzSamples } from '../../scripts/lib/fuzz/fuzz-samples.js';
import { runFuzz, wholeFile } from '../../scripts/lib/fuzz/run-fuzz.js';

const FILES = 20_000;

describe('a mutated file is refused with a sentence, or gives what its sound lines gave, or the report names the difference', () => {
  test(`${FILES} files over samples of ${fuzzSamples().length} shapes`, () => {
    const run = runFuzz('readings', (tried) => tried < FILES);
    console.log(formatFuzz(run));
    expect(run.faults).toEqual([]);
    // A run that refuses nearly all, or accepts nearly all, of a shape would show little of it.
    for (const [shape, { files, accepted }] of run.bySample) {
      // Most of a document of XML is tags, and whatever breaks one breaks all.
      const fewest = shape === 'ESPI' ? 0.1 : 0.2;
      expect([shape, accepted / files > fewest && accepted / files < 0.8]).toEqual([shape, true]);
    }
  });
});

describe('a reader that errs is noticed', () => {
  /** The samples, read by a reader that errs wherever the file is not the sample itself. */
  function misread(err: (found: Understood) => Understood): FuzzSample[] {
    return fuzzSamples().map((sample) => {
      const whole = wholeFile(sample);
      const read = (bytes: Uint8Array): Understood => {
        const found = sample.read(bytes);
        return Buffer.compare(bytes, whole) === 0 ? found : err(found);
      };
      return { ...sample, read };
    });
  }
  const changed = (
    change: (key: string, value: number, i: number) => [string, number] | undefined,
  ): ((found: Understood) => Understood) => {
    return ({ values, report }) => ({
      report,
      values: new Map(
        [...values].flatMap(([key, { value, line }], i) => {
          const now = change(key, value, i);
          return now === undefined ? [] : [[now[0], { value: now[1], line }]];
        }),
      ),
    });
  };
  const lines =
    (more: Partial<Understood['report']['lines']>) =>
    ({ values, report }: Understood): Understood => ({
      values,
      report: { ...report, lines: { ...report.lines, ...more } },
    });

  test.each<[string, (found: Understood) => Understood, RegExp]>([
    ['loses one value', changed((key, value, i) => (i === 9 ? undefined : [key, value])), / is lost$/m],
    [
      'loses the marks',
      changed((key, value) => (key.startsWith('mark') ? undefined : [key, value])),
      /mark \d+ of line \d+ is lost/,
    ],
    ['doubles a value', changed((key, value, i) => [key, i === 9 ? value * 2 : value]), / for /],
    [
      'is half an hour off',
      changed((key, value) => [key.replace(/\d+$/, (ms) => String(Number(ms) + 1_800_000)), value]),
      /lost|nothing/,
    ],
    [
      'takes one channel for another',
      ({ values, report }) => ({
        values,
        report: { ...report, columns: report.columns.map((column) => ({ ...column, meaning: 'importKwh' })) },
      }),
      /understood differently/,
    ],
    ['counts a line too few', lines({ all: 12 }), /do not add up/],
    [
      'ends with a fault',
      () => {
        throw new TypeError('of the program');
      },
      /no sentence, but TypeError/,
    ],
  ])('that %s', (_, err, message) => {
    const { faults } = runFuzz('errs', (tried) => tried < 260, misread(err));
    expect(faults.length).toBeGreaterThan(3);
    expect(faults.join('\n')).toMatch(message);
  });
});

test('the same seed tries the same files', () => {
  const two = [1, 2].map(() => formatFuzz(runFuzz('twice', (tried) => tried < 52)));
  expect(two[0]).toBe(two[1]);
});
