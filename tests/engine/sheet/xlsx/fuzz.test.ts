import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../../renderer/engine/errors.ts';
import { openWorkbook } from '../../../../renderer/engine/sheet/xlsx/index.ts';
import { book, bookParts, packed, textRow } from './packed.ts';

/** In its short form; `BAGWRIGHT_CASES=4000` is the long one. */
const trials = Number(process.env['BAGWRIGHT_CASES'] ?? 500);

const sound = book({
  rows: `${textRow(1, ['id', 'torque'])}<row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2" s="1"><v>45359</v></c></row>`,
  strings: ['C-1'],
  stylesXml: '<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs></styleSheet>',
  behind: '<mergeCells><mergeCell ref="A4:B4"/></mergeCells>',
});

/** Read whole or refused with a reason; nothing else may come of any bytes. */
function outcome(bytes: Uint8Array): 'read' | 'refused' {
  const began = performance.now();
  try {
    const workbook = openWorkbook(bytes, 'f.xlsx');
    for (const index of workbook.sheets.keys()) workbook.read(index, null);
    return 'read';
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    expect(error.refusal.file).toBe('f.xlsx');
    expect(error.message.length).toBeGreaterThan(10);
    return 'refused';
  } finally {
    expect(performance.now() - began).toBeLessThan(5000);
  }
}

function counted(run: (count: (what: 'read' | 'refused') => void) => void): Record<'read' | 'refused', number> {
  const counts = { read: 0, refused: 0 };
  run((what) => (counts[what] += 1));
  return counts;
}

describe('a damaged workbook', () => {
  it('is refused or read, whatever bytes are changed', () => {
    const change = fc.tuple(fc.nat(sound.length - 1), fc.nat(255));
    const counts = counted((count) =>
      fc.assert(
        fc.property(fc.array(change, { minLength: 1, maxLength: 12 }), (changes) => {
          const bytes = sound.slice();
          for (const [at, byte] of changes) bytes[at] = byte;
          count(outcome(bytes));
        }),
        { seed: 19, numRuns: trials },
      ),
    );
    expect(counts.refused).toBeGreaterThan(trials * 0.75);
  });

  it('is refused wherever it is broken off', () => {
    for (let length = 0; length < sound.length; length += 1) expect(outcome(sound.slice(0, length))).toBe('refused');
  });

  it('is refused or read, whatever stands in its sheet', () => {
    const piece = fc.constantFrom(
      ...['<row r="2">', '</row>', '<row>', '<c r="A2">', '<c r="B2" t="s">', '<c t="b" s="1">', '</c>', '<v>', '</v>'],
      ...[
        '<v>1</v>',
        '<f>A1</f>',
        '<is><t>x</t></is>',
        '<t>',
        '</t>',
        '0',
        '45359',
        '&amp;',
        '&#0;',
        '<![CDATA[',
        ']]>',
      ],
      ...['<!--', '-->', '<!DOCTYPE x>', '<mergeCell ref="A1:B2"/>', '<dimension ref="A1"/>', '"', "'", '<x:c/>', '>'],
    );
    const counts = counted((count) =>
      fc.assert(
        fc.property(fc.array(piece, { maxLength: 40 }), (pieces) => {
          count(outcome(book({ rows: `${textRow(1, ['id', 'torque'])}${pieces.join('')}` })));
        }),
        { seed: 24, numRuns: trials },
      ),
    );
    expect(counts.read).toBeGreaterThan(trials * 0.005);
    expect(counts.refused).toBeGreaterThan(trials * 0.25);
  });

  it('is refused or read, whatever stands in any of its parts', () => {
    fc.assert(
      fc.property(fc.nat(6), fc.string({ unit: 'binary', maxLength: 200 }), fc.nat(400), (which, text, at) => {
        const parts = bookParts({ rows: textRow(1, ['id']) }).map((part, index) => {
          if (index !== which || typeof part.content !== 'string') return part;
          return { ...part, content: `${part.content.slice(0, at)}${text}${part.content.slice(at)}` };
        });
        outcome(packed(parts));
      }),
      { seed: 25, numRuns: trials },
    );
  });
});
