import { InputError } from '../../errors.js';
import { readXml } from '../read-xml.js';

/** An interval with what was metered in it. */
export interface IntervalReading {
  line: number;
  /** Seconds since 1970, UTC. */
  start: string;
  /** Seconds. */
  duration: string;
  /** Whole number in the unit and power of ten of its type; undefined where there is none. */
  value?: string;
  /** Whether a cost stands beside it. */
  hasCost: boolean;
  /** Numbers of its qualities. */
  qualities: string[];
}

/** An entry of the feed: a resource, and how it hangs together with others. */
export interface EspiEntry {
  line: number;
  /** Name of the resource's element. */
  kind: string;
  title: string;
  self: string;
  up: string;
  related: string[];
  /** Texts of its own elements, and `serviceKind` of a usage point. */
  fields: Record<string, string>;
  readings: IntervalReading[];
}

/**
 * Reads the entries of an ESPI feed (NAESB REQ.21, Energy Services Provider Interface; Atom, RFC 4287; elements and numbers of codes
 * from memory), whatever prefixes they have.
 *
 * @param xml the document
 * @param file name for messages
 * @returns entries in the order of the feed
 * @throws InputError where the document is not well-formed, and where a reading stands outside every entry
 * @example espiEntries(xml, 'may.xml').map(({ kind }) => kind) // ['UsagePoint', 'MeterReading', 'ReadingType', 'IntervalBlock']
 */
export function espiEntries(xml: string, file: string): EspiEntry[] {
  const entries: EspiEntry[] = [];
  const path: string[] = [];
  let entry: EspiEntry | undefined;
  let reading: IntervalReading | undefined;
  let text = '';
  readXml(xml, file, {
    open: (name, at, line) => {
      const parent = path.at(-1);
      path.push(name);
      text = '';
      if (name === 'entry') {
        entry = { line, kind: '', title: '', self: '', up: '', related: [], fields: {}, readings: [] };
        entries.push(entry);
      } else if (entry === undefined) {
        if (name === 'IntervalReading') {
          throw new InputError(
            'a reading stands outside every entry of the feed',
            'Download the file again.',
            {
              file,
              line,
            },
          );
        }
      } else if (name === 'link' && parent === 'entry') addLink(entry, at.rel ?? '', at.href ?? '');
      else if (parent === 'content') entry.kind = name;
      else if (name === 'IntervalReading') {
        reading = { line, start: '', duration: '', hasCost: false, qualities: [] };
        entry.readings.push(reading);
      }
    },
    close: (name) => {
      path.pop();
      const parent = path.at(-1);
      if (entry !== undefined) addText(entry, reading, parent, name, text.trim());
      if (name === 'IntervalReading') reading = undefined;
      if (name === 'entry') entry = undefined;
      text = '';
    },
    text: (more) => {
      text += more;
    },
  });
  return entries;
}

function addLink(entry: EspiEntry, rel: string, href: string): void {
  const bare = href.replace(/^https?:\/\/[^/]*/i, '').replace(/\/+$/, '');
  if (rel === 'self') entry.self = bare;
  else if (rel === 'up') entry.up = bare;
  else if (rel === 'related') entry.related.push(bare);
}

function addText(
  entry: EspiEntry,
  reading: IntervalReading | undefined,
  parent: string | undefined,
  name: string,
  text: string,
): void {
  if (reading !== undefined) {
    if (parent === 'timePeriod' && name === 'start') reading.start = text;
    else if (parent === 'timePeriod' && name === 'duration') reading.duration = text;
    else if (parent === 'IntervalReading' && name === 'value') reading.value = text;
    else if (parent === 'IntervalReading' && name === 'cost') reading.hasCost = true;
    else if (parent === 'ReadingQuality' && name === 'quality') reading.qualities.push(text);
  } else if (parent === 'entry' && name === 'title') entry.title = text;
  else if (parent === 'ServiceCategory' && name === 'kind') entry.fields.serviceKind = text;
  else if (parent !== undefined && parent === entry.kind) entry.fields[name] = text;
}
