import { addCharts } from '../../src/workbook/charts/add-charts.js';
import { openWorkbookPackage } from '../../src/workbook/package/index.js';
import { formulaCell, numberCell, textCell, withCells, withParts } from './edit-package.js';

/** The sheet that the user added. */
export const OWN_SHEET = 'My notes';

/** Formulas that the user added, on a sheet of their own and beside the project's: sheet, cell, formula. */
export const OWN_FORMULAS = [
  [OWN_SHEET, 'B2', 'Tariffs!C9*2'],
  [OWN_SHEET, 'B3', 'SUM(B1,B2)'],
  ['Tariffs', 'K9', 'C9-D9'],
  ['Months', 'AZZ9', 'Months!K8/2'],
  ['Months', 'AZZ10', 'Months!K9/2'],
] as const;

/** The user's own column, which their chart shows. */
export const OWN_COLUMN = '$AZZ$';

/** The user's note beside the readings. */
export const OWN_NOTE = { sheet: 'Readings', cell: 'P9', text: 'boiler serviced' } as const;

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006/relationships';
const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';

/**
 * A workbook that someone has lived in: a sheet of their own with formulas, a number format, a comment, a picture and
 * a chart; columns of their own beside the project's; a note beside the readings; a name; a part no program knows.
 *
 * @param bytes a workbook that the project built, with readings from row 8 on
 */
export function livedInWorkbook(bytes: Uint8Array): Uint8Array {
  const stale = 1234;
  const [, , ...beside] = OWN_FORMULAS;
  const besideCells: Record<string, Record<string, string>> = {
    [OWN_NOTE.sheet]: { [OWN_NOTE.cell]: textCell(OWN_NOTE.cell, OWN_NOTE.text) },
  };
  for (const [sheet, cell, formula] of beside) {
    besideCells[sheet] = { ...besideCells[sheet], [cell]: formulaCell(cell, formula, stale) };
  }
  const withOwnCells = withCells(bytes, besideCells);
  const part = OWN_PART;
  const formats = { before: 0 };
  const grown = withParts(
    withOwnCells,
    {
      '[Content_Types].xml': (xml) =>
        xml.replace(
          '</Types>',
          '<Default Extension="png" ContentType="image/png"/><Default Extension="bin" ContentType="application/octet-stream"/>' +
            `<Override PartName="/${part}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>` +
            '<Override PartName="/xl/comments-mine.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"/></Types>',
        ),
      'xl/_rels/workbook.xml.rels': (xml) =>
        xml.replace(
          '</Relationships>',
          `<Relationship Id="mine" Type="${OFFICE}/worksheet" Target="worksheets/my-notes.xml"/></Relationships>`,
        ),
      'xl/workbook.xml': (xml) =>
        xml
          .replace('</sheets>', `<sheet name="${OWN_SHEET}" sheetId="99" r:id="mine"/></sheets>`)
          .replace(
            '</definedNames>',
            `<definedName name="my_budget">'${OWN_SHEET}'!$B$1</definedName></definedNames>`,
          ),
      'xl/styles.xml': (xml) =>
        xml.replace(/<cellXfs count="(\d+)">([\s\S]*?)<\/cellXfs>/, (_, count: string, inner: string) => {
          formats.before = Number(count);
          return `<cellXfs count="${formats.before + 1}">${inner}<xf numFmtId="3" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs>`;
        }),
    },
    {
      [part]:
        `${DECLARATION}<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}"><cols><col min="1" max="1" width="33" customWidth="1"/></cols><sheetData>` +
        `<row r="1">${textCell('A1', 'Budget of the year')}${numberCell('B1', 1500)}</row>` +
        `<row r="2">${textCell('A2', 'Twice the energy')}${formulaCell('B2', OWN_FORMULAS[0][2], stale)}</row>` +
        `<row r="3">${textCell('A3', '=not a formula')}${formulaCell('B3', OWN_FORMULAS[1][2], stale)}</row>` +
        '</sheetData><legacyDrawing r:id="vml"/></worksheet>',
      'xl/worksheets/_rels/my-notes.xml.rels': `${DECLARATION}<Relationships xmlns="${PACKAGE}"><Relationship Id="notes" Type="${OFFICE}/comments" Target="../comments-mine.xml"/><Relationship Id="vml" Type="${OFFICE}/vmlDrawing" Target="../drawings/mine.vml"/></Relationships>`,
      'xl/comments-mine.xml': `${DECLARATION}<comments xmlns="${MAIN}"><authors><author>me</author></authors><commentList><comment ref="B1" authorId="0"><text><t>agreed at home</t></text></comment></commentList></comments>`,
      'xl/drawings/mine.vml':
        '<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel"><v:shape id="_x0000_s1025" type="#_x0000_t202" style="visibility:hidden"><x:ClientData ObjectType="Note"><x:Row>0</x:Row><x:Column>1</x:Column></x:ClientData></v:shape></xml>',
      'custom/unknown.bin': Uint8Array.from({ length: 400 }, (_, index) => (index * 7) % 251),
    },
  );
  return withPicture(withChart(withOwnFormat(grown, part, formats.before)));
}

function withOwnFormat(bytes: Uint8Array, part: string, style: number): Uint8Array {
  return withParts(bytes, { [part]: (xml) => xml.replace('<c r="B1">', `<c r="B1" s="${style}">`) });
}

function withChart(bytes: Uint8Array): Uint8Array {
  return addCharts(bytes, [
    {
      sheet: OWN_SHEET,
      anchor: { fromCell: 'D2', toCell: 'J16' },
      kind: 'clusteredColumn',
      title: 'My months',
      altText: 'Half of what each month used.',
      categoryAxis: { title: 'Month' },
      valueAxis: { title: 'kWh', numberFormat: '0' },
      series: [{ name: 'mine', categories: 'Months!$A$8:$A$10', values: 'Months!$AZZ$8:$AZZ$10' }],
    },
  ]);
}

/** Puts a picture into the drawing that holds the chart. */
function withPicture(bytes: Uint8Array): Uint8Array {
  const relations = openWorkbookPackage(bytes, 'home.xlsx').readPart('xl/worksheets/_rels/my-notes.xml.rels');
  const drawing = /drawings\/(drawing\d+\.xml)/.exec(String(relations))?.[1];
  const picture =
    '<xdr:twoCellAnchor><xdr:from><xdr:col>3</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>20</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from>' +
    '<xdr:to><xdr:col>5</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>24</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to>' +
    '<xdr:pic><xdr:nvPicPr><xdr:cNvPr id="77" name="my picture"/><xdr:cNvPicPr/></xdr:nvPicPr>' +
    `<xdr:blipFill><a:blip xmlns:r="${OFFICE}" r:embed="picture"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill>` +
    '<xdr:spPr><a:prstGeom prst="rect"><a:avLst/></a:prstGeom></xdr:spPr></xdr:pic><xdr:clientData/></xdr:twoCellAnchor>';
  return withParts(
    bytes,
    {
      [`xl/drawings/${drawing}`]: (xml) => xml.replace(/<\/((?:\w+:)?wsDr)>$/, (end) => `${picture}${end}`),
      [`xl/drawings/_rels/${drawing}.rels`]: (xml) =>
        xml.replace(
          '</Relationships>',
          `<Relationship Id="picture" Type="${OFFICE}/image" Target="../media/mine.png"/></Relationships>`,
        ),
    },
    { 'xl/media/mine.png': onePixel() },
  );
}

/** The smallest PNG picture. */
function onePixel(): Buffer {
  return Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
    'base64',
  );
}

/** Part of the user's own sheet, in a workbook that no other program has saved. */
export const OWN_PART = 'xl/worksheets/my-notes.xml';
