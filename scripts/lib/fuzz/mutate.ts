import type { RandomStream } from '../../../src/sample/seeded-random.js';
import { ENCODINGS, type Encoding, encode } from './encode.js';
import type { FuzzSample } from './fuzz-samples.js';

/** A file after some mutations, and what they did to its lines (numbers from 1, of the file as it was). */
export interface Mutated {
  bytes: Uint8Array;
  /** The text that was encoded; undefined where bytes of it were changed afterwards. */
  text: string | undefined;
  /** Kinds of mutations, and the encoding where it is another. */
  kinds: string[];
  /** What was done, in words. */
  what: string;
  /** Lines whose text was changed. */
  touched: Set<number>;
  /** Lines that are no longer there. */
  absent: Set<number>;
  /** Lines that stand elsewhere, or twice. */
  moved: Set<number>;
}

interface Line {
  /** Numbers of the lines that it holds, from 1. */
  from: number[];
  text: string;
}

const CHARACTERS = '0123456789.,;:-/+ \t"\'#eEoOxXkKwWhHAMPmpzZ=%';
const MOST_LINES_OF_BLOCK = 6;
const SWAPPED = 'cells swapped';

/** The file while it is being changed. */
class Change {
  readonly touched = new Set<number>();
  readonly absent = new Set<number>();
  readonly moved = new Set<number>();
  readonly kinds: string[] = [];
  readonly done: string[] = [];
  isCut = false;
  list: Line[];

  constructor(
    readonly sample: FuzzSample,
    readonly random: RandomStream,
  ) {
    this.list = sample.lines.map((text, i) => ({ from: [i + 1], text }));
  }

  /** A whole number from 0, below the given one. */
  pick(below: number): number {
    return Math.floor(this.random.uniform() * below);
  }

  /** A line: often one of the first, where the header is found, or the last, where a download breaks off. */
  someLine(): number {
    const at = this.random.uniform();
    const first = Math.min(this.sample.keptLines, this.list.length - 1);
    if (at < 0.35) return Math.min(first + this.pick(5), this.list.length - 1);
    return at < 0.45 ? this.list.length - 1 : this.anyLine();
  }

  anyLine(): number {
    const first = Math.min(this.sample.keptLines, this.list.length - 1);
    return first + this.pick(this.list.length - first);
  }

  rewrite(kind: string, i: number, text: string): void {
    const line = this.list[i]!;
    if (text === line.text) return;
    for (const n of line.from) this.touched.add(n);
    this.list[i] = { ...line, text };
    this.say(kind, `line ${i + 1}: ${text.slice(0, 60)}`);
  }

  say(kind: string, where: string): void {
    this.kinds.push(kind);
    this.done.push(`${kind}, ${where}`);
  }

  mark(lines: readonly Line[], as: 'touched' | 'absent' | 'moved'): void {
    for (const { from } of lines) for (const n of from) this[as].add(n);
  }
}

/** Mutations of one line's characters: what is typed, and what a bad cable does. */
const ofCharacters =
  (kind: string, make: (before: string, hit: string, after: string, typed: string) => string) =>
  (change: Change): void => {
    const i = change.someLine();
    const { text } = change.list[i]!;
    const at = change.pick(text.length + 1);
    const typed = CHARACTERS[change.pick(CHARACTERS.length)]!;
    change.rewrite(kind, i, make(text.slice(0, at), text.slice(at, at + 1), text.slice(at + 1), typed));
  };

/** Mutations of one line's cells; names that change places make another header, as good as the first. */
const ofCells =
  (kind: string, make: (cells: string[], i: number, k: number) => string[]) =>
  (change: Change): void => {
    const { delimiter, headLines } = change.sample;
    const i = change.someLine();
    if (kind === SWAPPED && change.list[i]!.from[0]! <= headLines) return;
    const cells = change.list[i]!.text.split(delimiter);
    const changed = make(cells, change.pick(cells.length), change.pick(cells.length));
    change.rewrite(kind, i, changed.join(delimiter));
  };

const swapped = <Item>(items: readonly Item[], i: number, k: number): Item[] =>
  items.with(i, items[k]!).with(k, items[i]!);

const MUTATIONS: readonly ((change: Change) => void)[] = [
  ofCharacters('character changed', (before, _, after, typed) => before + typed + after),
  ofCharacters('character added', (before, hit, after, typed) => before + typed + hit + after),
  ofCharacters('character lost', (before, _, after) => before + after),
  (change) => {
    const bit = 1 << change.pick(7);
    ofCharacters('bit flipped', (before, hit, after) =>
      hit === '' ? before : before + String.fromCharCode(hit.charCodeAt(0) ^ bit) + after,
    )(change);
  },
  ofCells(SWAPPED, swapped),
  ofCells('cell doubled', (cells, i, k) => cells.toSpliced(k, 0, cells[i]!)),
  ofCells('cell lost', (cells, i) => cells.toSpliced(i, 1)),
  function cut(change) {
    if (change.isCut) return;
    change.isCut = true;
    const i = change.someLine();
    const line = change.list[i]!;
    change.mark(change.list.slice(i + 1), 'absent');
    change.list.splice(i + 1);
    const text = line.text.slice(0, change.pick(line.text.length + 1));
    if (text !== line.text) change.mark([line], 'touched');
    change.list[i] = { ...line, text };
    change.say('end cut off', `in line ${i + 1}: ${text.slice(-60)}`);
  },
  function join(change) {
    const i = change.someLine();
    const [line, next] = change.list.slice(i, i + 2);
    if (next === undefined) return;
    change.mark([line!, next], 'touched');
    change.list.splice(i, 2, { from: [...line!.from, ...next.from], text: line!.text + next.text });
    change.say('lines joined', `${i + 1} and ${i + 2}`);
  },
  function double(change) {
    const i = change.someLine();
    const count = change.pick(2) === 0 ? 1 : 1 + change.pick(MOST_LINES_OF_BLOCK);
    const block = change.list.slice(i, i + count);
    const to = change.pick(2) === 0 ? i : change.anyLine();
    change.list.splice(to, 0, ...block);
    change.mark(block, 'moved');
    change.say('lines doubled', `${block.length} from ${i + 1} again at ${to + 1}`);
  },
  function drop(change) {
    if (change.list.length < 2) return;
    const i = change.someLine();
    const count = change.pick(2) === 0 ? 1 : 1 + change.pick(MOST_LINES_OF_BLOCK);
    change.mark(change.list.splice(i, Math.min(count, change.list.length - 1)), 'absent');
    change.say('lines lost', `${count} from ${i + 1}`);
  },
  function swap(change) {
    const [i, k] = [change.someLine(), change.anyLine()];
    if (i === k) return;
    change.mark([change.list[i]!, change.list[k]!], 'moved');
    change.list = swapped(change.list, i, k);
    change.say('lines swapped', `${i + 1} and ${k + 1}`);
  },
  function doubleAll(change) {
    // Two downloads, one pasted below the other.
    if (change.pick(4) > 0) return;
    change.mark(change.list, 'moved');
    change.list = [...change.list, ...change.list];
    change.say('file doubled', 'header and all');
  },
  function swapColumns(change) {
    const { delimiter, isLong, lines } = change.sample;
    const width = lines.at(-1)!.split(delimiter).length;
    if (!isLong || lines.some((line) => line.includes('"') || line.split(delimiter).length !== width)) return;
    const [i, k] = [change.pick(width), change.pick(width)];
    // A line that another mutation changed may have other cells.
    if (i === k || change.list.some(({ text }) => text.split(delimiter).length !== width)) return;
    change.list = change.list.map((line) => ({
      ...line,
      text: swapped(line.text.split(delimiter), i, k).join(delimiter),
    }));
    change.mark(change.list, 'moved');
    change.say('columns swapped', `${i + 1} and ${k + 1}`);
  },
];

/**
 * Changes a file as typing, editors and broken downloads do: flips, adds and drops characters, bits and cells; cuts, joins, doubles, drops
 * and swaps lines; swaps columns; writes it in another encoding, and breaks a byte of that.
 *
 * @param sample the file
 * @param random where the choices come from
 * @returns the bytes, and the lines concerned
 * @example mutate(fuzzSamples()[0], seededRandom('one')).what // 'lines swapped, 3 and 9'
 */
export function mutate(sample: FuzzSample, random: RandomStream): Mutated {
  const change = new Change(sample, random);
  const count = random.uniform() < 0.75 ? 1 : 2;
  // Some find nothing to change: others are tried in their place.
  for (let tries = 0; change.kinds.length < count && tries < 20; tries++) {
    MUTATIONS[change.pick(MUTATIONS.length)]!(change);
  }
  if (sample.pack !== undefined) return packed(change, sample.pack);
  const encoding: Encoding = random.uniform() < 0.5 ? 'UTF-8' : ENCODINGS[change.pick(ENCODINGS.length)]!;
  if (encoding !== 'UTF-8') change.say(encoding, 'all of it');
  const end = encoding === 'CRLF' ? '\r\n' : encoding === 'CR' ? '\r' : '\n';
  const texts = change.list.map(({ text }, i) =>
    change.isCut && i === change.list.length - 1 ? text : text + end,
  );
  const parts = texts.map((text, i) => encode(text, encoding, i === 0));
  const isBroken = random.uniform() < 0.05;
  if (isBroken && sample.packText === undefined) breakByte(change, parts);
  const whole = Buffer.concat(parts);
  const bytes = sample.packText?.(whole) ?? whole;
  if (isBroken && sample.packText !== undefined) breakPacked(change, bytes);
  return mutated(change, bytes, isBroken ? undefined : texts.join(''));
}

function mutated(change: Change, bytes: Uint8Array, text: string | undefined): Mutated {
  const { kinds, done, touched, absent, moved } = change;
  return { bytes, text, kinds, what: done.join('; '), touched, absent, moved };
}

function packed(change: Change, pack: (lines: readonly string[]) => Uint8Array): Mutated {
  const bytes = pack(change.list.map(({ text }) => text));
  if (change.random.uniform() < 0.1) breakPacked(change, bytes);
  return mutated(change, bytes, undefined);
}

/** Flips a bit of a packed file: its checksums tell, where it is one of the content. */
function breakPacked(change: Change, bytes: Uint8Array): void {
  const at = change.pick(bytes.length);
  bytes[at]! ^= 1 << change.pick(8);
  change.say('byte of the packed file broken', `byte ${at}`);
}

/** Flips a bit of what is written: no longer text of its encoding, maybe, or no line end. */
function breakByte(change: Change, parts: readonly Buffer[]): void {
  const i = change.someLine();
  const part = parts[i]!;
  if (part.length === 0) return;
  const at = change.pick(part.length);
  part[at]! ^= 1 << change.pick(8);
  change.mark(change.list.slice(i, i + 2), 'touched');
  change.say('byte broken', `byte ${at} of line ${i + 1}`);
}
