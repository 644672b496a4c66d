/** Values of one channel at one interval length, or reads of its register, each with its place. */
export interface Series<C extends string> {
  channel: C;
  /** `interval`: a value for each interval; `register`: the state of a counter at an instant. */
  kind: 'interval' | 'register';
  /** Whether the counter starts again from nought at each local midnight. */
  restartsDaily?: boolean;
  /** Length of an interval, ms; for a register the usual time between reads. */
  stepMs: number;
  /** Start of each interval (instant of each read), epoch ms. */
  utcMs: Float64Array;
  /** kWh, °C, p/kWh or m³; never NaN. */
  values: Float64Array;
  /** Record of the table that each value came from. */
  records: Int32Array;
  /** File that each value came from. */
  files: Int16Array;
  /** 1 where marked as estimated. */
  estimated: Uint8Array;
}

/** A half-hour, interval or read that was given twice. */
export interface Twice {
  channel: string;
  utcMs: number;
  first: { file: number; record: number; value: number };
  second: { file: number; record: number; value: number };
}

/** One series out of several, and what they said twice. */
interface MergedSeries<C extends string> {
  series: Series<C>;
  /** Same value twice: kept once. */
  duplicates: Twice[];
  /** Different values: the later file's is kept. */
  conflicts: Twice[];
}

const SAME = 1e-9;

/**
 * Merges series of one channel, kind and interval length into one ascending series. Files count in the order of their numbers, lines
 * in the order of the file, so that the order in which series are given does not matter.
 *
 * @param parts series, each of the same channel, kind and step
 * @returns the merged series; values within 1e-9 of each other count as the same
 * @example mergeSeries([january, february]).duplicates.length // 0
 */
export function mergeSeries<C extends string>(parts: readonly Series<C>[]): MergedSeries<C> {
  const first = parts[0]!;
  const joined = parts.length === 1 ? first : join(parts);
  const duplicates: Twice[] = [];
  const conflicts: Twice[] = [];
  if (ascends(joined.utcMs)) return { series: joined, duplicates, conflicts };
  const { utcMs, values, records, files, estimated } = joined;
  const order = Uint32Array.from(utcMs, (_, i) => i).sort(
    (a, b) => utcMs[a]! - utcMs[b]! || files[a]! - files[b]! || records[a]! - records[b]!,
  );
  const kept: number[] = [];
  const marks = new Map<number, number>();
  for (const i of order) {
    const last = kept.at(-1);
    if (last === undefined || utcMs[last] !== utcMs[i]) {
      kept.push(i);
      continue;
    }
    const at = (k: number): Twice['first'] => ({ file: files[k]!, record: records[k]!, value: values[k]! });
    const twice = { channel: first.channel, utcMs: utcMs[i]!, first: at(last), second: at(i) };
    if (Math.abs(values[i]! - values[last]!) <= SAME * Math.max(1, Math.abs(values[i]!))) {
      duplicates.push(twice);
      // A value given as actual once is no estimate.
      marks.set(last, (marks.get(last) ?? estimated[last]!) & estimated[i]!);
    } else {
      conflicts.push(twice);
      kept[kept.length - 1] = i;
    }
  }
  const pick = <A extends Float64Array | Int32Array | Int16Array | Uint8Array>(from: A, to: A): A => {
    kept.forEach((i, k) => {
      to[k] = from[i]!;
    });
    return to;
  };
  const n = kept.length;
  const picked = pick(estimated, new Uint8Array(n));
  kept.forEach((i, k) => {
    const mark = marks.get(i);
    if (mark !== undefined) picked[k] = mark;
  });
  return {
    series: {
      ...first,
      utcMs: pick(utcMs, new Float64Array(n)),
      values: pick(values, new Float64Array(n)),
      records: pick(records, new Int32Array(n)),
      files: pick(files, new Int16Array(n)),
      estimated: picked,
    },
    duplicates,
    conflicts,
  };
}

function ascends(values: Float64Array): boolean {
  for (let i = 1; i < values.length; i++) if (!(values[i]! > values[i - 1]!)) return false;
  return true;
}

function join<C extends string>(parts: readonly Series<C>[]): Series<C> {
  const n = parts.reduce((sum, part) => sum + part.utcMs.length, 0);
  const joined: Series<C> = {
    ...parts[0]!,
    utcMs: new Float64Array(n),
    values: new Float64Array(n),
    records: new Int32Array(n),
    files: new Int16Array(n),
    estimated: new Uint8Array(n),
  };
  // Earliest part first: months given in any order join without a sort.
  const ordered = [...parts].sort((a, b) => (a.utcMs[0] ?? 0) - (b.utcMs[0] ?? 0));
  let at = 0;
  for (const part of ordered) {
    joined.utcMs.set(part.utcMs, at);
    joined.values.set(part.values, at);
    joined.records.set(part.records, at);
    joined.files.set(part.files, at);
    joined.estimated.set(part.estimated, at);
    at += part.utcMs.length;
  }
  return joined;
}
