import { InputError } from '../../../src/errors.js';
import { seededRandom } from '../../../src/sample/seeded-random.js';
import type { Understood } from './fuzz-readers.js';
import { type FuzzSample, fuzzSamples } from './fuzz-samples.js';
import { judge } from './judge.js';
import { type Mutated, mutate } from './mutate.js';

/** Mutated files that were tried. */
export interface Tried {
  files: number;
  accepted: number;
  refused: number;
}

/** What a run tried, and what it found. */
export interface FuzzRun extends Tried {
  seed: string;
  /** Files by sample, and by kind of mutation; a file with two kinds counts for both. */
  bySample: Map<string, Tried>;
  byKind: Map<string, Tried>;
  /** Each fault in words. */
  faults: string[];
}

/**
 * Reads mutated files and holds each against its sample: it is refused with a sentence, or its untouched lines give the values that they
 * gave before, understood as before, and nothing else comes but from touched lines; else the report names the difference.
 *
 * @param seed of the mutations: the same seed tries the same files
 * @param goOn told how many files were tried; false ends the run
 * @param samples the files to mutate; small ones of every shape where none are given
 * @returns counts, and each fault in words
 * @example runFuzz('readings', (files) => files < 3000).faults // []
 */
export function runFuzz(
  seed: string,
  goOn: (files: number) => boolean,
  samples: readonly FuzzSample[] = fuzzSamples(),
): FuzzRun {
  const truths = samples.map((sample) => ({ sample, before: truthOf(sample) }));
  const run: FuzzRun = {
    seed,
    files: 0,
    accepted: 0,
    refused: 0,
    bySample: new Map(),
    byKind: new Map(),
    faults: [],
  };
  while (goOn(run.files)) {
    const { sample, before } = truths[run.files % truths.length]!;
    const mutated = mutate(sample, seededRandom(`${seed} ${run.files}`));
    const { isAccepted, fault } = tryOne(sample, before, mutated);
    if (fault !== undefined)
      run.faults.push(`${run.files}, ${sample.name}; ${mutated.what}: ${fault}\n${headOf(mutated)}`);
    const tallies = [tally(run.bySample, sample.name)];
    for (const kind of new Set(mutated.kinds)) tallies.push(tally(run.byKind, kind));
    for (const count of [run, ...tallies]) {
      count.files++;
      if (isAccepted) count.accepted++;
      else count.refused++;
    }
  }
  return run;
}

/**
 * The file of a sample as it is.
 *
 * @param sample the sample
 * @returns its bytes
 * @example wholeFile(fuzzSamples()[0])
 */
export function wholeFile({ lines, pack, packText }: FuzzSample): Uint8Array {
  const text = Buffer.from(`${lines.join('\n')}\n`);
  return pack?.(lines) ?? packText?.(text) ?? text;
}

/** What the unmutated file gives; where the reader names no lines, a line gives its values after the one above. */
function truthOf(sample: FuzzSample): Understood {
  const { values, report } = sample.read(wholeFile(sample));
  const perLine = sample.reach === 0 ? sample.valuesOfLine : 1;
  const placed = [...values].map(([key, { value, line }], i): [string, { value: number; line: number }] => [
    key,
    { value, line: Number.isNaN(line) ? sample.headLines + 1 + Math.floor(i / perLine) : line },
  ]);
  return { values: new Map(placed), report };
}

function tryOne(
  sample: FuzzSample,
  before: Understood,
  mutated: Mutated,
): { isAccepted: boolean; fault: string | undefined } {
  let after: Understood;
  try {
    after = sample.read(mutated.bytes);
  } catch (error) {
    const isSentence = error instanceof InputError && !/undefined|NaN|\[object/.test(error.message);
    return { isAccepted: false, fault: isSentence ? undefined : `no sentence, but ${String(error)}` };
  }
  return { isAccepted: true, fault: judge(sample, before, after, mutated) };
}

function tally(tallies: Map<string, Tried>, name: string): Tried {
  const found = tallies.get(name) ?? { files: 0, accepted: 0, refused: 0 };
  tallies.set(name, found);
  return found;
}

/** The first lines of a mutated file, for the report of a fault. */
function headOf({ bytes }: Mutated): string {
  const lines = Buffer.from(bytes).toString('utf8').split('\n').slice(0, 4);
  return lines.map((line) => `    ${JSON.stringify(line.slice(0, 100))}`).join('\n');
}
