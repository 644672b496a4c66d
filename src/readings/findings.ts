import type { Finding, FindingKind } from './file-report.js';
import { PLACES_SHOWN } from './file-report.js';
import type { Table } from './read-table.js';

/** What each kind of finding means, and what was done about it. */
const MEANING: Record<FindingKind, [message: string, done: string]> = {
  gap: ['half-hours missing', ''],
  'missing day': ['days missing', ''],
  'missing period': ['times between periods without a value', ''],
  'long period': ['periods of more than thirteen months', 'kept; check the dates of their two ends'],
  'part of a day': [
    'periods of less than a day',
    'joined to the one beside them, as gas is kept by whole days',
  ],
  'less than a day': [
    'less than a day of gas between two gaps',
    'no whole day, so the workbook has no row for it',
  ],
  'incomplete half-hour': ['half-hours with a part missing', 'left out'],
  duplicate: ['values given twice, the same both times', 'counted once'],
  conflict: ['values given twice and different', 'the later one kept'],
  negative: ['negative values', 'kept'],
  'overlapping sessions': ['sessions that begin before another ends', 'added up'],
  outlier: ['values out of the ordinary', 'kept'],
  estimated: ['reads marked as estimated', 'kept with their marks'],
  'estimated gas': ['reads marked as estimated', 'counted as they are; the workbook keeps no mark of them'],
  'short line': ['lines with fewer cells than the others', 'what is missing taken as blank'],
  'odd mark': ['marks that mean neither estimated nor actual', 'not taken as estimated'],
  'register backwards': ['register reads lower than the one before', 'energy in between unknown, left out'],
  'register rolled over': ['times that the register passed its highest number', 'counted on from nought'],
  'register restarted': [
    'times that the counter of the day restarted after its last read',
    'energy between that read and midnight unknown, left out',
  ],
  'register gap': ['register reads missing', 'energy in between left out, not spread over the half-hours'],
  'register end': [
    'intervals after the last read of a day',
    'left out; give this file together with the next one, whose first read ends it',
  ],
  'skipped hour': [
    'values in an hour that the clock skipped',
    'left out; if this clock never changes, give its offset: --stamp-zone',
  ],
  'repeated hour': [
    'stamps of the repeated hour that occur once',
    'taken as the first of the two, the second is missing',
  ],
  'repeated hour order': [
    'stamps of the repeated hour that stand below a later one',
    'which of the two they are taken as the file has them; put its lines in order of time',
  ],
};

/** Gathers what is found while files are read. */
export class Findings {
  private readonly found = new Map<string, Finding & { file: number }>();
  private readonly assumed = new Map<number, string[]>();

  /** @param tables the files, by their number */
  constructor(private readonly tables: readonly Table[]) {}

  /**
   * Notes one thing found.
   *
   * @param file number of the file
   * @param kind what it is
   * @param channel channel concerned, '' where none is
   * @param place record of the table, and what stands there
   * @param count how often, 1 unless given
   */
  add(
    file: number,
    kind: FindingKind,
    channel: string,
    place: { record: number; text: string } | { record: number; text: () => string },
    count = 1,
  ): void {
    const key = `${file} ${kind} ${channel}`;
    let finding = this.found.get(key);
    if (finding === undefined) {
      finding = {
        file,
        kind,
        count: 0,
        message: MEANING[kind][0],
        done: MEANING[kind][1],
        places: [],
        placeCount: 0,
        ...(channel === '' ? {} : { channel }),
      };
      this.found.set(key, finding);
    }
    finding.count += count;
    finding.placeCount++;
    if (finding.places.length >= PLACES_SHOWN) return;
    const table = this.tables[file]!;
    const text = typeof place.text === 'string' ? place.text : place.text();
    finding.places.push({ file: table.file, line: table.lineOf(place.record), text });
  }

  /** Notes what was taken without being stated. */
  assume(file: number, text: string): void {
    const list = this.assumed.get(file) ?? [];
    if (!list.includes(text)) list.push(text);
    this.assumed.set(file, list);
  }

  /** What was found in a file, in the order of kinds. */
  of(file: number): Finding[] {
    const kinds = Object.keys(MEANING);
    return [...this.found.values()]
      .filter((finding) => finding.file === file)
      .map(({ file: _, ...finding }) => finding)
      .sort((a, b) => kinds.indexOf(a.kind) - kinds.indexOf(b.kind));
  }

  /** What was assumed of a file. */
  assumptionsOf(file: number): string[] {
    return this.assumed.get(file) ?? [];
  }
}
