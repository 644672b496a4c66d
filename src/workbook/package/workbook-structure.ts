import { XMLParser } from 'fast-xml-parser';
import { InputError } from '../../errors.js';

/** A defined name of the workbook. */
export interface DefinedName {
  name: string;
  /** What it stands for, without the equals sign, for example `Tariffs!$C$4`. */
  text: string;
  /** The sheet that the name belongs to; undefined for a name of the whole workbook. */
  sheet: string | undefined;
}

/** A worksheet and the part that holds it. */
interface SheetPart {
  name: string;
  part: string;
}

/** What the parts around the sheets say. */
export interface WorkbookStructure {
  /** Worksheets in the order of the tabs; sheets that hold only a chart are left out. */
  sheets: SheetPart[];
  /** Names of the other tabs, such as sheets that hold only a chart. */
  otherTabs: string[];
  definedNames: DefinedName[];
  date1904: boolean;
  sharedStringsPart: string | undefined;
}

/** Gives the text of a part, or undefined where the container does not hold it. */
type ReadPart = (part: string) => string | undefined;

/** A part that another refers to. */
export interface Relationship {
  id: string;
  /** Last word of its type, for example `comments`. */
  type: string;
  part: string;
}

type XmlNode = Record<string, unknown>;

const parser = new XMLParser({
  ignoreAttributes: false,
  attributeNamePrefix: '@',
  removeNSPrefix: true,
  parseTagValue: false,
  parseAttributeValue: false,
  trimValues: false,
  htmlEntities: true,
});

function list(value: unknown): XmlNode[] {
  if (value === undefined || value === '') return [];
  return (Array.isArray(value) ? value : [value]) as XmlNode[];
}

function child(node: unknown, name: string): XmlNode | undefined {
  const found = (node as XmlNode | undefined)?.[name];
  return typeof found === 'object' && found !== null ? (found as XmlNode) : undefined;
}

function attribute(node: XmlNode | undefined, name: string): string {
  const value = node?.[`@${name}`];
  return typeof value === 'string' ? value : '';
}

const saveAgain = 'Open it in a spreadsheet program and save it again as .xlsx.';

function parse(xml: string, part: string, fileName: string): XmlNode {
  if (/<!DOCTYPE/i.test(xml)) {
    throw new InputError(`part '${part}' has a document type, which workbooks may not have`, saveAgain, {
      file: fileName,
    });
  }
  try {
    return parser.parse(xml, true) as XmlNode;
  } catch {
    throw new InputError(`the workbook is damaged: part '${part}' can't be read`, saveAgain, {
      file: fileName,
    });
  }
}

/** The part that a target names: absolute, or relative to the part that the relationship belongs to. */
function resolveTarget(target: string, source: string): string {
  const path = decoded(target.replaceAll('\\', '/'));
  const steps = path.startsWith('/') ? [] : source.split('/').slice(0, -1);
  for (const step of path.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '' && step !== '.') steps.push(step);
  }
  return steps.join('/');
}

function decoded(target: string): string {
  try {
    return decodeURI(target);
  } catch {
    return target; // a percent sign that stands for itself
  }
}

function relationshipsPart(source: string): string {
  const cut = source.lastIndexOf('/') + 1;
  return `${source.slice(0, cut)}_rels/${source.slice(cut)}.rels`;
}

/**
 * What a part refers to inside the container.
 *
 * @param source name of the part
 * @param readPart gives the text of a part
 * @param fileName name for messages
 */
export function readRelationships(source: string, readPart: ReadPart, fileName: string): Relationship[] {
  const part = relationshipsPart(source);
  const xml = readPart(part);
  if (xml === undefined) return [];
  return list(child(parse(xml, part, fileName), 'Relationships')?.Relationship)
    .filter((node) => attribute(node, 'TargetMode') !== 'External')
    .map((node) => ({
      id: attribute(node, 'Id'),
      // The last word is the same in the transitional and the strict form of the format.
      type: attribute(node, 'Type').split('/').at(-1) ?? '',
      part: resolveTarget(attribute(node, 'Target'), source),
    }));
}

function flag(text: string): boolean {
  return text === '1' || text === 'true' || text === 'on';
}

/**
 * Finds the sheets, names and shared texts of a workbook by its relationships, whatever its parts are called.
 *
 * @param readPart gives the text of a part
 * @param fileName name for messages
 * @returns the structure
 * @throws InputError when the container is not a workbook of this format, or is damaged
 */
export function readWorkbookStructure(readPart: ReadPart, fileName: string): WorkbookStructure {
  const main = readRelationships('', readPart, fileName).find(({ type }) => type === 'officeDocument');
  const xml = main === undefined || main.part.endsWith('.bin') ? undefined : readPart(main.part);
  const workbook =
    main === undefined || xml === undefined ? undefined : child(parse(xml, main.part, fileName), 'workbook');
  if (main === undefined || workbook === undefined) {
    throw new InputError('this is not an .xlsx workbook', saveAgain, { file: fileName });
  }
  const relationships = readRelationships(main.part, readPart, fileName);
  const byId = new Map(relationships.map((relationship) => [relationship.id, relationship]));
  const tabs = list(child(workbook, 'sheets')?.sheet);
  const sheets: SheetPart[] = [];
  const otherTabs: string[] = [];
  for (const tab of tabs) {
    const relationship = byId.get(attribute(tab, 'id'));
    if (relationship?.type === 'worksheet')
      sheets.push({ name: attribute(tab, 'name'), part: relationship.part });
    else otherTabs.push(attribute(tab, 'name'));
  }
  const definedNames = list(child(workbook, 'definedNames')?.definedName).map((node) => {
    const sheetIndex = attribute(node, 'localSheetId');
    const text = node['#text'];
    return {
      name: attribute(node, 'name'),
      text: typeof text === 'string' ? text : '',
      sheet: sheetIndex === '' ? undefined : attribute(tabs[Number(sheetIndex)], 'name'),
    };
  });
  return {
    sheets,
    otherTabs,
    definedNames,
    date1904: flag(attribute(child(workbook, 'workbookPr'), 'date1904')),
    sharedStringsPart: relationships.find(({ type }) => type === 'sharedStrings')?.part,
  };
}
