/** Packed files made by hand, so that they can lie as no packer would. */
import { deflateSync, strToU8 } from 'fflate';
import { crc32 } from '../../../../renderer/engine/sheet/xlsx/crc32.ts';

export interface Part {
  name: string;
  content: string | Uint8Array;
  /** Bytes as packed, where they are not those of `content`. */
  packed?: Uint8Array;
  /** What is said of it in place of the truth. */
  says?: { unpackedBytes?: number; crc?: number; localUnpackedBytes?: number; localName?: string };
  flags?: number;
  method?: number;
  /** Where the directory says it begins; the place it is put at, unless told. */
  at?: number;
}

export function packed(parts: readonly Part[], says: { count?: number } = {}): Uint8Array {
  const pieces: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let at = 0;
  const put = (piece: Uint8Array): void => {
    pieces.push(piece);
    at += piece.length;
  };
  for (const part of parts) {
    const content = typeof part.content === 'string' ? strToU8(part.content) : part.content;
    const method = part.method ?? 8;
    const data = part.packed ?? (method === 8 ? deflateSync(content) : content);
    const crc = part.says?.crc ?? crc32(content);
    const size = part.says?.unpackedBytes ?? content.length;
    const [name, localName] = [strToU8(part.name), strToU8(part.says?.localName ?? part.name)];
    const flags = part.flags ?? 0x800;
    const start = part.at ?? at;
    if (part.at === undefined) {
      put(
        head(
          0x04034b50,
          { flags, method, crc, packed: data.length, size: part.says?.localUnpackedBytes ?? size },
          localName,
        ),
      );
      put(data);
    }
    directory.push(central({ flags, method, crc, packed: data.length, size, at: start }, name));
  }
  const begin = at;
  for (const piece of directory) put(piece);
  const end = new DataView(new ArrayBuffer(22));
  end.setUint32(0, 0x06054b50, true);
  end.setUint16(8, says.count ?? parts.length, true);
  end.setUint16(10, says.count ?? parts.length, true);
  end.setUint32(12, at - begin, true);
  end.setUint32(16, begin, true);
  put(new Uint8Array(end.buffer));
  const whole = new Uint8Array(at);
  let to = 0;
  for (const piece of pieces) {
    whole.set(piece, to);
    to += piece.length;
  }
  return whole;
}

interface Head {
  flags: number;
  method: number;
  crc: number;
  packed: number;
  size: number;
}

function head(sign: number, x: Head, name: Uint8Array): Uint8Array {
  const view = new DataView(new ArrayBuffer(30 + name.length));
  view.setUint32(0, sign, true);
  view.setUint16(4, 20, true);
  view.setUint16(6, x.flags, true);
  view.setUint16(8, x.method, true);
  view.setUint32(14, x.crc, true);
  view.setUint32(18, x.packed, true);
  view.setUint32(22, x.size, true);
  view.setUint16(26, name.length, true);
  const bytes = new Uint8Array(view.buffer);
  bytes.set(name, 30);
  return bytes;
}

function central(x: Head & { at: number }, name: Uint8Array): Uint8Array {
  const view = new DataView(new ArrayBuffer(46 + name.length));
  view.setUint32(0, 0x02014b50, true);
  view.setUint16(4, 20, true);
  view.setUint16(6, 20, true);
  view.setUint16(8, x.flags, true);
  view.setUint16(10, x.method, true);
  view.setUint32(16, x.crc, true);
  view.setUint32(20, x.packed, true);
  view.setUint32(24, x.size, true);
  view.setUint16(28, name.length, true);
  view.setUint32(42, x.at, true);
  const bytes = new Uint8Array(view.buffer);
  bytes.set(name, 46);
  return bytes;
}

const office = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';

export interface BookOf {
  /** What stands in `<sheetData>`. */
  rows?: string;
  /** What stands before and behind it. */
  before?: string;
  behind?: string;
  strings?: readonly string[];
  stylesXml?: string;
  workbookPr?: string;
  sheets?: readonly { name: string; state?: string; rows: string }[];
  extra?: readonly Part[];
  /** The whole part of the first sheet, in place of `rows`. */
  sheetXml?: string;
}

/** The parts of a workbook as spreadsheets write them. */
export function bookParts(x: BookOf): Part[] {
  const sheets = x.sheets ?? [{ name: 'Sheet 1', rows: x.rows ?? '' }];
  const whole = (rows: string): string =>
    `<?xml version="1.0"?><worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">${x.before ?? ''}<sheetData>${rows}</sheetData>${x.behind ?? ''}</worksheet>`;
  const named = sheets
    .map(
      ({ name, state }, at) =>
        `<sheet name="${name}" sheetId="${at + 1}"${state === undefined ? '' : ` state="${state}"`} r:id="rId${at + 1}"/>`,
    )
    .join('');
  const relation = (id: string, kind: string, target: string): string =>
    `<Relationship Id="${id}" Type="${office}/${kind}" Target="${target}"/>`;
  return [
    { name: '[Content_Types].xml', content: '<Types/>' },
    {
      name: '_rels/.rels',
      content: `<Relationships>${relation('r', 'officeDocument', 'xl/workbook.xml')}</Relationships>`,
    },
    {
      name: 'xl/workbook.xml',
      content: `<workbook xmlns:r="${office}">${x.workbookPr ?? ''}<sheets>${named}</sheets></workbook>`,
    },
    {
      name: 'xl/_rels/workbook.xml.rels',
      content: `<Relationships>${sheets.map((_, at) => relation(`rId${at + 1}`, 'worksheet', `worksheets/sheet${at + 1}.xml`)).join('')}${relation('s', 'sharedStrings', 'sharedStrings.xml')}${relation('t', 'styles', 'styles.xml')}</Relationships>`,
    },
    {
      name: 'xl/sharedStrings.xml',
      content: `<sst>${(x.strings ?? []).map((text) => `<si><t xml:space="preserve">${text}</t></si>`).join('')}</sst>`,
    },
    { name: 'xl/styles.xml', content: x.stylesXml ?? '<styleSheet/>' },
    ...sheets.map(({ rows }, at) => ({
      name: `xl/worksheets/sheet${at + 1}.xml`,
      content: at === 0 && x.sheetXml !== undefined ? x.sheetXml : whole(rows),
    })),
    ...(x.extra ?? []),
  ];
}

export function book(x: BookOf): Uint8Array {
  return packed(bookParts(x));
}

/** A row of texts, each in its cell. */
export function textRow(row: number, texts: readonly string[]): string {
  const cells = texts.map((text) => `<c t="inlineStr"><is><t>${text}</t></is></c>`);
  return `<row r="${row}">${cells.join('')}</row>`;
}
