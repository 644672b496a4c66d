import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';

const MAIN = 'http://schemas.openxmlformats.org/drawingml/2006/main';
const CHART = 'http://schemas.openxmlformats.org/drawingml/2006/chart';
const SHEET_DRAWING = 'http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006/relationships';

const title = (text: string) =>
  `<c:title><c:tx><c:rich><a:bodyPr/><a:p><a:r><a:t>${text}</a:t></a:r></a:p></c:rich></c:tx><c:overlay val="0"/></c:title>`;
const axis = (kind: string, id: number, other: number, place: string, text: string) =>
  `<c:${kind}><c:axId val="${id}"/><c:scaling><c:orientation val="minMax"/></c:scaling><c:delete val="0"/>` +
  `<c:axPos val="${place}"/>${title(text)}<c:crossAx val="${other}"/></c:${kind}>`;

/** Adds a column chart of `Results!$D$1:$D$5` against `Results!$C$1:$C$5` to the sample workbook's second sheet. */
export function withChart(xlsx: Uint8Array): Uint8Array {
  const parts = unzipSync(xlsx);
  const relation = (type: string, target: string) =>
    strToU8(
      `<Relationships xmlns="${PACKAGE}"><Relationship Id="rId1" Type="${OFFICE}/${type}" Target="${target}"/></Relationships>`,
    );
  const edit = (name: string, from: string, to: string) => {
    parts[name] = strToU8(strFromU8(parts[name]!).replace(from, to));
  };
  edit('xl/worksheets/sheet2.xml', '</worksheet>', `<drawing xmlns:r="${OFFICE}" r:id="rId1"/></worksheet>`);
  parts['xl/worksheets/_rels/sheet2.xml.rels'] = relation('drawing', '../drawings/drawing1.xml');
  parts['xl/drawings/_rels/drawing1.xml.rels'] = relation('chart', '../charts/chart1.xml');
  parts['xl/drawings/drawing1.xml'] = strToU8(
    `<xdr:wsDr xmlns:xdr="${SHEET_DRAWING}" xmlns:a="${MAIN}"><xdr:twoCellAnchor>` +
      '<xdr:from><xdr:col>5</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>1</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from>' +
      '<xdr:to><xdr:col>12</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>18</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:to>' +
      '<xdr:graphicFrame macro=""><xdr:nvGraphicFramePr><xdr:cNvPr id="2" name="Chart 1" descr="Cost rises with use"/>' +
      '<xdr:cNvGraphicFramePr/></xdr:nvGraphicFramePr><xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm>' +
      `<a:graphic><a:graphicData uri="${CHART}"><c:chart xmlns:c="${CHART}" xmlns:r="${OFFICE}" r:id="rId1"/>` +
      '</a:graphicData></a:graphic></xdr:graphicFrame><xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>',
  );
  parts['xl/charts/chart1.xml'] = strToU8(
    `<c:chartSpace xmlns:c="${CHART}" xmlns:a="${MAIN}"><c:chart>${title('Cost by use')}<c:autoTitleDeleted val="0"/>` +
      '<c:plotArea><c:layout/><c:barChart><c:barDir val="col"/><c:grouping val="clustered"/><c:varyColors val="0"/>' +
      '<c:ser><c:idx val="0"/><c:order val="0"/><c:tx><c:strRef><c:f>Results!$A$2</c:f></c:strRef></c:tx>' +
      '<c:cat><c:numRef><c:f>Results!$C$1:$C$5</c:f></c:numRef></c:cat>' +
      '<c:val><c:numRef><c:f>Results!$D$1:$D$5</c:f></c:numRef></c:val></c:ser>' +
      '<c:axId val="1"/><c:axId val="2"/></c:barChart>' +
      axis('catAx', 1, 2, 'b', 'Use (kWh)') +
      axis('valAx', 2, 1, 'l', 'Cost (p)') +
      '</c:plotArea><c:plotVisOnly val="1"/></c:chart></c:chartSpace>',
  );
  edit(
    '[Content_Types].xml',
    '</Types>',
    '<Override PartName="/xl/drawings/drawing1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawing+xml"/>' +
      '<Override PartName="/xl/charts/chart1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawingml.chart+xml"/></Types>',
  );
  return zipSync(parts);
}
