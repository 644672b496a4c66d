import { InputError } from '../../errors.js';
import { type EspiEntry, espiEntries, type IntervalReading } from './espi-entries.js';

/** What a stream of readings measures, or why it is of no use here. */
export type Measured =
  | { of: 'electricity'; flow: 'forward' | 'reverse' | 'unstated'; unit: 'Wh' | 'W' }
  | { of: 'gas'; unit: 'm3' | 'ft3' | 'kWh'; factor: number }
  | { of: 'other'; why: string };

/** Interval readings of one meter and one type. */
export interface EspiStream {
  /** Name of the meter as the feed titles it, or its number among them. */
  meter: string;
  title: string;
  measured: Measured;
  powerOfTen: number;
  /** Quality where a reading states none. */
  defaultQuality: string | undefined;
  line: number;
  readings: IntervalReading[];
}

/** Energy of a therm (100,000 British thermal units) and of one such unit, kWh (from memory). */
export const THERM_KWH = 29.3071;
const BTU_KWH = 0.000293071;

/**
 * Whether a document is an ESPI feed.
 *
 * @param head its beginning
 * @returns true where it names the standard's name space, or begins an Atom feed
 * @example isEspi('<feed xmlns="http://www.w3.org/2005/Atom">') // true
 */
export function isEspi(head: string): boolean {
  return head.includes('http://naesb.org/espi') || /<([\w.-]+:)?(feed|entry)\b[^>]*2005\/Atom/.test(head);
}

/**
 * Puts the readings of a feed together with what its other entries say of them: blocks and meters may come in any order.
 *
 * @param xml the document
 * @param file name for messages
 * @returns a stream for each meter reading
 * @throws InputError naming the line of readings outside a block, of a block that can't be told to which meter or type it belongs, or of a type that is not understood
 * @example espiStreams(xml, 'may.xml')[0]?.measured.of // 'electricity'
 */
export function espiStreams(xml: string, file: string): EspiStream[] {
  const entries = espiEntries(xml, file);
  const ofKind = (kind: string): EspiEntry[] => entries.filter((entry) => entry.kind === kind);
  const points = ofKind('UsagePoint');
  const meters = ofKind('MeterReading');
  const types = ofKind('ReadingType');
  const astray = entries.find(({ kind, readings }) => kind !== 'IntervalBlock' && readings.length > 0);
  if (astray !== undefined) {
    throw new InputError(
      `readings stand in an entry of "${astray.kind}", not of IntervalBlock`,
      'Download the file again.',
      { file, line: astray.readings[0]!.line },
    );
  }
  const streams = new Map<string, EspiStream>();
  for (const block of ofKind('IntervalBlock')) {
    const meter = meters.find((one) => holds(one, block, 'IntervalBlock')) ?? only(meters);
    const type =
      types.find(
        (one) => one.self !== '' && [...(meter?.related ?? []), ...block.related].includes(one.self),
      ) ?? only(types);
    if (type === undefined || (meter === undefined && meters.length > 0)) {
      throw new InputError(
        `a block of readings does not say of which ${type === undefined ? 'type' : 'meter'} it is`,
        'Download the file again.',
        { file, line: block.line },
      );
    }
    const at = meter ?? block;
    const point = points.find((one) => holds(one, at, 'MeterReading')) ?? only(points);
    const key = `${meter?.line} ${type.line} ${point?.line}`;
    const known = streams.get(key);
    if (known !== undefined) {
      known.readings.push(...block.readings);
      continue;
    }
    streams.set(key, {
      meter: point?.title || (points.length > 1 ? `meter ${points.indexOf(point!) + 1}` : 'meter'),
      title: meter?.title ?? '',
      measured: measuredOf(type, point),
      powerOfTen: powerOf(type, file),
      defaultQuality: type.fields.defaultQuality,
      line: block.line,
      readings: [...block.readings],
    });
  }
  return [...streams.values()];
}

/** Whether an entry is the one that another hangs below. */
function holds(upper: EspiEntry, lower: EspiEntry, kind: string): boolean {
  if (upper.self !== '' && (lower.up === `${upper.self}/${kind}` || lower.related.includes(upper.self)))
    return true;
  if (lower.up !== '' && upper.related.includes(lower.up)) return true;
  return upper.self !== '' && lower.self.startsWith(`${upper.self}/`);
}

const only = <Item>(list: readonly Item[]): Item | undefined => (list.length === 1 ? list[0] : undefined);

function powerOf(type: EspiEntry, file: string): number {
  const text = type.fields.powerOfTenMultiplier ?? '0';
  const power = Number(text === '' ? 0 : text);
  if (Number.isInteger(power) && Math.abs(power) <= 12) return power;
  throw new InputError(`"${text}" is no power of ten of a unit`, 'Download the file again.', {
    file,
    line: type.line,
  });
}

const UNIT_NAMES: Readonly<Record<string, string>> = {
  '5': 'A',
  '29': 'V',
  '61': 'VA',
  '63': 'var',
  '71': 'VAh',
  '73': 'varh',
};

function measuredOf({ fields }: EspiEntry, point: EspiEntry | undefined): Measured {
  const { commodity = '', uom = '', flowDirection = '', accumulationBehaviour = '', kind = '' } = fields;
  const other = (why: string): Measured => ({ of: 'other', why });
  if (['8', '9'].includes(fields.dataQualifier ?? ''))
    return other(fields.dataQualifier === '8' ? 'maxima' : 'minima');
  if (['1', '2', '3', '9'].includes(accumulationBehaviour)) return other('states of a register');
  if (kind === '3') return other('costs');
  const service = point?.fields.serviceKind ?? '';
  const isGas = commodity === '7' || (['', '0'].includes(commodity) && service === '1');
  const isElectricity =
    ['1', '2'].includes(commodity) || (['', '0'].includes(commodity) && ['', '0'].includes(service));
  if (isGas) {
    const gas = (unit: 'm3' | 'ft3' | 'kWh', factor: number): Measured => ({ of: 'gas', unit, factor });
    if (uom === '42') return gas('m3', 1);
    if (uom === '119') return gas('ft3', 1);
    if (uom === '169') return gas('kWh', THERM_KWH);
    if (uom === '132') return gas('kWh', BTU_KWH);
    if (uom === '72') return gas('kWh', 1e-3);
    if (uom === '31') return gas('kWh', 1 / 3.6e6);
    return other(`gas in unit ${uom || 'unstated'}`);
  }
  if (!isElectricity) return other(`of commodity ${commodity || service}`);
  if (uom !== '72' && uom !== '38') return other(`in ${UNIT_NAMES[uom] ?? `unit ${uom || 'unstated'}`}`);
  const unit = uom === '72' ? 'Wh' : 'W';
  if (flowDirection === '1') return { of: 'electricity', flow: 'forward', unit };
  if (flowDirection === '19') return { of: 'electricity', flow: 'reverse', unit };
  if (['', '0'].includes(flowDirection)) return { of: 'electricity', flow: 'unstated', unit };
  return other(flowDirection === '4' ? 'net of both directions' : `of flow direction ${flowDirection}`);
}
