import { deflateRawSync } from 'node:zlib';
import { deflateSync, strToU8 } from 'fflate';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../../renderer/engine/errors.ts';
import { openWorkbook } from '../../../../renderer/engine/sheet/xlsx/index.ts';
import type { RefusalCode } from '../../../../shared-types/errors.ts';
import { book, bookParts, packed, textRow, type Part } from './packed.ts';

const header = textRow(1, ['id', 'thread']);
const good = bookParts({ rows: `${header}${textRow(2, ['C-1', 'M10'])}` });

const zeros = (bytes: number): Uint8Array => new Uint8Array(bytes);
function replaced(name: string, change: Partial<Part>): Part[] {
  return good.map((part) => (part.name === name ? { ...part, ...change } : part));
}

const sheet = 'xl/worksheets/sheet1.xml';
const deepXml = `<worksheet>${'<a>'.repeat(100_000)}`;
const laughs = `<!DOCTYPE lolz [<!ENTITY a "aaaaaaaaaa">${Array.from({ length: 12 }, (_, at) => `<!ENTITY ${'abcdefghijklmn'[at + 1]} "${`&${'abcdefghijklmn'[at]};`.repeat(10)}">`).join('')}]><worksheet><sheetData><row><c t="str"><v>&m;</v></c></row></sheetData></worksheet>`;

function overlapping(): Uint8Array {
  const kernel = deflateSync(zeros(90_000));
  const first: Part = { name: 'xl/a0.xml', content: zeros(90_000), packed: kernel };
  const more = Array.from({ length: 500 }, (): Part => ({ ...first, at: 0 }));
  return packed([first, ...more.map((part, at) => ({ ...part, name: `xl/a${at + 1}.xml` }))]);
}

/** Everything known to burst a reader of workbooks, or to lead it astray. */
const bombs: [what: string, make: () => Uint8Array, code: RefusalCode, why: RegExp][] = [
  [
    'a sheet that packs a thousandfold',
    () => packed([...good, { name: 'xl/big.xml', content: zeros(4e6) }]),
    'too-large',
    /grows \d+-fold/,
  ],
  [
    'parts that are too much together',
    () => {
      const part = { content: 'x', packed: zeros(100_000), says: { unpackedBytes: 7.5e6 } };
      return packed([...good, ...Array.from({ length: 7 }, (_, at) => ({ ...part, name: `xl/p${at}.xml` }))]);
    },
    'too-large',
    /all of it has/,
  ],
  [
    'one part that is too much',
    () => packed([...good, { name: 'xl/big.xml', content: 'x', says: { unpackedBytes: 60e6 } }]),
    'too-large',
    /60000000 bytes unpacked/,
  ],
  [
    'too many parts',
    () => packed(Array.from({ length: 2001 }, (_, at) => ({ name: `p${at}.xml`, content: '' }))),
    'too-large',
    /2001 parts/,
  ],
  [
    'a packed file within',
    () => packed([...good, { name: 'xl/embeddings/inner.zip', content: packed(good) }]),
    'unreadable-file',
    /another packed file/,
  ],
  [
    'a packed file under a sheet’s name',
    () => packed(replaced(sheet, { content: packed(good) })),
    'unreadable-file',
    /another packed file/,
  ],
  [
    'a name that leads out',
    () => packed([...good, { name: '../../etc/passwd', content: 'x' }]),
    'unreadable-file',
    /leads out/,
  ],
  [
    'a name from the root',
    () => packed([...good, { name: '/xl/x.xml', content: 'x' }]),
    'unreadable-file',
    /leads out/,
  ],
  ['a name of a drive', () => packed([...good, { name: 'C:\\x.xml', content: 'x' }]), 'unreadable-file', /leads out/],
  [
    'one name twice',
    () => packed([...good, { name: 'XL/Workbook.xml', content: 'x' }]),
    'unreadable-file',
    /same name/,
  ],
  [
    'a size that lies, with ten thousand times as much behind it',
    () =>
      packed(
        replaced(sheet, {
          content: 'x',
          packed: deflateRawSync(zeros(60e6)),
          says: { unpackedBytes: 5000, crc: 0 },
        }),
      ),
    'unreadable-file',
    /has more/,
  ],
  [
    'a size that lies within the ratio',
    () => packed(replaced(sheet, { says: { unpackedBytes: 9 } })),
    'unreadable-file',
    /has more/,
  ],
  [
    'a head that contradicts the directory',
    () => packed(replaced(sheet, { says: { localUnpackedBytes: 7 } })),
    'unreadable-file',
    /differ/,
  ],
  [
    'a head of another name',
    () => packed(replaced(sheet, { says: { localName: 'xl/worksheets/other1.xml' } })),
    'unreadable-file',
    /differ/,
  ],
  ['a checksum that is wrong', () => packed(replaced(sheet, { says: { crc: 1 } })), 'unreadable-file', /checksum/],
  ['an encrypted part', () => packed(replaced(sheet, { flags: 0x801 })), 'unreadable-file', /encrypted/],
  ['a way of packing that is not known', () => packed(replaced(sheet, { method: 99 })), 'unreadable-file', /\(99\)/],
  ['parts on the same bytes', overlapping, 'unreadable-file', /differ|same bytes/],
  ['a directory that is broken off', () => packed(good).slice(0, -30), 'unreadable-file', /broken off/],
  ['the first half of a workbook', () => packed(good).slice(0, 900), 'unreadable-file', /broken off/],
  ['a count that lies', () => packed(good, { count: 3 }), 'unreadable-file', /longer than the parts/],
  ['entities that multiply', () => book({ sheetXml: laughs }), 'unreadable-file', /declares types or entities/],
  [
    'a declaration of a file elsewhere',
    () => book({ sheetXml: '<!DOCTYPE x SYSTEM "file:///etc/passwd"><worksheet/>' }),
    'unreadable-file',
    /declares types/,
  ],
  [
    'an entity nobody knows',
    () => book({ rows: '<row><c t="str"><v>&xxe;</v></c></row>' }),
    'unreadable-file',
    /entity/,
  ],
  [
    'tags nested without end',
    () => packed(replaced(sheet, { content: deepXml, method: 0 })),
    'unreadable-file',
    /nested deeper/,
  ],
  [
    'a reach over every cell there can be',
    () => book({ rows: header, before: '<dimension ref="A1:XFD1048576"/>' }),
    'too-large',
    /17179869184 cells/,
  ],
  [
    'a text there is none of',
    () => book({ rows: '<row r="1"><c r="A1" t="s"><v>4000000</v></c></row>', strings: ['id'] }),
    'unreadable-file',
    /names text 4000000 of 1/,
  ],
  [
    'a cell beyond the last column',
    () => book({ rows: '<row r="1"><c r="ZZZ1"><v>1</v></c></row>' }),
    'unreadable-file',
    /out of order/,
  ],
  [
    'a row beyond the last',
    () => book({ rows: '<row r="99999999"><c><v>1</v></c></row>' }),
    'unreadable-file',
    /out of order/,
  ],
  [
    'rows that go backwards',
    () => book({ rows: `${textRow(5, ['a'])}${textRow(4, ['b'])}` }),
    'unreadable-file',
    /out of order/,
  ],
  ['a number that is none', () => book({ rows: '<row><c><v>1e999</v></c></row>' }), 'unreadable-file', /no number/],
  [
    'a text of a million characters',
    () => book({ rows: header, strings: ['x'.repeat(1_000_000)] }),
    'too-large',
    /packs|grows|characters/,
  ],
  [
    'the old kind of workbook',
    () => Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...zeros(600)]),
    'unreadable-file',
    /old kind/,
  ],
  [
    'a web page under the ending',
    () => strToU8('<html><body><table><tr><td>id</td></tr></table></body></html>'),
    'unreadable-file',
    /web page/,
  ],
  ['a picture', () => Uint8Array.from([0x89, 0x50, 0x4e, 0x47, ...zeros(40)]), 'unreadable-file', /no \.xlsx workbook/],
  ['nothing', () => zeros(0), 'unreadable-file', /no \.xlsx workbook/],
  [
    'a packed file that is no workbook',
    () => packed([{ name: 'readme.txt', content: 'x' }]),
    'unreadable-file',
    /no workbook/,
  ],
  [
    'more bytes than are taken',
    () => {
      const much = zeros(51 * 1024 * 1024);
      much.set([0x50, 0x4b, 3, 4]);
      return much;
    },
    'too-large',
    /52428800|53477376/,
  ],
];

describe('a workbook that would burst or mislead', () => {
  it.each(bombs)('is refused: %s', (_, make, code, why) => {
    const bytes = make();
    const before = process.memoryUsage().rss;
    const began = process.cpuUsage();
    let refused: unknown;
    try {
      openWorkbook(bytes, 'list.xlsx').read(0, null);
    } catch (error) {
      refused = error;
    }
    const took = process.cpuUsage(began);
    const grown = process.memoryUsage().rss - before;
    if (!(refused instanceof RefusedError)) throw new Error(`not refused: ${String(refused)}`);
    expect(refused.refusal).toMatchObject({ code, file: 'list.xlsx' });
    expect(refused.message).toMatch(why);
    // In processor time, which others on the machine do not lengthen much.
    expect((took.user + took.system) / 1000).toBeLessThan(2000);
    expect(grown).toBeLessThan(300 * 1024 * 1024);
  });

  it('is told from one that does neither', () => {
    expect(openWorkbook(packed(good), 'list.xlsx').read(0, null).records).toHaveLength(1);
  });
});
