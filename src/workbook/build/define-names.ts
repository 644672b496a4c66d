import { strFromU8, strToU8 } from 'fflate';
import type { Area } from '../../formula/nodes.js';
import { columnLetters, sheetPrefix } from '../cell-address.js';
import { escapeXml } from '../package/index.js';

/**
 * Adds defined names to a workbook part; the builder that wrote it takes a range apart, cell by cell.
 *
 * @param workbookXml the part as written
 * @param names areas by name, one or several, or what a name stands for as the text of a formula
 * @returns the part with the names, in the order of their letters as the format's programs keep them
 */
export function defineNames(
  workbookXml: Uint8Array<ArrayBuffer>,
  names: ReadonlyMap<string, Area | readonly Area[] | string>,
): Uint8Array<ArrayBuffer> {
  const xml = withOnePrintArea(strFromU8(workbookXml));
  const own = [...names]
    .sort(([a], [b]) => (a.toLowerCase() < b.toLowerCase() ? -1 : 1))
    .map(([name, is]) => {
      const text = typeof is === 'string' ? is : [is].flat().map(textOf).join(',');
      return `<definedName name="${name}">${escapeXml(text)}</definedName>`;
    })
    .join('');
  const open = xml.indexOf('<definedNames>');
  if (open >= 0) {
    const end = open + '<definedNames>'.length;
    return strToU8(xml.slice(0, end) + own + xml.slice(end));
  }
  return strToU8(xml.replace('</sheets>', `</sheets><definedNames>${own}</definedNames>`));
}

/** The builder names each print area of a sheet by itself; the format has one name a sheet, for all of them. */
function withOnePrintArea(xml: string): string {
  const areas = /<definedName name="_xlnm\.Print_Area" localSheetId="(\d+)">([^<]*)<\/definedName>/g;
  const bySheet = new Map<string, string[]>();
  for (const [, sheet = '', area = ''] of xml.matchAll(areas)) {
    bySheet.set(sheet, [...(bySheet.get(sheet) ?? []), area]);
  }
  const seen = new Set<string>();
  return xml.replace(areas, (_, sheet: string) => {
    if (seen.has(sheet)) return '';
    seen.add(sheet);
    return `<definedName name="_xlnm.Print_Area" localSheetId="${sheet}">${bySheet.get(sheet)?.join(',')}</definedName>`;
  });
}

function textOf({ sheet, firstRow, lastRow, firstColumn, lastColumn }: Area): string {
  const from = `$${columnLetters(firstColumn)}$${firstRow}`;
  const to = `$${columnLetters(lastColumn)}$${lastRow}`;
  return `${sheetPrefix(sheet)}${from === to ? from : `${from}:${to}`}`;
}
