import { strToU8, zipSync } from 'fflate';
import { cellName } from './cellRef.ts';
import { cellTextMost } from './limits.ts';

const head = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const [packaged, office, main] = [
  'http://schemas.openxmlformats.org/package/2006',
  'http://schemas.openxmlformats.org/officeDocument/2006/relationships',
  'http://schemas.openxmlformats.org/spreadsheetml/2006/main',
];

/** The same table gives the same bytes: every part is of the first day that a packed file can say, wherever it is written. */
const noTime = '1980-01-01T12:00:00';

/**
 * A table as a workbook of one sheet. Every text is a cell of the kind text, in a column that keeps texts as texts, so that a
 * spreadsheet makes no date of 3/8, no number of 00123 and runs nothing; numbers are numbers. There is no formula in it.
 *
 * @param fields - the header
 * @param rows - one cell for each field; null for an empty one
 * @param sheetName - its name, without the signs a sheet's name may not have
 */
export function workbookBytes(
  fields: readonly string[],
  rows: readonly (readonly (string | number | null)[])[],
  sheetName: string,
): Uint8Array {
  const lines = [fields, ...rows].map((cells, index) => rowXml(cells, index + 1));
  const reach = cellName({ column: Math.max(0, fields.length - 1), row: rows.length + 1 });
  const columns = fields
    .map((_, at) => `<col min="${at + 1}" max="${at + 1}" width="20" style="1" customWidth="1"/>`)
    .join('');
  const frozen =
    '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>';
  const sheet = `${head}<worksheet xmlns="${main}"><dimension ref="A1:${reach}"/>${frozen}<cols>${columns}</cols><sheetData>${lines.join('')}</sheetData></worksheet>`;
  const parts = { ...frame(escaped(nameOfSheet(sheetName))), 'xl/worksheets/sheet1.xml': sheet };
  const files = Object.fromEntries(Object.entries(parts).map(([path, text]) => [path, strToU8(text)]));
  return zipSync(files, { mtime: noTime, level: 6 });
}

function rowXml(cells: readonly (string | number | null)[], row: number): string {
  const inside = cells.map((cell, column) => cellXml(cell, cellName({ column, row }))).join('');
  return `<row r="${row}">${inside}</row>`;
}

function cellXml(cell: string | number | null, name: string): string {
  if (cell === null || cell === '') return '';
  if (typeof cell === 'number' && Number.isFinite(cell)) return `<c r="${name}"><v>${cell}</v></c>`;
  const text = escaped(String(cell).slice(0, cellTextMost));
  return `<c r="${name}" s="1" t="inlineStr"><is><t xml:space="preserve">${text}</t></is></c>`;
}

/** A text in XML. Signs no XML can hold, and what would be read as standing for one, are written as "_x0007_". */
function escaped(text: string): string {
  return (
    text
      .replace(/_(?=x[0-9A-Fa-f]{4}_)/g, '_x005F_')
      // eslint-disable-next-line no-control-regex
      .replace(/[\u0000-\u0008\u000b-\u001f\ufffe\uffff]/g, sign16)
      .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
      .replace(/[&<>"]/g, (sign) => entities[sign] ?? sign)
  );
}

const entities: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

function sign16(sign: string): string {
  return `_x${sign.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`;
}

/** At most 31 characters, none of which a sheet's name may not have. */
function nameOfSheet(name: string): string {
  const plain = name
    .replace(/[\\/?*[\]:\p{Cc}]/gu, ' ')
    .trim()
    .slice(0, 31)
    .replace(/^'+|'+$/g, '');
  return plain === '' ? 'Sheet' : plain;
}

/** What stands around the sheet: the same for every one. */
function frame(sheetName: string): Record<string, string> {
  const kind = 'application/vnd.openxmlformats-officedocument.spreadsheetml';
  return {
    '[Content_Types].xml': `${head}<Types xmlns="${packaged}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${kind}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${kind}.worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="${kind}.styles+xml"/></Types>`,
    '_rels/.rels': `${head}<Relationships xmlns="${packaged}/relationships"><Relationship Id="rId1" Type="${office}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    'xl/workbook.xml': `${head}<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="${sheetName}" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    'xl/_rels/workbook.xml.rels': `${head}<Relationships xmlns="${packaged}/relationships"><Relationship Id="rId1" Type="${office}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${office}/styles" Target="styles.xml"/></Relationships>`,
    // Style 1 keeps a text as a text, also in cells that are filled later.
    'xl/styles.xml': `${head}<styleSheet xmlns="${main}"><fonts count="1"><font><sz val="11"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/></cellXfs></styleSheet>`,
  };
}
