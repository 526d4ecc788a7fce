/** Tables as spreadsheets write them. Source: the headless contract (`row` is the file's line, the header being 1) and RFC 4180. */
import { describe, expect, it } from 'vitest';
import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { readTable, type TableForm } from '../../../renderer/engine/sheet/index.ts';

const form: TableForm = { known: ['id', 'size', 'note'], needed: [['id', 'size']] };

function table(content: Uint8Array | string) {
  const read = readTable({ content, file: 'x.csv' }, form);
  const rows = [...read.records].map(({ row, cells }) => ({
    row,
    id: cells[read.columns.get('id') ?? -1],
    size: cells[read.columns.get('size') ?? -1],
  }));
  return { ...read, rows };
}

function refusal(content: Uint8Array | string): Refusal {
  try {
    table(content);
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('it was read');
}

const utf8 = new TextEncoder();
const text = 'id,size\nÄ,½ in\nB,"7/16"" in"\n';

function utf16(content: string, { littleEndian, mark }: { littleEndian: boolean; mark: boolean }): Uint8Array {
  const bytes = new Uint8Array(2 * content.length + (mark ? 2 : 0));
  const view = new DataView(bytes.buffer);
  if (mark) view.setUint16(0, 0xfeff, littleEndian);
  for (let at = 0; at < content.length; at += 1)
    view.setUint16(2 * at + (mark ? 2 : 0), content.charCodeAt(at), littleEndian);
  return bytes;
}

/** CP1252 of a text that needs only Latin letters, "½" and "€". */
function cp1252(content: string): Uint8Array {
  return Uint8Array.from(content, (character) => (character === '€' ? 0x80 : character.charCodeAt(0)));
}

describe('encodings', () => {
  it.each([
    ['UTF-8', utf8.encode(text)],
    ['UTF-8', utf8.encode(`\uFEFF${text}`)],
    ['UTF-16LE', utf16(text, { littleEndian: true, mark: true })],
    ['UTF-16BE', utf16(text, { littleEndian: false, mark: true })],
    ['UTF-16LE', utf16(text, { littleEndian: true, mark: false })],
    ['UTF-16BE', utf16(text, { littleEndian: false, mark: false })],
    ['CP1252', cp1252(text)],
  ])('%s is read, and said', (encoding, bytes) => {
    const read = table(bytes);
    expect(read.encoding).toBe(encoding);
    expect(read.rows).toEqual([
      { row: 2, id: 'Ä', size: '½ in' },
      { row: 3, id: 'B', size: '7/16" in' },
    ]);
    expect(read.notes).toHaveLength(encoding === 'CP1252' ? 1 : 0);
  });

  it('reads every character of UTF-8 as the platform does', () => {
    let all = '';
    for (let point = 1; point < 0x110000; point += point < 0x3000 ? 1 : 97)
      if (point < 0xd800 || point > 0xdfff) all += String.fromCodePoint(point);
    const quoted = `id,size\n"${all.replaceAll('"', '""')}",1\n`;
    expect(table(utf8.encode(quoted)).rows[0]?.id).toBe(all.replaceAll(/\r\n?/g, '\n'));
  });

  it.each([
    ['broken UTF-8 that is no CP1252 either', [0x69, 0x64, 0x2c, 0x81, 0xc3]],
    ['half a UTF-16 character', [0xff, 0xfe, 0x69, 0x00, 0x64]],
    ['a lone surrogate', [0xff, 0xfe, 0x69, 0x00, 0x00, 0xd8]],
    ['NUL characters', [0x69, 0x64, 0x2c, 0x00, 0x00, 0x61]],
    ['a packed workbook', [0x50, 0x4b, 3, 4, 0, 0]],
  ])('refuses %s', (_, bytes) => {
    expect(refusal(Uint8Array.from(bytes))).toMatchObject({ code: 'unreadable-file', file: 'x.csv' });
  });

  it('takes what only looks like UTF-8 for CP1252: over-long, beyond the last character, half a pair', () => {
    for (const bytes of [
      [0xc0, 0xaf],
      [0xf4, 0xa0, 0xa0, 0xa0],
      [0xed, 0xa0, 0xb0],
      [0xe2, 0x82],
    ])
      expect(table(Uint8Array.from([...utf8.encode('id,size\n'), ...bytes, 0x2c, 0x31, 0x0a])).encoding).toBe('CP1252');
  });
});

describe('delimiters, lines and quotes', () => {
  const rows = [
    { row: 2, id: 'A', size: '1' },
    { row: 3, id: 'B', size: '2' },
  ];

  it.each([
    ['comma', 'id,size\nA,1\nB,2'],
    ['semicolon', 'id;size\nA;1\nB;2\n'],
    ['tab', 'id\tsize\nA\t1\nB\t2\n'],
    ['CRLF', 'id,size\r\nA,1\r\nB,2\r\n'],
    ['CR', 'id,size\rA,1\rB,2\r'],
    ['mixed', 'id,size\nA,1\r\nB,2\r'],
    ['quotes', '"id","size"\n"A","1"\n"B","2"\n'],
    ['blanks and case around names', ' ID , Size\nA,1\nB,2\n'],
    ['another order', 'size,id\n1,A\n2,B\n'],
    ['delimiters left over at the end of every line', 'id,size,,\nA,1,,\nB,2,,\n'],
    ['blank lines at the end', 'id,size\nA,1\nB,2\n\n,\n  ,  \n'],
  ])('%s', (_, content) => {
    expect(table(content).rows).toEqual(rows);
    expect(table(utf8.encode(content)).rows).toEqual(rows);
  });

  it('counts the lines of the file, blank ones and those within cells too', () => {
    const content = 'id,size\n\nA,1\n"B\nb\nb",2\n\n\nC,3\n';
    expect(table(content).rows.map(({ row }) => row)).toEqual([3, 4, 9]);
    expect(table(content.replaceAll('\n', '\r\n')).rows.map(({ row }) => row)).toEqual([3, 4, 9]);
    expect(table(`\n\nsize,id\n1,A\n`).rows).toEqual([{ row: 4, id: 'A', size: '1' }]);
    expect(table('sep=;\nid;size\nA,a;1\n').rows).toEqual([{ row: 3, id: 'A,a', size: '1' }]);
  });

  it('counts them over many blocks as over one', () => {
    const lines = Array.from({ length: 30_000 }, (_, at) =>
      at % 7 === 0 ? `"x${at}\n5/8"" y",${at}` : `5/8" ${at},${at}`,
    );
    const rowsRead = table(`id,size\n${lines.join('\n')}\n`).rows;
    expect(rowsRead).toHaveLength(lines.length);
    let row = 2;
    for (const [at, read] of rowsRead.entries()) {
      expect(read).toEqual({ row, id: at % 7 === 0 ? `x${at}\n5/8" y` : `5/8" ${at}`, size: String(at) });
      row += at % 7 === 0 ? 2 : 1;
    }
  });

  it('tells the delimiter by the names it gives, not by how often it stands there', () => {
    const content = 'id;size;"a,b,c,d,e"\nA;1,5;x\n';
    expect(table(content)).toMatchObject({ delimiter: ';', unknownColumns: [{ name: 'a,b,c,d,e', at: 2 }] });
  });
});

describe('what is no table is refused', () => {
  it.each([
    ['nothing at all', '', 'missing-field', undefined],
    ['blank lines', '\n\n  \n', 'missing-field', undefined],
    ['a column that is needed', 'id,note\nA,1\n', 'missing-field', 'size'],
    ['a column twice', 'id,size,Size\nA,1,2\n', 'duplicate-key', 'Size'],
    ['an unknown column twice', 'id,size,x,X \nA,1,2,3\n', 'duplicate-key', 'X'],
    ['merged cells in the header', 'id,,size\nA,1,2\n', 'missing-field', undefined],
    ['a merged cell at its end', 'id,size,\nA,1,2\n', 'missing-field', undefined],
    ['a title above the header', 'Callouts of sheet 3,,\nid,size,note\nA,1,2\n', 'missing-field', undefined],
    ['a quotation mark that nothing closes', 'id,size\nA,1\n"B,2\nC,3\n', 'unreadable-file', undefined],
    ['a quotation mark within a quoted cell', 'id,size\n"7/16" in",2\n', 'unreadable-file', undefined],
  ])('%s', (_, content, code, field) => {
    const told = refusal(content);
    expect(told).toMatchObject({ code, file: 'x.csv', ...(field === undefined ? {} : { field }) });
    expect(told.message).toMatch(/\w/);
  });

  it('names the line of a quotation mark', () => {
    expect(refusal('id,size\nA,1\n"B,2\nC,3\n').row).toBe(3);
  });

  it('names the row of every one that is too long or too short, and reads the rest', () => {
    const read = table('id,size\nA,1,9\nB,2\nC\n');
    expect(read.rows).toEqual([{ row: 3, id: 'B', size: '2' }]);
    expect(read.ragged.map(({ row, value }) => [row, value])).toEqual([
      [2, 3],
      [4, 1],
    ]);
  });

  it('takes a table without rows', () => {
    expect(table('id,size\n').rows).toEqual([]);
  });

  it('takes names that scripts stumble over for names', () => {
    expect(table('id,size,__proto__,constructor\nA,1,2,3\n').unknownColumns.map(({ name }) => name)).toEqual([
      '__proto__',
      'constructor',
    ]);
  });
});
